// The figures of carried sound: delay within our own code, what lines with bad days do to it, what it costs, what drift
// correction adds; and beside them what speexdsp's jitter buffer would do, and what datagrams would. docs/carrying.md
// says what each figure holds. Simulated time, deterministic, but for the costs.
//   bench_sound [minutes of each line]     10 if not said
#include "common/sound/voice_mix.h"
#include "tests/bench/bench_figure.h"
#include "tests/bench/speex_jitter.h"
#include "tests/common/sound/purity.h"

#include <chrono>
#include <cstdlib>
#include <string>

using namespace vh;
using namespace vh::bench;
using test::Journey;
using test::JourneyPlan;

namespace
{
Figures figures;
double minutes = 10;

void named(const std::string& line, const char* what, double value, const char* unit)
{
    figures.reported((line + '_' + what).c_str(), value, unit);
}

/// The line of the promise: simulated at three seeds, all three counted.
void line(const std::string& name, const stage::LineTraits& traits, const VoiceCoding& coding = {}, double ppm = 0)
{
    std::vector<double> delays;
    double interruptions = 0, waited = 0, lost = 0, concealed = 0;
    test::AfterStalls after;
    constexpr int kSeeds = 3;
    for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
        const JourneyPlan plan{.seconds = minutes * 60 / kSeeds + 15,
                               .line = traits,
                               .seed = seed,
                               .leaderPpm = ppm,
                               .coding = coding,
                               .source = test::speaking()};
        const Journey journey = test::travel(plan);
        const double per = 60 / plan.seconds / kSeeds;
        interruptions += static_cast<double>(journey.stats.interruptions) * per;
        waited += journey.stats.waitedSeconds * per;
        lost += journey.stats.lostSeconds * per;
        concealed += journey.stats.concealedSeconds * per;
        const auto some = journey.delays();
        delays.insert(delays.end(), some.begin(), some.end());
        const auto stalls = test::afterStalls(journey, plan);
        after.stalls += stalls.stalls;
        after.backMs = std::max(after.backMs, stalls.backMs);
        after.behindMs = std::max(after.behindMs, stalls.behindMs);
    }
    named(name, "interruptions", interruptions, "1/min");
    named(name, "waited", waited, "s/min");
    named(name, "lost", lost, "s/min");
    named(name, "concealed", concealed, "s/min");
    named(name, "delay_median", test::quantile(delays, 0.5), "ms");
    named(name, "delay_p95", test::quantile(delays, 0.95), "ms");
    if (traits.stallMs > 0) {
        named(name, "back_after_stall", after.backMs, "ms");
        figures.atMost((name + "_behind_1s_after_stall").c_str(), after.behindMs, "ms", 400);
    }
}

void cleanDelays()
{
    for (const std::size_t callback : {480, 960}) {
        const Journey journey = test::travel({.seconds = 120,
                                              .line = {.oneWayMs = 0},
                                              .captureChunk = callback,
                                              .playbackChunk = callback,
                                              .source = test::speaking()});
        const std::string name = "carry_delay_" + std::to_string(callback / 48) + "ms_callbacks_median";
        figures.atMost(name.c_str(), test::quantile(journey.delays(), 0.5), "ms", 90);
    }
}

void speexLine(const std::string& name, const stage::LineTraits& traits)
{
    const auto outcome = speexJourney(traits, 1, minutes * 60);
    named(name, "interruptions", static_cast<double>(outcome.interruptions) / minutes, "1/min");
    named(name, "missing", static_cast<double>(outcome.missing) * 0.02 / minutes, "s/min");
    // Ours counts callbacks, look-ahead and decoding too; the same is put on top here.
    named(name, "delay_median", test::quantile(outcome.delaysMs, 0.5) + 36.5, "ms");
}

void redundancy()
{
    const auto restOf = [](bool fec) {
        VoiceEncoder encoder({.inBandFec = true, .expectedLossPercent = 10});
        VoiceDecoder whole, mended;
        std::array<float, kSoundFrame> truth{}, heard{};
        std::vector<std::uint8_t> before;
        const std::span<const float> speech = test::leaderSpeech();
        double rest = 0, all = 0;
        for (std::size_t frame = 0; (frame + 2) * kSoundFrame <= speech.size(); ++frame) {
            const auto packet = encoder.encode(speech.subspan(frame * kSoundFrame).first<kSoundFrame>());
            // One frame behind, so that the next is there: each 12th is lost.
            if (!before.empty()) {
                whole.decode(before, truth);
                const bool lost = frame % 12 == 0;
                if (!lost)
                    mended.decode(before, heard);
                else if (fec)
                    mended.recover(packet, heard);
                else
                    mended.conceal(heard);
                for (std::size_t i = 0; lost && i < kSoundFrame; ++i) {
                    rest += std::pow(static_cast<double>(truth[i]) - heard[i], 2);
                    all += std::pow(static_cast<double>(truth[i]), 2);
                }
            }
            before.assign(packet.begin(), packet.end());
        }
        return 10 * std::log10(rest / all);
    };
    figures.reported("missing_frames_concealed_rest", restOf(false), "dB");
    figures.reported("missing_frames_recovered_rest", restOf(true), "dB");
}

