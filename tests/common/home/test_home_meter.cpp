// A home judging its own turns: what goes up, when, and that it is what the hall would say.
#include "common/home/home_meter.h"
#include "tests/common/home/home_class.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;

class TestHomeMeter : public QObject
{
    Q_OBJECT
private:
    ClassScript m_script = homeClass();
    wire::PlaceNow m_place;
    Instant m_now = kNoon;

    void go(HomeMeter& meter, Place at, Phase phase = Phase::running)
    {
        ++m_place.turnSerial;
        stay(meter, at, phase);
    }
    /// The same turn; only the clock is held or let go.
    void stay(HomeMeter& meter, Place at, Phase phase)
    {
        m_place.place = at;
        m_place.phase = phase;
        m_place.turnLength = turnAt(m_script, at)->turn->planned;
        meter.follow(m_place, m_script, 0, m_now);
    }
    static std::vector<Reading> hear(HomeMeter& meter, const std::vector<VoiceFrame>& frames)
    {
        std::vector<Reading> readings;
        for (const VoiceFrame& frame : frames) {
            meter.add(frame);
            if (const auto reading = meter.takeReading())
                readings.push_back(*reading);
        }
        return readings;
    }
    static UsualLevel at(float dbfsA)
    {
        UsualLevel usual;
        usual.levelDbfsA = dbfsA;
        return usual;
    }
    static HomeMeter known()
    {
        HomeMeter meter;
        meter.setUsuals({{TaskKind::phrases, at(-30)}});
        meter.setRoom(-70);
        return meter;
    }

private slots:
    void init()
    {
        m_place = {};
        m_place.classId = ClassId::random();
    }

