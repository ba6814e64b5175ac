// What is said and done about the input, turn by turn, without a device.
#include "app/sound/source_watch.h"

#include <QtTest>

using namespace vh;
using namespace vh::sound;
using namespace std::chrono_literals;
using Do = SourceWatch::Do;

namespace
{

/// A watch with a hand clock and what it sees; each look comes 100 ms after the one before.
struct Bench {
    HandClock clock;
    SourceWatch watch;
    SourceWatch::Seen seen;

    Bench()
    {
        seen.present = true;
        watch.begin(clock.now());
    }
    Do look()
    {
        seen.now = clock.now();
        const Do what = watch.look(seen);
        if (what == Do::open) {
            seen.open = true;
            seen.samples = 0;
            seen.health = SourceHealth::good;
        } else if (what == Do::close) {
            seen.open = false;
        }
        clock.advance(100ms);
        return what;
    }
    void hear()
    {
        seen.samples += 4800;
        look();
    }
    /// Looks until something is done, for at most this long; what it was, and when.
    std::pair<Do, Millis> lookFor(Millis atMost)
    {
        const Instant from = clock.now();
        while (clock.now() - from <= atMost) {
            const Instant at = clock.now();
            if (const Do what = look(); what != Do::nothing)
                return {what, at - from};
        }
        return {Do::nothing, atMost};
    }
};

} // namespace

class TestSourceWatch : public QObject
{
    Q_OBJECT
private slots:
    void opensAtOnceAndHearsWithTheFirstSample()
    {
        Bench bench;
        QCOMPARE(bench.watch.state(), EarsState::opening);
        QVERIFY(bench.look() == Do::open);
        QCOMPARE(bench.watch.state(), EarsState::opening);
        bench.hear();
        QCOMPARE(bench.watch.state(), EarsState::hearing);
    }

    void silenceOfTheLineForMoreThanHalfASecondIsALoss()
    {
        Bench bench;
        bench.look();
        bench.hear();
        const auto [what, after] = bench.lookFor(2s);
        QVERIFY(what == Do::close);
        QCOMPARE(bench.watch.state(), EarsState::deviceLost);
        QVERIFY(after + 100ms > SourceWatch::kSilentLine && after <= SourceWatch::kSilentLine + 100ms);
    }

    void lossIsNoticedByFailureAtOnce()
    {
        Bench bench;
        bench.look();
        bench.hear();
        bench.seen.health = SourceHealth::failed;
        bench.seen.samples += 10;
        QVERIFY(bench.look() == Do::close);
        QCOMPARE(bench.watch.state(), EarsState::deviceLost);
    }

    void lossIsNoticedWhenTheDeviceLeavesTheListEvenIfSamplesCome()
    {
        Bench bench;
        bench.look();
        bench.hear();
        bench.seen.present = false;
        bench.seen.samples += 10;
        QVERIFY(bench.look() == Do::close);
        QCOMPARE(bench.watch.state(), EarsState::deviceLost);
    }

    void soundReturnsWhenTheDeviceIsBack()
    {
        Bench bench;
        bench.look();
        bench.hear();
        bench.seen.present = false;
        bench.look();
        QVERIFY(bench.lookFor(5s).first == Do::nothing); // nothing to open
        QCOMPARE(bench.watch.state(), EarsState::deviceLost);
        bench.seen.present = true;
        QVERIFY(bench.lookFor(SourceWatch::kTryAgain + 100ms).first == Do::open);
        QCOMPARE(bench.watch.state(), EarsState::deviceLost); // until there is sound, the words stay
        bench.hear();
        QCOMPARE(bench.watch.state(), EarsState::hearing);
    }

    void anotherDeviceIsOpenedAtOnceInPlaceOfALostOne()
    {
        Bench bench;
        bench.look();
        bench.hear();
        bench.lookFor(400ms);
        bench.hear();
        bench.lookFor(400ms);
        bench.hear();
        bench.lookFor(400ms);
        bench.seen.present = false; // pulled out
        QVERIFY(bench.look() == Do::close);
        bench.seen.present = true; // another is there
        QVERIFY(bench.look() == Do::open);
    }

