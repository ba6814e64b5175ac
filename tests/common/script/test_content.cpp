// The classes that ship: each reads, takes its time, and keeps what the trade asks of a class.
#include "common/script/pace.h"
#include "common/script/plan.h"
#include "common/script/reader.h"
#include "common/script/writer.h"
#include "tests/common/script/content_classes.h"

#include <QtTest>

#include <map>

using namespace vh;
using namespace vh::content;

class TestContent : public QObject
{
    Q_OBJECT

private slots:
    void itReadsAndTakesTheMinutesItNames_data() { eachClass(); }
    void itReadsAndTakesTheMinutesItNames()
    {
        QFETCH(QString, path);
        const ClassScript script = scriptAt(path);
        QVERIFY(!script.sections.empty());
        QVERIFY(script.plannedMinutes >= 18 && script.plannedMinutes <= 22);
        const auto total = planOf(script).total;
        const auto gap = std::chrono::abs(total - std::chrono::minutes(script.plannedMinutes));
        QVERIFY2(gap <= std::chrono::minutes(1), std::to_string(gap.count()).c_str());
        QVERIFY(total >= std::chrono::minutes(18) && total <= std::chrono::minutes(22));
        QVERIFY(readClassScript(writeClassScript(script), "again.yaml") == script);
    }

    void someOfItMayBeLeftOutToSaveTime_data() { eachClass(); }
    void someOfItMayBeLeftOutToSaveTime()
    {
        QFETCH(QString, path);
        int optional = 0;
        forEachStep(scriptAt(path), [&](const Section& section, const Step& step, const std::string& place) {
            optional += step.optionalDearness.has_value();
            const bool always = section.kind == SectionKind::opening || section.kind == SectionKind::closing;
            QVERIFY2(!always || !step.optionalDearness, place.c_str());
        });
        QVERIFY(optional >= 3);
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
            const auto words = QString::fromStdString(step.text).simplified().split(' ', Qt::SkipEmptyParts).size();
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

    // Held sounds, too, in the warm-up and the glides: 10 s is the most that a leader allows by default.
    void longVowelsAreModerateAndComeSeveralTimes_data() { eachClass(); }
    void longVowelsAreModerateAndComeSeveralTimes()
    {
        QFETCH(QString, path);
        forEachStep(scriptAt(path), [](const Section& section, const Step& step, const std::string& place) {
            const bool vowel = section.kind == SectionKind::sustainedVowel;
            if (!vowel && section.kind != SectionKind::warmUp && section.kind != SectionKind::pitchGlide)
                return;
            std::size_t alone = 0;
            for (const Round& round : step.rounds)
                for (const Turn& turn : round.turns) {
                    QVERIFY2(!isSpokenByPeople(turn) || turn.planned <= Millis{10'000}, place.c_str());
                    if (vowel && turn.kind == TurnKind::yours) {
                        QVERIFY2(turn.planned >= Millis{5000} && turn.planned <= Millis{8000}, place.c_str());
                        ++alone;
                    }
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
            if (section.kind == SectionKind::phrases && isSpoken(step))
                QVERIFY2(step.rounds.size() >= 2 && !step.rounds[0].moreVoice && step.rounds[1].moreVoice,
                         place.c_str());
        });
    }

    void aWaterPauseStandsBetweenEachTwoExercises_data() { eachClass(); }
    void aWaterPauseStandsBetweenEachTwoExercises()
    {
        QFETCH(QString, path);
        bool rested = true;
        for (const Section& section : scriptAt(path).sections) {
            if (section.kind == SectionKind::pause)
                rested = true;
            if (!isExercise(section.kind))
                continue;
            QVERIFY2(rested, section.title.c_str());
            rested = false;
        }
    }

    void whatIsReadHasAVowelToStretch_data() { eachClass(); }
    void whatIsReadHasAVowelToStretch()
    {
        QFETCH(QString, path);
        forEachStep(scriptAt(path), [](const Section& section, const Step& step, const std::string& place) {
            if (section.kind == SectionKind::phrases || section.kind == SectionKind::passage)
                QVERIFY2(!isSpoken(step) || !step.stretches.empty(), place.c_str());
        });
    }

    void textsSuitALargeScreen_data() { eachClass(); }
    void textsSuitALargeScreen()
    {
        QFETCH(QString, path);
        forEachStep(scriptAt(path), [](const Section& section, const Step& step, const std::string& place) {
            const QString text = QString::fromStdString(step.text);
            QVERIFY2(text.size() <= 350, place.c_str());
            if (section.kind == SectionKind::phrases || section.kind == SectionKind::passage)
                for (const QString& line : text.split('\n'))
                    QVERIFY2(line.size() <= 60, place.c_str());
        });
    }

    void theCautionsAreSpokenAtTheStart_data() { eachClass(); }
    void theCautionsAreSpokenAtTheStart()
    {
        static const std::map<std::string, std::vector<const char*>> kCautions{
            {"en",
             {"hurts", "dizzy", "short of breath", "hoarse", "swallowing plan", "practice aid", "diagnosis",
              "clinician"}},
            {"de", {"wehtut", "schwindlig", "Luft", "heiser", "Schlucken", "Übungshilfe", "Diagnose", "Fachleute"}}};
        QFETCH(QString, path);
        const ClassScript script = scriptAt(path);
        QVERIFY(!script.sections.empty() && script.sections[0].kind == SectionKind::opening);
        std::string spoken;
        for (const Step& step : script.sections[0].steps)
            spoken += step.text + "\n";
        const auto cautions = kCautions.find(script.language.substr(0, 2));
        QVERIFY2(cautions != kCautions.end(), "a language whose cautions this test does not know");
        for (const char* caution : cautions->second)
            QVERIFY2(spoken.find(caution) != std::string::npos, caution);
    }
};

QTEST_GUILESS_MAIN(TestContent)
#include "test_content.moc"
