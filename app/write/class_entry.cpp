#include "app/write/class_entry.h"

#include "app/write/draft_file.h"
#include "app/write/folded.h"
#include "common/script/plan.h"
#include "common/script/review.h"

#include <QCoreApplication>
#include <QFile>
#include <QFileInfo>

namespace vh::write
{

namespace
{

QString textOf(const std::string& utf8)
{
    return QString::fromStdString(utf8);
}

void addLines(ClassEntry& entry, const QString& text)
{
    for (const QString& line : text.split(QLatin1Char('\n'))) {
        entry.lines += line.trimmed().toUtf8() + '\n';
        entry.folded += folded(line) + '\n';
    }
}

void tellOf(const ClassScript& script, ClassEntry& entry)
{
    const TimingPlan plan = planOf(script);
    entry.title = textOf(script.title);
    entry.theme = textOf(script.theme);
    entry.language = textOf(script.language);
    entry.plannedMinutes = script.plannedMinutes;
    entry.length = plan.total;
    for (std::size_t i = 0; i < script.sections.size(); ++i) {
        const Section& section = script.sections[i];
        entry.steps += static_cast<int>(section.steps.size());
        const QString first = section.steps.empty() ? QString() : textOf(section.steps.front().text);
        entry.parts.push_back({textOf(section.title), section.kind, plan.sectionLengths[i],
                               first.section(QLatin1Char('\n'), 0, 0).trimmed()});
        addLines(entry, textOf(section.title));
        for (const Step& step : section.steps) {
            if (!step.text.empty())
                addLines(entry, textOf(step.text));
            if (step.picture && !entry.pictures.contains(textOf(step.picture->file)))
                entry.pictures << textOf(step.picture->file);
        }
    }
    for (const std::string& sentence : sentencesSaid(script))
        entry.sentences += QByteArray::fromStdString(sentence) + '\n';
}

void tellOfDraft(ClassEntry& entry)
{
    QFile file(entry.path + QLatin1String(kDraftEnding));
    if (!file.open(QIODevice::ReadOnly))
        return;
    const auto draft = readDraft(file.readAll());
    if (!draft) {
        entry.mistakes.push_back({1, QCoreApplication::translate("vh::write", "The draft of this class is damaged."),
                                  QCoreApplication::translate("vh::write", "What can be read in it is kept.")});
        return;
    }
    entry.unfinished = true;
    tellOf(draft->script, entry);
    if (entry.title.trimmed().isEmpty())
        entry.title = QFileInfo(entry.path).completeBaseName();
    entry.headFolded = folded(entry.title) + folded(entry.theme);
}

} // namespace

ClassEntry unreadEntry(const QString& path, qint64 size, qint64 modified, bool bundled)
{
    ClassEntry entry;
    entry.path = path;
    entry.size = size;
    entry.modified = modified;
    entry.bundled = bundled;
    entry.unread = true;
    entry.title = QFileInfo(path).completeBaseName();
    entry.headFolded = folded(entry.title);
    return entry;
}

ClassEntry entryOf(const QString& path, qint64 size, qint64 modified, bool bundled)
{
    ClassEntry entry = unreadEntry(path, size, modified, bundled);
    entry.unread = false;
    if (!QFile::exists(path)) {
        tellOfDraft(entry);
        return entry;
    }
    const auto script = readScriptFile(path);
    if (script) {
        tellOf(*script, entry);
        entry.headFolded = folded(entry.title) + folded(entry.theme);
        return entry;
    }
    for (const ScriptError& error : script.error())
        if (entry.mistakes.size() < kMostMistakes)
            entry.mistakes.push_back({error.line, textOf(error.message), textOf(error.remedy)});
    return entry;
}

} // namespace vh::write