    void oneThatGoesAtOnceIsNotOpenedMoreThanOnceASecond()
    {
        Bench bench;
        bench.look();
        const Instant opened = bench.seen.now;
        bench.hear();
        bench.seen.health = SourceHealth::failed;
        QVERIFY(bench.look() == Do::close);
        bench.seen.health = SourceHealth::good;
        QVERIFY(bench.lookFor(2s).first == Do::open);
        QVERIFY(bench.seen.now - opened >= SourceWatch::kTryAgain);
    }

    void whatFillsAnOutputIsNoSoundYet()
    {
        Bench bench;
        bench.look();
        bench.seen.ahead = 9'600;
        bench.seen.samples = 4'800; // taken at once
        bench.look();
        QVERIFY(bench.lookFor(SourceWatch::kFirstSample - 200ms).first == Do::nothing);
        bench.seen.samples = 14'400;
        bench.look();
        QVERIFY(bench.lookFor(2s).first == Do::close);
    }

    void aFirstSampleMayTakeTwoSeconds()
    {
        Bench bench;
        bench.look();
        QVERIFY(bench.lookFor(SourceWatch::kFirstSample - 100ms).first == Do::nothing);
        bench.hear();
        QCOMPARE(bench.watch.state(), EarsState::hearing);
    }

    void aDeviceThatNeverSpeaksIsLostAndTriedAgainWithoutFlicker()
    {
        Bench bench;
        bench.look();
        QVERIFY(bench.lookFor(3s).first == Do::close);
        QCOMPARE(bench.watch.state(), EarsState::deviceLost);
        QVERIFY(bench.lookFor(2s).first == Do::open);
        QCOMPARE(bench.watch.state(), EarsState::deviceLost);
    }

    void withoutAnyDeviceItSaysSoAndTakesTheFirstThatComes()
    {
        Bench bench;
        bench.seen.present = false;
        QVERIFY(bench.look() == Do::nothing);
        QCOMPARE(bench.watch.state(), EarsState::noDevice);
        bench.seen.present = true;
        QVERIFY(bench.lookFor(1100ms).first == Do::open);
        QCOMPARE(bench.watch.state(), EarsState::opening);
        bench.hear();
        QCOMPARE(bench.watch.state(), EarsState::hearing);
    }

    void aFileEndsOnceAndMayRestWithoutBeingLost()
    {
        Bench bench;
        bench.seen.microphone = false;
        bench.look();
        bench.hear();
        QVERIFY(bench.lookFor(10s).first == Do::nothing);
        QCOMPARE(bench.watch.state(), EarsState::hearing);
        bench.seen.health = SourceHealth::ended;
        QVERIFY(bench.look() == Do::close);
        QCOMPARE(bench.watch.state(), EarsState::fileEnded);
        QVERIFY(bench.lookFor(5s).first == Do::nothing);
    }

    void nothingIsDoneOnceItIsOff()
    {
        Bench bench;
        bench.look();
        bench.hear();
        bench.watch.end();
        QCOMPARE(bench.watch.state(), EarsState::off);
        QVERIFY(bench.lookFor(5s).first == Do::nothing);
    }

    void everyStateHasWordsOfItsOwn()
    {
        QSet<QString> all;
        for (int state = 0; state <= static_cast<int>(EarsState::fileBad); ++state) {
            const QString words = wordsOf(static_cast<EarsState>(state));
            QVERIFY(words.endsWith('.') || words.endsWith('?'));
            all.insert(words);
        }
        QCOMPARE(all.size(), static_cast<int>(EarsState::fileBad) + 1);
    }
};

QTEST_APPLESS_MAIN(TestSourceWatch)
#include "test_source_watch.moc"
