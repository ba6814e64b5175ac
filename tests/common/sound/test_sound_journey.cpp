// A leader's sound on lines of all kinds, whole ways in simulated time.
#include "tests/common/signal/synthetic.h"
#include "tests/common/sound/journey.h"
#include "tests/common/sound/purity.h"

#include <QtTest>

using namespace vh;
using namespace vh::test;

class TestSoundJourney : public QObject
{
    Q_OBJECT
private slots:
    void onACleanLineItIsPromptAndWhole()
    {
        const Journey journey =
            travel({.seconds = 20, .line = {.oneWayMs = 0}, .source = speaking(), .keepSound = true});
        QCOMPARE(journey.stats.interruptions, std::uint64_t{0});
        QCOMPARE(journey.stats.lostSeconds, 0.0);
        QCOMPARE(journey.stats.concealedSeconds, 0.0);
        QVERIFY(quantile(journey.delays(), 0.5) <= 90);
        QVERIFY(std::abs(dbOf(std::span(journey.heard).subspan(48'000, 800'000)) -
                         dbOf(std::span(leaderSpeech()).first(800'000 % leaderSpeech().size()))) < 3);
    }

    // What is heard at a moment is what heardUpTo says, by correlation with what was spoken.
    void theHeardPositionIsWhereTheSoundIs()
    {
        for (const double ppm : {-500.0, 500.0}) {
            const Journey journey = travel(
                {.seconds = 20, .line = {.jitterMs = 10}, .leaderPpm = ppm, .source = speaking(), .keepSound = true});
            const auto& speech = leaderSpeech();
            const std::size_t callback = 1'800;
            const std::size_t end = (callback + 1) * 480;
            const std::uint64_t said = journey.heardUpTo[callback] - 312;
            double best = 0;
            int at = 0;
            for (int off = -480; off <= 480; off += 4) {
                double sum = 0;
                for (std::size_t i = 1; i <= 24'000; ++i)
                    sum += static_cast<double>(journey.heard[end - i]) *
                           speech[(said + static_cast<std::uint64_t>(off + 480'000) - 480'000 - i) % speech.size()];
                if (sum > best)
                    best = sum, at = off;
            }
            QVERIFY2(std::abs(at) <= 48, qPrintable(QString::number(at))); // a millisecond
        }
    }

    void aMuteIsSilenceAndNoLoss()
    {
        const Journey journey =
            travel({.seconds = 30,
                    .line = {.jitterMs = 5},
                    .source = speaking(),
                    .leader = [](double ms, VoiceSender& sender) {
                        sender.setMuted((ms > 5'000 && ms < 15'000) || (ms > 20'000 && ms < 20'500));
                    }});
        QCOMPARE(journey.stats.interruptions, std::uint64_t{0});
        QCOMPARE(journey.stats.lostSeconds, 0.0);
        QVERIFY(quantile(journey.delays(21'000), 0.5) <= 40 + 90);
    }

    void clocksApartStayTogetherWithoutASound()
    {
        for (const double ppm : {-500.0, 500.0}) {
            const Journey journey = travel({.seconds = 90,
                                            .line = {.oneWayMs = 0},
                                            .leaderPpm = ppm,
                                            .source = tone(300, 0.2),
                                            .keepSound = true});
            QCOMPARE(journey.stats.interruptions, std::uint64_t{0});
            QCOMPARE(journey.stats.skips, std::uint64_t{0});
            QCOMPARE(journey.stats.concealedSeconds, 0.0);
            QVERIFY(std::abs(journey.stats.heldMs - journey.stats.wantedMs) < 20);
            QVERIFY(std::abs(journey.stats.speedPpm - ppm) < 350);
            // No click: never steeper than the tone, but for what the codec adds.
            const double steepest = 0.2 * 2 * std::numbers::pi * 300 / 48'000;
            QVERIFY(largestStep(std::span(journey.heard).subspan(48'000)) < 1.5 * steepest);
        }
    }

    void heldSegmentsAreHeardOnceAndThenBridged()
    {
        const JourneyPlan plan{.seconds = 60, .line = {.heldShare = 0.02}, .source = speaking()};
        const Journey journey = travel(plan);
        QVERIFY(journey.stats.interruptions <= 3);
        QCOMPARE(journey.stats.lostSeconds, 0.0);
        QVERIFY(quantile(journey.delays(), 0.95) <= 400);
    }

    void afterAStallItIsBackWithinASecond()
    {
        for (const double ppm : {0.0, 400.0}) {
            const JourneyPlan plan{
                .seconds = 60, .line = stage::hardLine(), .seed = 5, .leaderPpm = ppm, .source = speaking()};
            const Journey journey = travel(plan);
            const AfterStalls after = afterStalls(journey, plan);
            QCOMPARE(after.stalls, std::size_t{1});
            QVERIFY2(after.behindMs <= 400, qPrintable(QString::number(after.behindMs)));
            QVERIFY(after.backMs <= 1'000);
            QVERIFY(journey.stats.lostSeconds < 3.2);
        }
    }

    void droppedFramesOfALongGapAreCountedAsLost()
    {
        const Journey journey =
            travel({.seconds = 20, .line = {.oneWayMs = 0}, .source = tone(200, 0.2), .relay = [](const auto& head) {
                        return head.firstSample < 480'000 || head.firstSample >= 576'000;
                    }});
        QVERIFY(std::abs(journey.stats.lostSeconds - 2) < 0.05);
        QVERIFY(journey.stats.concealedSeconds <= 0.12);
    }

    void theSameJourneyTwiceIsTheSame()
    {
        const JourneyPlan plan{.seconds = 10, .line = stage::hardLine(), .source = speaking(), .keepSound = true};
        QVERIFY(travel(plan).heard == travel(plan).heard);
    }
};

QTEST_APPLESS_MAIN(TestSoundJourney)
#include "test_sound_journey.moc"
