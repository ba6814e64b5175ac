// What of a stream is audible at a moment.
#include "app/sound/played_clock.h"

#include <QtTest>

#include <cmath>

using namespace vh;
using namespace vh::sound;
using namespace std::chrono_literals;

namespace
{

constexpr std::size_t kPiece = 960; // 20 ms
constexpr std::chrono::microseconds kStart{5'000'000};

/// Pieces handed over every 20 ms with this latency; the stream goes along.
struct Device {
    PlayedClock clock;
    std::chrono::microseconds now = kStart;
    HeardUpTo end{7, 100'000};

    void play(int pieces, std::chrono::microseconds latency, std::uint64_t streamStep = kPiece)
    {
        for (int i = 0; i < pieces; ++i) {
            end.sample += streamStep;
            clock.note(now, kPiece, latency, end);
            now += 20ms;
        }
    }
};

std::uint64_t ms(double milliseconds)
{
    return static_cast<std::uint64_t>(std::llround(milliseconds * 48));
}

} // namespace

class TestPlayedClock : public QObject
{
    Q_OBJECT
private slots:
    void nothingIsAudibleBeforeThePieceSounds()
    {
        Device device;
        QVERIFY(device.clock.heardUpTo(kStart) == HeardUpTo{});
        device.play(1, 100ms);
        QVERIFY(device.clock.heardUpTo(kStart + 99ms) == HeardUpTo{});
        QVERIFY((device.clock.heardUpTo(kStart + 110ms) == HeardUpTo{7, 100'000 + ms(10)}));
    }

    void itIsBehindWhatWasHandedOverByTheLatency()
    {
        Device device;
        device.play(100, 150ms);
        // At the end of the last piece, 150 ms are still to sound, but for what went by since it was handed over.
        const auto heard = device.clock.heardUpTo(device.now);
        QCOMPARE(heard.stream, 7U);
        QVERIFY(std::abs(static_cast<double>(device.end.sample - heard.sample) - 48 * 150.0) <= 1);
    }

    void aWaveringLatencyIsSmoothedAndNeverGoesBack()
    {
        Device device;
        device.play(50, 150ms);
        std::uint64_t last = 0;
        for (int i = 0; i < 200; ++i) {
            device.play(1, i % 2 ? 140ms : 160ms);
            const auto heard = device.clock.heardUpTo(device.now).sample;
            QVERIFY(heard >= last);
            last = heard;
            QVERIFY(std::abs(static_cast<double>(device.end.sample - heard) - 48 * 150.0) <= 48 * 2);
        }
    }

    void aDriftingDeviceIsFollowed()
    {
        Device device;
        for (int i = 0; i < 3000; ++i) { // a minute; the device's clock is 500 ppm slow
            device.play(1, 150ms);
            device.now += 10us;
            (void)device.clock.heardUpTo(device.now);
        }
        const auto heard = device.clock.heardUpTo(device.now).sample;
        QVERIFY(std::abs(static_cast<double>(device.end.sample - heard) - 48 * 150.0) <= 48);
    }

    void aDeviceThatRanDryIsBelievedAtOnce()
    {
        Device device;
        device.play(50, 150ms);
        device.now += 300ms; // nothing was asked for
        device.play(1, 150ms);
        const auto heard = device.clock.heardUpTo(device.now + 135ms);
        QVERIFY(std::abs(static_cast<double>(device.end.sample - heard.sample) - 48 * 15.0) <= 1);
    }

    void aJumpIsAudibleWhenThePieceBehindItSounds()
    {
        Device device;
        device.play(20, 150ms);
        const std::uint64_t before = device.end.sample;
        device.play(1, 150ms, ms(2000)); // a stall caught up with: two seconds dropped
        device.play(10, 150ms);
        const auto atJump = kStart + 20 * 20ms + 150ms; // when the piece behind the jump begins to sound
        QVERIFY(device.clock.heardUpTo(atJump - 1ms).sample <= before);
        QVERIFY(device.clock.heardUpTo(atJump + 10ms).sample >= before + ms(1980));
    }

    void piecesWithoutTheStreamAddNothing()
    {
        Device device;
        device.play(10, 0ms);
        const std::uint64_t before = device.end.sample;
        device.play(10, 0ms, 0);
        QCOMPARE(device.clock.heardUpTo(device.now).sample, before);
    }

    void anotherStreamBeginsWhereItBegins()
    {
        Device device;
        device.play(10, 0ms);
        (void)device.clock.heardUpTo(device.now);
        device.end = {8, 500};
        device.play(10, 0ms);
        const auto heard = device.clock.heardUpTo(device.now - 10ms);
        QCOMPARE(heard.stream, 8U);
        QVERIFY(std::abs(static_cast<double>(heard.sample) - (500.0 + 10 * 960 - 480)) <= 1);
    }

    void whoAsksSeldomStillHearsTheNewest()
    {
        Device device;
        device.play(5000, 100ms); // 100 s, nobody asks: the queue is full
        (void)device.clock.heardUpTo(device.now);
        device.play(20, 100ms);
        const auto heard = device.clock.heardUpTo(device.now).sample;
        QVERIFY(std::abs(static_cast<double>(device.end.sample - heard) - 48 * 100.0) <= 1);
    }
};

QTEST_APPLESS_MAIN(TestPlayedClock)
#include "test_played_clock.moc"
