#include "common/sound/voice_mix.h"
#include "tests/common/allocation_counter.h"
#include "tests/common/sound/journey.h"

#include <QtTest>

#include <deque>
#include <thread>

using namespace vh;
using namespace vh::test;

namespace
{
/// Coded speech, frame after frame, again and again.
std::span<const std::uint8_t> frameOf(std::uint64_t number)
{
    static const std::vector<std::vector<std::uint8_t>> packets = [] {
        std::vector<std::vector<std::uint8_t>> all;
        VoiceSender sender(1);
        sender.push(leaderSpeech(),
                    [&](const wire::SoundHead&, auto payload) { all.emplace_back(payload.begin(), payload.end()); });
        return all;
    }();
    return packets[number % packets.size()];
}

constexpr Instant kNow{};

/// Frames [from, to) of a stream at once.
void arriveAll(VoicePlayer& player, std::uint64_t from, std::uint64_t to, std::uint32_t stream = 1)
{
    for (std::uint64_t i = from; i < to; ++i)
        player.arrive({stream, i * 960}, frameOf(i), kNow);
}
/// A frame each 20 ms, played as it comes.
void flow(VoicePlayer& player, std::uint64_t from, std::uint64_t to, std::uint32_t stream = 1)
{
    std::array<float, 960> out{};
    for (std::uint64_t i = from; i < to; ++i) {
        arriveAll(player, i, i + 1, stream);
        player.render(out);
    }
}
void wait(VoicePlayer& player, int frames)
{
    std::array<float, 960> out{};
    for (int i = 0; i < frames; ++i)
        player.render(out);
}
} // namespace

