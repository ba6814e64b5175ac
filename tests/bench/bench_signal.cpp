// The sound figures: how far inside the class 1 limits the weightings and tonebursts lie, how exact P.56 is, and how
// many times faster than real time one whole meter runs on one core.
#include "common/signal/meter.h"
#include "common/signal/resampler.h"
#include "tests/common/signal/response.h"

#include <chrono>
#include <cstdio>
#include <ranges>

using namespace vh;
using namespace vh::test;

namespace
{
bool allReached = true;

void figure(const char* name, double value, const char* unit, const char* target, bool reached)
{
    std::printf("figure %s %.3f %s %s %s\n", name, value, unit, target, reached ? "ok" : "short");
    allReached = allReached && reached;
}

void weightings()
{
    double marginA = HUGE_VAL;
    double marginC = HUGE_VAL;
    double offA = 0;
    double offC = 0;
    for (int row = 0; row < static_cast<int>(std::size(kTable3)); ++row) {
        const WeightingRow& goal = kTable3[row];
        const Gains gains = steadyGain(exactHz(row));
        const double a = gains.aDb - goal.aDb;
        const double c = gains.cDb - goal.cDb;
        marginA = std::fmin(marginA, marginOf(a, goal.above, goal.below));
        marginC = std::fmin(marginC, marginOf(c, goal.above, goal.below));
        offA = std::fmax(offA, std::abs(a));
        offC = std::fmax(offC, std::abs(c));
    }
    figure("weighting_A_worst_margin", marginA, "dB", ">=0", marginA >= 0);
    figure("weighting_C_worst_margin", marginC, "dB", ">=0", marginC >= 0);
    figure("weighting_A_worst_deviation", offA, "dB", "-", true);
    figure("weighting_C_worst_deviation", offC, "dB", "-", true);
}

void tonebursts()
{
    double margin = HUGE_VAL;
    double off = 0;
    for (const ToneburstRow& goal : kTable4) {
        const BurstResponse heard = burstResponse(goal.ms);
        for (const double deviation : {heard.fastDb - goal.fastDb, heard.exposureDb - goal.exposureDb}) {
            margin = std::fmin(margin, marginOf(deviation, goal.above, goal.below));
            off = std::fmax(off, std::abs(deviation));
        }
        if (goal.slowAbove > 0) {
            margin = std::fmin(margin, marginOf(heard.slowDb - goal.slowDb, goal.slowAbove, goal.slowBelow));
            off = std::fmax(off, std::abs(heard.slowDb - goal.slowDb));
        }
    }
    figure("toneburst_worst_margin", margin, "dB", ">=0", margin >= 0);
    figure("toneburst_worst_deviation", off, "dB", "-", true);
}

void speechLevels()
{
    double worst = 0;
    for (const SpeechLevelCase& known : kSpeechLevelCases) {
        for (const int rateHz : {16'000, 48'000}) {
            const auto reading = speechLevelOf(known, rateHz);
            worst = std::fmax(worst, reading ? std::abs(reading->activeDb - known.activeDb) : HUGE_VAL);
        }
    }
    figure("p56_worst_error", worst, "dB", "<=0.1", worst <= 0.1);
}

/// Voice and room in turn, so that every part of the meter has work.
Samples classroom()
{
    Samples sound = whiteNoise(20, -60);
    for (int i = 0; i < 4; ++i)
        sound = mixed(std::move(sound), sing({.pitchHz = 100.0 + 40 * i}, 4, -30), 0.5 + 5 * i);
    return sound;
}

/// Median, least and greatest of seven runs of `work`, as seconds of sound per second.
template <class Work>
void timesRealTime(const char* name, double soundSeconds, const char* target, double least, Work work)
{
    std::vector<double> factors;
    for (int run = 0; run < 7; ++run) {
        const auto start = std::chrono::steady_clock::now();
        work();
        const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
        factors.push_back(soundSeconds / took.count());
    }
    std::ranges::sort(factors);
    std::printf("# %s: median %.0f, lowest %.0f, highest %.0f of 7 runs\n", name, factors[3], factors[0], factors[6]);
    figure(name, factors[3], "x", target, factors[3] >= least);
}

volatile double keep = 0; // so that nothing measured can be optimised away

void speeds()
{
    const auto meterOf = [](const Samples& sound, int times) {
        return [&sound, times] {
            Meter meter;
            int voiced = 0;
            for (int i = 0; i < times; ++i) {
                for (std::size_t at = 0; at < sound.size(); at += 960) // 20 ms, as a device hands them over
                    meter.push(std::span(sound).subspan(at, std::min<std::size_t>(960, sound.size() - at)),
                               [&](const VoiceFrame& frame) { voiced += frame.voiced ? 1 : 0; });
            }
            const auto speech = meter.speechLevel();
            keep = keep + voiced + meter.slowADb() + meter.slowCDb() + (speech ? speech->activeDb : 0);
        };
    };
    const Samples sound = classroom();
    timesRealTime("meter_realtime_factor", 300, ">=300", 300, meterOf(sound, 15));
    // Decaying filters must not fall into denormal numbers, which are slow.
    const Samples fading = joined({sine(200, 0.5, -20), silence(59.5)});
    timesRealTime("meter_realtime_factor_silence", 300, ">=300", 300, meterOf(fading, 5));

    const Samples other = sine(300, 20, -20, 44'100);
    timesRealTime("resampler_44100_realtime_factor", 20, "-", 0, [&other] {
        Resampler resampler(44'100);
        resampler.push(other, [](std::span<const float> piece) { keep = keep + piece.front(); });
    });
}

/// IEC 61672-1:2013 5.14: the reading of a steady tone moves by no more than 0.1 dB in 30 minutes.
void drift()
{
    const Samples second = sine(1000, 1, -20);
    Meter meter;
    double first = 0;
    for (int i = 0; i < 1800; ++i) {
        meter.push(second, [](const VoiceFrame&) {});
        if (i == 10)
            first = meter.slowADb();
    }
    const double moved = std::abs(meter.slowADb() - first);
    figure("drift_30_minutes", moved, "dB", "<=0.1", moved <= 0.1);
}
} // namespace

int main()
{
    weightings();
    tonebursts();
    speechLevels();
    drift();
    speeds();
    return allReached ? 0 : 1;
}
