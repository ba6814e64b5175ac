#include "app/write/laid_out_words.h"

#include "app/lead/lead_words.h"
#include "common/script/shapes.h"

#include <QCoreApplication>

#include <algorithm>
#include <map>

namespace vh::write
{

namespace
{

QString words(const char* text)
{
    return QCoreApplication::translate("vh::write::LaidOut", text);
}

/// "a, b and c".
QString listed(const QStringList& all)
{
    if (all.isEmpty())
        return words("nothing");
    if (all.size() == 1)
        return all.front();
    return words("%1 and %2").arg(all.mid(0, all.size() - 1).join(QStringLiteral(", ")), all.back());
}

QString counted(std::size_t count, const char* one, const char* many)
{
    return count == 1 ? words(one) : words(many).arg(count);
}

} // namespace

ScriptRail::State railOf(const ClassScript& script, const OwnPace& pace)
{
    const TimingPlan plan = planOf(script, pace);
    ScriptRail::State rail;
    for (std::size_t i = 0; i < script.sections.size(); ++i) {
        const Section& section = script.sections[i];
        ScriptRail::Part part;
        part.title = QString::fromStdString(section.title);
        part.planned = plan.sectionLengths[i];
        part.pause = section.kind == SectionKind::pause;
        part.label = lead::kindWords(section.kind);
        rail.parts.push_back(std::move(part));
    }
    return rail;
}

QString lengthWords(const ClassScript& script, const OwnPace& pace)
{
    const QString length = lead::lengthWords(planOf(script, pace).total);
    return pace.isAsPlanned() ? length : words("%1 at your pace").arg(length);
}

QString leftToWriteWords(const ClassScript& script)
{
    std::map<SectionKind, std::size_t> open;
    std::size_t leadIns = 0;
    for (const Section& section : script.sections)
        for (const Step& step : section.steps) {
            if (!isToWrite(step))
                continue;
            const bool shown = step.rounds.size() == 1 && step.rounds.front().turns.size() == 1;
            shown ? ++leadIns : ++open[section.kind];
        }
    QStringList all;
    if (const auto count = open[SectionKind::phrases])
        all << counted(count, "one sentence", "%1 sentences");
    if (const auto count = open[SectionKind::categoryNaming])
        all << counted(count, "one group of things to name", "%1 groups of things to name");
    if (const auto count = open[SectionKind::passage])
        all << counted(count, "a story", "a story in %1 parts");
    if (const auto count = open[SectionKind::openTalk])
        all << counted(count, "one question", "%1 questions");
    if (leadIns > 0)
        all << counted(leadIns, "one line of your own before an exercise", "%1 lines of your own before exercises");
    return listed(all);
}

QString readyWords(const ClassScript& script)
{
    const auto has = [&](SectionKind kind) {
        return std::ranges::any_of(script.sections, [&](const Section& section) { return section.kind == kind; });
    };
    QStringList all;
    const std::pair<SectionKind, const char*> kinds[] = {{SectionKind::opening, "the welcome with its cautions"},
                                                         {SectionKind::warmUp, "the warm-up"},
                                                         {SectionKind::sustainedVowel, "long vowels"},
                                                         {SectionKind::pitchGlide, "glides"},
                                                         {SectionKind::counting, "counting"},
                                                         {SectionKind::backOfTongue, "back-of-tongue lines"},
                                                         {SectionKind::pause, "water pauses"},
                                                         {SectionKind::closing, "the goodbye"}};
    for (const auto& [kind, name] : kinds)
        if (has(kind))
            all << words(name);
    return listed(all);
}

} // namespace vh::write