class TestVoicePlayer : public QObject
{
    Q_OBJECT
private slots:
    void nothingFedCostsNothingAndIsSilent()
    {
        VoiceMix mix;
        std::vector<float> out(4'800, 1.0F);
        QVERIFY(!mix.render(out));
        QVERIFY(std::ranges::all_of(out, [](float sample) { return sample == 0; }));
        QCOMPARE(mix.leader().heardUpTo(), HeardUpTo{});
    }

    void afterTheLastFrameItFallsSilentAndRests()
    {
        VoicePlayer player;
        flow(player, 0, 200);
        std::array<float, 960> out{};
        for (int i = 0; i < 40; ++i)
            player.render(out);
        QVERIFY(!player.render(out));
        QCOMPARE(player.heardUpTo(), (HeardUpTo{1, 200 * 960}));
    }

    void whatIsLateIsPlayedLaterAndNothingIsLost()
    {
        VoicePlayer player;
        flow(player, 0, 100);
        wait(player, 10); // 200 ms nothing
        arriveAll(player, 100, 111);
        flow(player, 111, 200);
        QCOMPARE(player.stats().interruptions, std::uint64_t{1});
        QCOMPARE(player.stats().lostSeconds, 0.0);
        QCOMPARE(player.stats().lateFrames, std::uint64_t{0});
    }

    void theSecondHoldOfTheSameLengthIsNotHeard()
    {
        VoicePlayer player;
        std::uint64_t at = 0;
        for (int hold = 0; hold < 3; ++hold) {
            flow(player, at, at + 100);
            at += 100;
            wait(player, 10);
            arriveAll(player, at, at + 10);
            at += 10;
        }
        QCOMPARE(player.stats().interruptions, std::uint64_t{1});
    }

    void framesThatAreMissingAreConcealedAndCounted()
    {
        VoicePlayer player;
        std::array<float, 960> out{};
        for (std::uint64_t i = 0; i < 400; ++i) {
            if (i % 40 != 39)
                arriveAll(player, i, i + 1);
            player.render(out);
        }
        QVERIFY(std::abs(player.stats().lostSeconds - 9 * 0.02) < 0.005); // the tenth is not yet due
        QVERIFY(player.stats().concealedSeconds > 0.17);
        QCOMPARE(player.stats().interruptions, std::uint64_t{0});
    }

    void anotherStreamStartsAnew()
    {
        VoicePlayer player;
        flow(player, 500, 600, 1);
        QCOMPARE(player.heardUpTo().stream, 1U);
        QVERIFY(player.heardUpTo().sample > 590 * 960);
        flow(player, 3, 50, 2);
        QCOMPARE(player.heardUpTo().stream, 2U);
        QVERIFY(player.heardUpTo().sample > 40 * 960 && player.heardUpTo().sample <= 50 * 960);
        QCOMPARE(player.stats().interruptions, std::uint64_t{0});
    }

    void aLoudspeakerThatStoodStillCatchesUp()
    {
        VoicePlayer player;
        flow(player, 0, 100);
        arriveAll(player, 100, 350); // five seconds in which nobody played
        QCOMPARE(player.stats().refusedFrames, std::uint64_t{0});
        flow(player, 350, 400);
        QVERIFY(player.heardUpTo().sample > (400 - 20) * 960);
        arriveAll(player, 400, 2'000); // more than there is room for
        QVERIFY(player.stats().refusedFrames > 1'000);
        flow(player, 2'000, 2'200);
        QVERIFY(player.heardUpTo().sample > (2'200 - 20) * 960);
    }

    void onlyFramesOfOursAreTaken()
    {
        VoicePlayer player;
        player.arrive({1, 0}, {}, kNow);
        player.arrive({1, 0}, std::vector<std::uint8_t>(1'276, 8), kNow);
        player.arrive({1, 0}, std::vector<std::uint8_t>{0x00, 1, 2}, kNow); // 10 ms
        QCOMPARE(player.stats().refusedFrames, std::uint64_t{3});
        std::array<float, 960> out{};
        QVERIFY(!player.render(out));
        player.arrive({1, 0}, std::vector<std::uint8_t>{0x08, 1, 2}, Instant{Millis{77}}); // 20 ms
        QCOMPARE(player.lastArrival(), Instant{Millis{77}});
        QVERIFY(player.render(out));
    }

    void anyOrderAtAnyTimeIsPlayedForwards()
    {
        for (std::uint64_t seed = 0; seed < 60; ++seed) {
            voice::Random dice(seed);
            VoicePlayer player;
            std::vector<float> out(4'800);
            HeardUpTo before;
            std::uint32_t stream = 1;
            std::uint64_t at = dice.next() % 3 == 0 ? dice.next() : dice.next() % 100'000;
            for (int step = 0; step < 400; ++step) {
                const auto what = dice.next() % 100;
                if (what == 0)
                    ++stream;
                if (what == 1)
                    at = dice.next();
                if (what < 8)
                    at += dice.next() % 300'000;
                for (auto count = dice.next() % 4; count > 0; --count)
                    player.arrive({stream, at + 960 * (dice.next() % 8) + dice.next() % 3}, frameOf(dice.next() % 500),
                                  kNow);
                at += 960 * (dice.next() % 4);
                player.render(std::span(out).first(1 + dice.next() % (what == 9 ? 4'800 : 1'500)));
                const HeardUpTo heard = player.heardUpTo();
                if (heard.stream == before.stream)
                    QVERIFY(heard.sample >= before.sample);
                before = heard;
                for (const float sample : out)
                    QVERIFY(std::isfinite(sample));
            }
        }
    }

    void renderTakesNothingFromTheHeap()
    {
        VoiceMix mix;
        std::vector<float> out(700);
        frameOf(0);
        stage::LineModel line(stage::hardLine(), 4);
        std::deque<std::pair<double, std::uint64_t>> way;
        std::uint64_t allocated = 0;
        std::uint64_t next = 0;
        for (double ms = 0; ms < 60'000; ms += 700 / 48.0) {
            for (; static_cast<double>(next) * 20 < ms; ++next)
                way.emplace_back(line.arrivalOf(static_cast<double>(next) * 20).value_or(0), next);
            for (; !way.empty() && way.front().first <= ms; way.pop_front()) {
                if (way.front().second % 50 != 0)
                    arriveAll(mix.leader(), way.front().second, way.front().second + 1);
                arriveAll(mix.invited(), way.front().second, way.front().second + 1,
                          2 + static_cast<std::uint32_t>(ms / 9'000));
            }
            AllocationCounter allocations;
            mix.render(out);
            allocated += allocations.count();
        }
        QCOMPARE(allocated, std::uint64_t{0});
        QVERIFY(mix.leader().stats().skips > 0); // all its ways were gone
        QVERIFY(mix.leader().stats().lostSeconds > 1);
    }

    void twoLoudPeopleNeverLeaveFullScale()
    {
        VoiceMix mix;
        VoiceSender sender(1);
        std::vector<float> loud(48'000);
        tone(200, 0.99)(0, loud);
        sender.push(loud, [&](const wire::SoundHead& head, auto payload) {
            mix.leader().arrive(head, payload, kNow);
            mix.invited().arrive(head, payload, kNow);
        });
        std::vector<float> out(9'600);
        QVERIFY(mix.render(out));
        float peak = 0;
        for (const float sample : out)
            peak = std::max(peak, std::abs(sample));
        QVERIFY(peak > 0.9F && peak <= 1);
    }

    void theHeardPositionIsOfOneMomentAcrossThreads()
    {
        VoicePlayer player;
        frameOf(0);
        std::atomic<bool> done{false};
        std::thread network([&] {
            for (std::uint32_t stream = 1; stream <= 40; ++stream) {
                for (std::uint64_t i = 0; i < 20; ++i)
                    player.arrive({stream, stream * 1'000'000ULL + i * 960}, frameOf(i), kNow);
                std::this_thread::yield();
            }
            done = true;
        });
        std::thread playback([&] {
            std::array<float, 480> out{};
            while (!done)
                player.render(out);
            for (int i = 0; i < 100; ++i)
                player.render(out);
        });
        bool torn = false;
        while (!done) {
            const HeardUpTo heard = player.heardUpTo();
            torn = torn || (heard.stream > 0 && heard.sample / 1'000'000 != heard.stream);
            (void)player.stats();
        }
        network.join();
        playback.join();
        QVERIFY(!torn);
        QVERIFY(player.heardUpTo().stream > 0);
    }
};

QTEST_APPLESS_MAIN(TestVoicePlayer)
#include "test_voice_player.moc"