    void aTurnThatIsGivenMoreTimeIsHeardToItsNewEnd()
    {
        HomeMeter meter = known();
        go(meter, {1, 0, 0, 3}); // yours, 5 s
        (void)hear(meter, voiceFrames(450, -24));
        m_place.turnLength = Millis{15'000};
        meter.follow(m_place, m_script, 0, m_now);
        QVERIFY(meter.view().listening);
        const auto readings = hear(meter, voiceFrames(550, -24));
        QCOMPARE(readings.back().elapsedMs, 10'000U);
        QCOMPARE(readings.back().turnSerial, m_place.turnSerial);
        go(meter, {3, 0, 0, 0});
        QCOMPARE(meter.takeResult()->reading.elapsedMs, 10'000U);
    }

    void readingsComeInSpokenTurnsOnlyFourTimesASecondAndCumulative()
    {
        HomeMeter meter = known();
        go(meter, {1, 0, 0, 0}); // listen
        QVERIFY(hear(meter, voiceFrames(300, -24)).empty());
        go(meter, {1, 0, 0, 1}); // ready
        QVERIFY(hear(meter, voiceFrames(100, -24)).empty());
        go(meter, {1, 0, 0, 3}); // yours
        const auto readings = hear(meter, voiceFrames(200, -24));
        QCOMPARE(readings.size(), std::size_t{8});
        for (std::size_t i = 0; i < readings.size(); ++i) {
            QCOMPARE(readings[i].turnSerial, m_place.turnSerial);
            QCOMPARE(readings[i].elapsedMs, static_cast<std::uint32_t>(250 * (i + 1)));
            QCOMPARE(readings[i].voicedMs, static_cast<std::uint32_t>(250 * (i + 1)));
            QVERIFY(std::abs(readings[i].leqOverUsualDb - 6) < 0.11F);
        }
        go(meter, {3, 0, 0, 0}); // water
        QVERIFY(hear(meter, voiceFrames(300, -24)).empty());
    }

    void theResultComesOnceWithTheNumbersOfTheWholeTurn()
    {
        HomeMeter meter = known();
        go(meter, {1, 0, 0, 3});
        const std::uint32_t turn = m_place.turnSerial;
        hear(meter, voiceFrames(300, -24));
        hear(meter, roomFrames(200));
        QVERIFY(!meter.takeResult());
        go(meter, {1, 0, 1, 0});
        const auto result = meter.takeResult();
        QVERIFY(result);
        QCOMPARE(result->reading.turnSerial, turn);
        QCOMPARE(result->reading.elapsedMs, 5000U);
        QCOMPARE(result->reading.voicedMs, 3000U);
        QVERIFY(std::abs(result->reading.leqOverUsualDb - 6) < 0.11F);
        QVERIFY(result->around.roomNormal && result->around.voiceHeard && !result->around.masked);
        QVERIFY(!meter.takeResult());
        go(meter, {1, 0, 1, 1});
        QVERIFY(!meter.takeResult());
    }

    void aHeldClockIsTheSameTurnAndWhatIsHeardMeanwhileIsNoPartOfIt()
    {
        HomeMeter meter = known();
        go(meter, {1, 0, 0, 3});
        hear(meter, voiceFrames(150, -24));
        stay(meter, {1, 0, 0, 3}, Phase::waiting);
        QVERIFY(!meter.view().listening);
        QVERIFY(hear(meter, voiceFrames(500, -10)).empty());
        QVERIFY(!meter.takeResult());
        stay(meter, {1, 0, 0, 3}, Phase::running);
        hear(meter, voiceFrames(150, -24));
        go(meter, {1, 0, 1, 0});
        const auto result = meter.takeResult();
        QVERIFY(result);
        QCOMPARE(result->reading.elapsedMs, 3000U);
        QVERIFY(std::abs(result->reading.leqOverUsualDb - 6) < 0.11F);
    }

    void homeAndHallJudgeTheSame()
    {
        HomeMeter meter = known();
        JudgeState hall;
        const float levels[] = {-30, -24, -26, -31, -31, -14, -14, -22, -90, -90};
        for (const float level : levels) {
            go(meter, {1, 0, 0, 3});
            hear(meter, level < -80 ? roomFrames(500) : voiceFrames(500, level));
            go(meter, {1, 0, 1, 0});
            const auto result = meter.takeResult();
            QVERIFY(result);
            hall = judge(hall, {*result, TurnKind::yours, SectionKind::phrases, Millis{5000}, 0});
            QVERIFY(meter.view().standing == hall.standing);
            QVERIFY(meter.view().reason == hall.reason);
        }
        QVERIFY(hall.standing == Standing::noVoice); // the path went through all of them
    }

    void theWordsChangeBetweenTurnsOnlyTheBarAllTheTime()
    {
        HomeMeter meter = known();
        go(meter, {1, 0, 0, 3});
        hear(meter, voiceFrames(300, -24));
        QVERIFY(meter.view().standing == Standing::notYet);
        QVERIFY(std::abs(meter.view().nowOverUsualDb.value() - 6) < 0.11F);
        hear(meter, voiceFrames(1, -20));
        QVERIFY(std::abs(meter.view().nowOverUsualDb.value() - 10) < 0.11F);
        go(meter, {1, 0, 1, 0});
        QVERIFY(meter.view().standing == Standing::inBand);
        QVERIFY(!meter.view().nowOverUsualDb);
    }

    void aVowelIsLearntFirstAndComparedFromThenOn()
    {
        HomeMeter meter = known();
        go(meter, {2, 0, 0, 3});
        QVERIFY(hear(meter, voiceFrames(400, -22)).empty());
        QVERIFY(!meter.view().nowOverUsualDb);
        go(meter, {2, 0, 1, 0});
        QVERIFY(!meter.takeResult());
        QVERIFY(std::abs(meter.usuals().at(TaskKind::vowel).inForce().value() + 22) < 0.06F);
        go(meter, {2, 0, 1, 3});
        QVERIFY(!hear(meter, voiceFrames(400, -18)).empty());
        go(meter, {3, 0, 0, 0});
        const auto result = meter.takeResult();
        QVERIFY(result && std::abs(result->reading.leqOverUsualDb - 4) < 0.11F);
    }

    void aNoisyTurnTeachesNothing()
    {
        HomeMeter meter = known();
        go(meter, {2, 0, 0, 3});
        hear(meter, voiceFrames(400, -22, Blank::roomTooNoisy));
        go(meter, {2, 0, 1, 0});
        QVERIFY(!meter.usuals().contains(TaskKind::vowel));
    }

    void withoutAMicCheckPhrasesAreHeardButNotJudgedNorLearnt()
    {
        HomeMeter meter;
        go(meter, {1, 0, 0, 2});
        QVERIFY(hear(meter, voiceFrames(300, -24)).empty());
        QVERIFY(meter.view().heard);
        go(meter, {1, 0, 0, 3});
        QVERIFY(hear(meter, voiceFrames(400, -24)).empty());
        go(meter, {1, 0, 1, 0});
        QVERIFY(!meter.takeResult());
        QVERIFY(meter.view().standing == Standing::notYet);
        QVERIFY(!meter.usuals().contains(TaskKind::phrases));
    }

    void aTurnInWhichNobodyListenedHasNoResult()
    {
        HomeMeter meter = known();
        go(meter, {1, 0, 0, 3});
        go(meter, {1, 0, 1, 0});
        QVERIFY(!meter.takeResult());
    }

    void anotherClassStartsAfresh()
    {
        HomeMeter meter = known();
        go(meter, {1, 0, 0, 3});
        hear(meter, voiceFrames(300, -24));
        go(meter, {1, 0, 1, 0});
        QVERIFY(meter.view().standing == Standing::inBand);
        m_place.classId = ClassId::random();
        m_place.turnSerial = 0; // counted anew: old serials must not shadow the new ones
        go(meter, {1, 0, 0, 3});
        QVERIFY(meter.view().standing == Standing::notYet);
        QVERIFY(!meter.takeResult());
        hear(meter, voiceFrames(300, -24));
        go(meter, {1, 0, 1, 0});
        QVERIFY(meter.takeResult());
        QVERIFY(meter.view().standing == Standing::inBand);
    }
};

QTEST_APPLESS_MAIN(TestHomeMeter)
#include "test_home_meter.moc"
