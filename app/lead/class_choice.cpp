#include "app/lead/class_choice.h"

#include "app/lead/lead_words.h"
#include "common/script/plan.h"

#include <QCoreApplication>
#include <QDir>
#include <QFileInfo>

#include <algorithm>

namespace vh::lead
{

namespace
{
QString say(const char* words)
{
    return QCoreApplication::translate("vh::lead::ClassChoice", words);
}
} // namespace

void ClassChoice::offer(const write::ClassOffers& offers)
{
    const QString chosen = path();
    m_offers = offers;
    std::vector<ClassFile> files;
    for (const write::ClassOffer& each : offers.classes)
        files.push_back({each.path, each.title, each.about, each.heading});
    const auto isChosen = [&](const ClassFile& file) { return file.path == chosen; };
    if (!chosen.isEmpty() && std::none_of(files.begin(), files.end(), isChosen))
        files.push_back(m_view.files[static_cast<std::size_t>(m_view.chosen)]); // from elsewhere
    const auto at = std::find_if(files.begin(), files.end(), isChosen);
    m_view.chosen = at == files.end() ? -1 : static_cast<int>(at - files.begin());
    m_view.files = std::move(files);
    m_view.used = m_script && m_offers.used ? m_offers.used(chosen) : QStringList();
}

void ClassChoice::offerFolder(const QString& folder)
{
    const QDir dir(folder);
    std::vector<ClassFile> found;
    for (const QString& name : dir.entryList({QStringLiteral("*.yaml")}, QDir::Files | QDir::Readable, QDir::Name)) {
        const QString path = dir.absoluteFilePath(name);
        const auto same = [&](const ClassFile& file) { return file.path == path; };
        if (std::any_of(m_view.files.begin(), m_view.files.end(), same))
            continue;
        const auto script = readScriptFile(path);
        found.push_back({path, script ? QString::fromStdString(script->title) : name});
    }
    std::sort(found.begin(), found.end(),
              [](const ClassFile& a, const ClassFile& b) { return a.words.localeAwareCompare(b.words) < 0; });
    m_view.files.insert(m_view.files.end(), found.begin(), found.end());
}

void ClassChoice::choose(const QString& path)
{
    auto script = readScriptFile(path);
    auto& files = m_view.files;
    auto file = std::find_if(files.begin(), files.end(), [&](const ClassFile& each) { return each.path == path; });
    const QString words = script ? QString::fromStdString(script->title) : QFileInfo(path).fileName();
    if (file == files.end())
        file = files.insert(files.end(), {path, words});
    file->words = words;
    ChoiceView view;
    view.chosen = static_cast<int>(file - files.begin());
    view.files = std::move(files);
    m_view = std::move(view);
    m_script.reset();
    if (script) {
        tellOf(*script);
        if (m_offers.used)
            m_view.used = m_offers.used(path);
        m_script = std::make_shared<const ClassScript>(std::move(*script));
        return;
    }
    for (const ScriptError& error : script.error())
        m_view.mistakes.push_back({say("line %1").arg(error.line), QString::fromStdString(error.message),
                                   QString::fromStdString(error.remedy)});
}

void ClassChoice::tellOf(const ClassScript& script)
{
    const TimingPlan plan = planOf(script);
    std::size_t steps = 0;
    for (std::size_t i = 0; i < script.sections.size(); ++i) {
        steps += script.sections[i].steps.size();
        m_view.sections << QString::fromStdString(script.sections[i].title);
        m_view.minutes << lengthWords(plan.sectionLengths[i]);
    }
    m_view.title = QString::fromStdString(script.title);
    m_view.about = say("%1 minutes wanted, %2 as it is written, %3 steps")
                       .arg(script.plannedMinutes)
                       .arg(lengthWords(plan.total))
                       .arg(steps);
}

QString ClassChoice::path() const
{
    return m_view.chosen < 0 ? QString() : m_view.files[static_cast<std::size_t>(m_view.chosen)].path;
}

QString ClassChoice::folder() const
{
    return m_view.chosen < 0 ? QString() : QFileInfo(path()).absolutePath();
}

} // namespace vh::lead
