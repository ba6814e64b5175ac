// The classes that ship: they read, their pictures are there, and they keep what the trade asks of a class.
#include "common/script/pace.h"
#include "common/script/plan.h"
#include "common/script/reader.h"
#include "common/script/writer.h"

#include <QDirIterator>
#include <QFile>
#include <QFileInfo>
#include <QtTest>

using namespace vh;

namespace
{

QByteArray bytesOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

/// "section 3, step 2", for the message of a failing check.
std::string placeOf(std::size_t section, std::size_t step)
{
    return "section " + std::to_string(section + 1) + ", step " + std::to_string(step + 1);
}

template <class Check>
void forEachStep(const ClassScript& script, Check&& check)
{
    for (std::size_t i = 0; i < script.sections.size(); ++i)
        for (std::size_t k = 0; k < script.sections[i].steps.size(); ++k)
            check(script.sections[i], script.sections[i].steps[k], placeOf(i, k));
}

bool isSpokenByPeople(const Turn& turn)
{
    return turn.kind == TurnKind::withMe || turn.kind == TurnKind::yours;
}

} // namespace

class TestContent : public QObject
{
    Q_OBJECT

    static ClassScript scriptAt(const QString& path)
    {
        const QByteArray bytes = bytesOf(path);
        const auto script = readClassScript({bytes.data(), static_cast<std::size_t>(bytes.size())}, path.toStdString());
        if (script)
            return *script;
        for (const ScriptError& error : script.error())
            qWarning("%s:%d:%d %s %s", error.file.c_str(), error.line, error.column, error.message.c_str(),
                     error.remedy.c_str());
        return {};
    }

    static void eachClass()
    {
        QTest::addColumn<QString>("path");
        QDirIterator files(VH_SOURCE_DIR "/content", {"*.yaml"}, QDir::Files, QDirIterator::Subdirectories);
        while (files.hasNext()) {
            const QString path = files.next();
            QTest::newRow(qPrintable(files.fileName())) << path;
        }
    }

private slots:
    void thereIsAClass() { QVERIFY(QDir(VH_SOURCE_DIR "/content/classes").entryList({"*.yaml"}).size() >= 1); }

    void itReadsAndTakesTheMinutesItNames_data() { eachClass(); }
    void itReadsAndTakesTheMinutesItNames()
    {
        QFETCH(QString, path);
        const ClassScript script = scriptAt(path);
        QVERIFY(!script.sections.empty());
        const auto gap = std::chrono::abs(planOf(script).total - std::chrono::minutes(script.plannedMinutes));
        QVERIFY2(gap <= std::chrono::minutes(1), std::to_string(gap.count()).c_str());
        QVERIFY(readClassScript(writeClassScript(script), "again.yaml") == script);
    }

    void itsPicturesAreThereAndHarmless_data() { eachClass(); }
    void itsPicturesAreThereAndHarmless()
    {
        QFETCH(QString, path);
        forEachStep(scriptAt(path), [&](const Section&, const Step& step, const std::string& place) {
            if (!step.picture)
                return;
            const QByteArray svg = bytesOf(QFileInfo(path).path() + '/' + QString::fromStdString(step.picture->file));
            QVERIFY2(svg.contains("<svg"), place.c_str());
            for (const char* reachesOut : {"href", "<script", "<image", "<foreignObject", "<!ENTITY", "@import"})
                QVERIFY2(!svg.contains(reachesOut), reachesOut);
        });
    }

    void peopleBreatheBeforeTheySpeak_data() { eachClass(); }
    void peopleBreatheBeforeTheySpeak()
    {
        QFETCH(QString, path);
        forEachStep(scriptAt(path), [](const Section&, const Step& step, const std::string& place) {
            for (const Round& round : step.rounds)
                for (std::size_t i = 0; i < round.turns.size(); ++i)
                    if (isSpokenByPeople(round.turns[i]))
                        QVERIFY2(i > 0 && round.turns[i - 1].kind == TurnKind::ready, place.c_str());
        });
    }

    // At most 4 syllables a second in what is repeated or read: above that some people rush (see pace.h). Numbers at
    // most 2 a second: common practice.
    void nothingIsRushed_data() { eachClass(); }
    void nothingIsRushed()
    {
        QFETCH(QString, path);
        forEachStep(scriptAt(path), [](const Section& section, const Step& step, const std::string& place) {
            const auto words = QString::fromStdString(step.text).split(' ', Qt::SkipEmptyParts).size();
            for (const Round& round : step.rounds)
                for (const Turn& turn : round.turns) {
                    const double seconds = static_cast<double>(turn.planned.count()) / 1000.0;
                    const bool counts = section.kind == SectionKind::counting && isSpokenByPeople(turn);
                    const bool repeats = isSpokenByPeople(turn) && section.kind != SectionKind::warmUp &&
                                         section.kind != SectionKind::pitchGlide;
                    QVERIFY2(!repeats || vowelGroups(step.text) <= 4.0 * seconds, place.c_str());
                    QVERIFY2(!counts || static_cast<double>(words) <= 2.0 * seconds, place.c_str());
                }
        });
    }

    void longVowelsAreModerateAndComeSeveralTimes_data() { eachClass(); }
    void longVowelsAreModerateAndComeSeveralTimes()
    {
        QFETCH(QString, path);
        forEachStep(scriptAt(path), [](const Section& section, const Step& step, const std::string& place) {
            if (section.kind != SectionKind::sustainedVowel)
                return;
            std::size_t alone = 0;
            for (const Round& round : step.rounds)
                for (const Turn& turn : round.turns)
                    if (turn.kind == TurnKind::yours) {
                        QVERIFY2(turn.planned >= Millis{5000} && turn.planned <= Millis{8000}, place.c_str());
                        ++alone;
                    }
            QVERIFY2(alone == 0 || alone >= 3, place.c_str());
        });
    }

    void pausesShowNothingAndPhrasesComeTwice_data() { eachClass(); }
    void pausesShowNothingAndPhrasesComeTwice()
    {
        QFETCH(QString, path);
        forEachStep(scriptAt(path), [](const Section& section, const Step& step, const std::string& place) {
            if (section.kind == SectionKind::pause)
                QVERIFY2(step.text.empty() && !step.picture, place.c_str());
            const bool spoken = std::ranges::any_of(step.rounds[0].turns, isSpokenByPeople);
            if (section.kind == SectionKind::phrases && spoken)
                QVERIFY2(step.rounds.size() >= 2 && !step.rounds[0].moreVoice && step.rounds[1].moreVoice,
                         place.c_str());
        });
    }

    void theCautionsAreSpokenAtTheStart_data() { eachClass(); }
    void theCautionsAreSpokenAtTheStart()
    {
        QFETCH(QString, path);
        const ClassScript script = scriptAt(path);
        QVERIFY(!script.sections.empty() && script.sections[0].kind == SectionKind::opening);
        std::string spoken;
        for (const Step& step : script.sections[0].steps)
            spoken += step.text + "\n";
        for (const char* caution : {"hurts", "dizzy", "short of breath", "hoarse", "swallowing plan", "practice aid",
                                    "diagnosis", "clinician"})
            QVERIFY2(spoken.find(caution) != std::string::npos, caution);
    }
};

QTEST_GUILESS_MAIN(TestContent)
#include "test_content.moc"
