#include "app/lead/class_choice.h"

#include "app/lead/lead_words.h"
#include "common/script/limits.h"
#include "common/script/plan.h"
#include "common/script/reader.h"
#include "common/script/spoken_pace.h"

#include <QCoreApplication>
#include <QDir>
#include <QFile>

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

tl::expected<ClassScript, std::vector<ScriptError>> readScriptFile(const QString& path)
{
    const std::string name = QFileInfo(path).fileName().toStdString();
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return tl::unexpected(
            std::vector<ScriptError>{{name, 1, 1, "The file cannot be opened.",
                                      "Check that it is there and that you may read it.", "file-unreadable"}});
    // One byte more than is allowed: the reader then says that the file is too large.
    const QByteArray bytes = file.read(static_cast<qint64>(limits::kMaxScriptBytes) + 1);
    return readClassScript({bytes.constData(), static_cast<std::size_t>(bytes.size())}, name, plannedAsSpoken);
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

QString ClassChoice::folder() const
{
    if (m_view.chosen < 0)
        return {};
    return QFileInfo(m_view.files[static_cast<std::size_t>(m_view.chosen)].path).absolutePath();
}

} // namespace vh::lead