/// A tone through the bridge with the speeds that the player sets while it follows a leader 500 ppm faster.
void drift()
{
    for (const double ppm : {-500.0, 500.0}) {
        const Journey journey =
            test::travel({.seconds = 120, .line = {.oneWayMs = 0}, .leaderPpm = ppm, .source = test::tone(1000, 0.25)});
        std::printf("# a leader %+.0f ppm off, after 2 min: held %.1f ms of %.1f, speed %.0f ppm, %llu skips\n", ppm,
                    journey.stats.heldMs, journey.stats.wantedMs, journey.stats.speedPpm,
                    static_cast<unsigned long long>(journey.stats.skips));
    }
    ClockBridge bridge;
    std::vector<float> frame(kSoundFrame), out(48'000 * 60);
    std::uint64_t at = 0;
    const auto source = test::tone(1000, 0.25);
    const auto next = [&]() -> std::span<const float> {
        source(at, frame);
        at += frame.size();
        return frame;
    };
    bridge.setSpeed(375e-6);
    for (std::size_t i = 0; i < out.size(); i += 480) {
        // The fastest change that the player makes, up and down by turns: 250 ppm a second.
        bridge.setSpeed(bridge.speed() + (i / 48'000 % 2 == 0 ? 2.5e-6 : -2.5e-6));
        bridge.pull(std::span(out).subspan(i, 480), next);
    }
    double worst = -200;
    for (std::size_t i = 24'000; i + 9'600 <= out.size(); i += 36'000)
        worst = std::max(worst, test::restDbNear(std::span(out).subspan(i, 9'600), 1000));
    figures.atMost("drift_tone_rest_worst_200ms", worst, "dB", -50);
    const double steepest = 0.25 * 2 * std::numbers::pi * 1000 * (1 + 625e-6) / 48'000;
    figures.atMost("drift_largest_step_of_tone", test::largestStep(std::span(out).subspan(480)) / steepest, "x", 1.001);
}

template <class Work>
double secondsOf(Work work)
{
    std::vector<double> taken;
    for (int run = 0; run < 5; ++run) {
        const auto start = std::chrono::steady_clock::now();
        work();
        taken.push_back(std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
    }
    return spreadOf(taken).median;
}

void costs()
{
    constexpr double kSeconds = 60;
    std::vector<float> sound(static_cast<std::size_t>(kSeconds) * 48'000);
    test::speaking()(0, sound);
    std::vector<std::vector<std::uint8_t>> packets;
    const double sending = secondsOf([&] {
        packets.clear();
        VoiceSender sender(1);
        for (std::size_t i = 0; i < sound.size(); i += 480)
            sender.push(std::span(sound).subspan(i, 480), [&](const wire::SoundHead&, auto payload) {
                packets.emplace_back(payload.begin(), payload.end());
            });
    });
    figures.atMost("sender_share_of_a_core", sending / kSeconds * 100, "%", 3);
    std::vector<float> out(480);
    const double playing = secondsOf([&] {
        VoicePlayer player;
        for (std::size_t i = 0; i < packets.size(); ++i) {
            player.arrive({1, i * kSoundFrame}, packets[i], Instant{});
            player.render(out);
            player.render(out);
        }
    });
    figures.reported("player_share_of_a_core", playing / kSeconds * 100, "%");
    figures.reported("player_realtime_factor", kSeconds / playing, "x");
    const double idle = secondsOf([&] {
        VoiceMix mix;
        for (std::size_t i = 0; i < packets.size() * 2; ++i)
            mix.render(out);
    });
    figures.reported("mix_of_nothing_share_of_a_core", idle / kSeconds * 100, "%");
}
} // namespace

int main(int argc, char** argv)
{
    if (argc > 1)
        minutes = std::atof(argv[1]);
    cleanDelays();
    line("held_line", {.heldShare = 0.02});
    line("hard_line", stage::hardLine());
    line("hard_line_500ppm", stage::hardLine(), {}, 500);
    line("rarely_held_line", {.heldShare = 0.001});
    auto datagrams = stage::hardLine();
    datagrams.datagrams = true;
    line("datagrams", datagrams);
    redundancy();
    speexLine("speex_clean", {.oneWayMs = 0});
    speexLine("speex_held_line", {.heldShare = 0.02});
    speexLine("speex_hard_line", stage::hardLine());
    drift();
    costs();
    return figures.exitCode();
}
