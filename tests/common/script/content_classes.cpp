#include "tests/common/script/content_classes.h"

#include "common/script/reader.h"
#include "common/script/spoken_pace.h"

#include <QDirIterator>
#include <QFile>
#include <QFileInfo>
#include <QRegularExpression>
#include <QtTest>

#include <algorithm>

namespace vh::content
{

QByteArray bytesOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

QStringList paths()
{
    QStringList all;
    QDirIterator files(VH_SOURCE_DIR "/content", {"*.yaml"}, QDir::Files, QDirIterator::Subdirectories);
    while (files.hasNext())
        all << files.next();
    all.sort();
    return all;
}

void eachClass()
{
    QTest::addColumn<QString>("path");
    for (const QString& path : paths())
        QTest::newRow(qPrintable(QFileInfo(path).fileName())) << path;
}

ClassScript scriptAt(const QString& path)
{
    const QByteArray bytes = bytesOf(path);
    const auto script =
        readClassScript({bytes.data(), static_cast<std::size_t>(bytes.size())}, path.toStdString(), plannedAsSpoken);
    if (script)
        return *script;
    for (const ScriptError& error : script.error())
        qWarning("%s:%d:%d %s %s", error.file.c_str(), error.line, error.column, error.message.c_str(),
                 error.remedy.c_str());
    return {};
}

bool isEnglish(const ClassScript& script)
{
    return script.language == "en" || script.language.starts_with("en-");
}

bool isSpokenByPeople(const Turn& turn)
{
    return turn.kind == TurnKind::withMe || turn.kind == TurnKind::yours;
}

bool isSpoken(const Step& step)
{
    return std::ranges::any_of(step.rounds,
                               [](const Round& round) { return std::ranges::any_of(round.turns, isSpokenByPeople); });
}

bool isExercise(SectionKind kind)
{
    switch (kind) {
    case SectionKind::sustainedVowel:
    case SectionKind::pitchGlide:
    case SectionKind::counting:
    case SectionKind::phrases:
    case SectionKind::categoryNaming:
    case SectionKind::backOfTongue:
    case SectionKind::passage:
        return true;
    default:
        return false;
    }
}

void forEachStep(const ClassScript& script,
                 const std::function<void(const Section&, const Step&, const std::string&)>& check)
{
    for (std::size_t i = 0; i < script.sections.size(); ++i)
        for (std::size_t k = 0; k < script.sections[i].steps.size(); ++k)
            check(script.sections[i], script.sections[i].steps[k],
                  "section " + std::to_string(i + 1) + ", step " + std::to_string(k + 1));
}

std::vector<std::string> sentencesOf(const std::string& text)
{
    static const QRegularExpression kEnd(QStringLiteral("[.!?]+"));
    static const QRegularExpression kNoWord(QStringLiteral("[^\\p{L}\\p{N}']+"));
    std::vector<std::string> all;
    for (const QString& part : QString::fromStdString(text).split(kEnd)) {
        const QString words = QString(part).replace(kNoWord, QStringLiteral(" ")).trimmed().toLower();
        if (!words.isEmpty())
            all.push_back(words.toStdString());
    }
    return all;
}

} // namespace vh::content
