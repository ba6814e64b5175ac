// The figures of the ears: what a home makes of turns among noises, per turn and on seeds that were not tuned with; how
// far its levels are off; how voice activity does on recorded speech beside an outside detector; how fast it all is.
// Conditions are named in comment lines (#) with their counts; the figures are the worst of them.
// bench_ears [--short] [--only speed|recorded|silent|speaking] [--turns N] [--seed N] [--kind NAME] [--noise NAME]
// --short: 50 turns a condition, to see that it runs; its figures mean nothing. For tuning: --seed (one that was used
// in it), --turns, and one kind of voice or one noise only.
#include "common/signal/resampler.h"
#include "tests/bench/bench_figure.h"
#include "tests/ground/curve.h"
#include "tests/ground/trials.h"

#include <chrono>
#include <cmath>
#include <cstdlib>
#include <span>
#include <string>
#include <string_view>

using namespace vh;
using namespace vh::ground;

namespace
{

/// What is asked for.
struct Wanted {
    std::string_view only;
    std::string_view kind;
    std::string_view noise;
    bool brief = false;
    int turns = 1000;
    std::uint64_t seed = kFirstUnseenSeed + 9;

    [[nodiscard]] bool part(std::string_view name) const { return only.empty() || only == name; }
    [[nodiscard]] bool is(Kind one) const { return kind.empty() || kind == nameOf(one); }
    [[nodiscard]] bool is(std::optional<Noise> one) const { return noise.empty() || (one && noise == nameOf(*one)); }
};

Wanted wantedBy(std::span<char*> words)
{
    Wanted wanted;
    const auto number = [](std::string_view text) { return std::strtoull(std::string(text).c_str(), nullptr, 10); };
    for (std::size_t i = 1; i < words.size(); ++i) {
        const std::string_view word = words[i];
        const std::string_view value = i + 1 < words.size() ? words[i + 1] : "";
        if (word == "--short") {
            wanted.brief = true;
            wanted.turns = 50;
            continue;
        }
        ++i;
        if (word == "--only")
            wanted.only = value;
        else if (word == "--turns")
            wanted.turns = static_cast<int>(number(value));
        else if (word == "--seed")
            wanted.seed = number(value);
        else if (word == "--kind")
            wanted.kind = value;
        else if (word == "--noise")
            wanted.noise = value;
    }
    return wanted;
}

/// The upper ends of the intervals of the worst condition, and of all together.
struct Worst {
    double upper = 0;
    void see(int hits, int of) { upper = std::max(upper, 100 * wilsonUpper(hits, of)); }
};

void silence(Trials& trials, const Wanted& wanted, bench::Figures& figures)
{
    Worst praised;
    for (const Noise noise : kNoises) {
        if (!wanted.is(noise))
            continue;
        // Rates near the limit: the bound must speak of them, not of few turns.
        const Tally tally = trials.silent(noise, 3 * wanted.turns);
        std::printf("# silent among %s: %d turns, praised %d, can't tell %d\n", nameOf(noise), tally.turns,
                    tally.praised, tally.cantTell);
        praised.see(tally.praised, tally.turns);
    }
    figures.atMost("praised_while_silent_worst_condition_95", praised.upper, "%", 1);
}

void speaking(Trials& trials, const Wanted& wanted, bench::Figures& figures)
{
    Worst silenced;
    Tally all;
    for (const Kind kind : kKinds) {
        if (!wanted.is(kind))
            continue;
        Tally ofKind;
        for (int i = -1; i < static_cast<int>(kNoises.size()); ++i) {
            const auto noise = i < 0 ? std::nullopt : std::optional(kNoises[static_cast<std::size_t>(i)]);
            if (!wanted.is(noise))
                continue;
            const Tally tally = trials.speaking(kind, noise, wanted.turns);
            std::printf("# %s with %s: %d turns, called silent %d, under 0.2 s heard %d, can't tell %d, judged %d\n",
                        nameOf(kind), noise ? nameOf(*noise) : "an even room", tally.turns, tally.silenced,
                        tally.unheard, tally.cantTell, tally.trusted);
            silenced.see(tally.silenced, tally.turns);
            ofKind.add(tally);
        }
        const LevelErrors errors = levelErrors(ofKind);
        std::printf("# %s: level error median %.2f dB, within 3 dB %.1f %%, bias %+.2f dB\n", nameOf(kind),
                    errors.medianDb, errors.within3Percent, errors.biasDb);
        all.add(ofKind);
    }
    const LevelErrors errors = levelErrors(all);
    figures.atMost("called_silent_while_speaking_worst_condition_95", silenced.upper, "%", 1);
    figures.reported("cant_tell_while_speaking_all_conditions", 100.0 * all.cantTell / all.turns, "%");
    figures.atMost("level_error_10dB_median", errors.medianDb, "dB", 0.5);
    figures.atLeast("level_error_10dB_within_3dB", errors.within3Percent, "%", 98);
}

void recordedSpeech(std::uint64_t seed, bench::Figures& figures)
{
    const std::vector<Recording> speech = recordings();
    if (speech.empty()) {
        std::printf("# no recorded speech: pocketsphinx-testdata is not installed\n");
        figures.atLeast("recorded_speech_f1", 0, "F1", 1);
        return;
    }
    const auto compare = [&](const char* ours, const char* theirs, const std::vector<Condition>& conditions) {
        const Comparison found = compared(speech, conditions, seed);
        double best = 0;
        for (int i = 0; i < kReferenceSettings; ++i) {
            const Score& score = found.reference[static_cast<std::size_t>(i)];
            std::printf("# reference, setting %d: precision %.3f, recall %.3f, F1 %.3f\n", i, score.precision(),
                        score.recall(), score.f1());
            best = std::max(best, score.f1());
        }
        const Score& own = found.ours[kVoicedThreshold];
        std::printf("# ours: precision %.3f, recall %.3f\n", own.precision(), own.recall());
        figures.reported(theirs, best, "F1");
        figures.atLeast(ours, own.f1(), "F1", std::round(best * 1e4) / 1e4);
    };
    compare("recorded_speech_f1", "recorded_speech_reference_best_f1", kRecordedConditions);
    compare("recorded_speech_as_it_is_f1", "recorded_speech_as_it_is_reference_best_f1", {{}});
}

/// A whole home at 48 kHz: meter, home meter, readings; voice and noise in turn.
void speed(Trials& trials, std::uint64_t seed, bench::Figures& figures)
{
    constexpr int kRate = 48'000;
    Samples sound;
    Resampler resampler(kVoiceRateHz);
    for (const Kind kind : {Kind::modal, Kind::whisper, Kind::espeak}) {
        for (std::size_t i = 0; i < 4; ++i) {
            Samples quieter = trials.said(kind)[i].samples;
            quieter.resize(samplesOf(5, kVoiceRateHz));
            for (float& sample : quieter)
                sample *= 0.01F;
            resampler.push(
                quieter, [&](std::span<const float> piece) { sound.insert(sound.end(), piece.begin(), piece.end()); });
        }
    }
    const Samples room = roomTone(10, seed, kRate);
    for (std::size_t i = 0; i < sound.size(); ++i)
        sound[i] += 0.0003F * room[i % room.size()];
    std::vector<double> factors;
    for (int run = 0; run < 5; ++run) {
        Home home(kRate, -45, -75);
        const auto start = std::chrono::steady_clock::now();
        constexpr std::size_t kTurn = 5 * kRate;
        for (std::size_t at = 0; at + kTurn <= sound.size(); at += kTurn)
            (void)home.yours(std::span(sound).subspan(at, kTurn));
        const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
        factors.push_back(static_cast<double>(sound.size()) / kRate / took.count());
    }
    const bench::Spread spread = bench::spreadOf(factors);
    bench::Figures::spread("home_metering_realtime_factor", spread, factors.size());
    figures.atLeast("home_metering_realtime_factor", spread.median, "x", 200);
}

} // namespace

int main(int argc, char** argv)
{
    const Wanted wanted = wantedBy(std::span(argv, static_cast<std::size_t>(argc)));
    bench::Figures figures;
    Trials trials(wanted.brief ? 20 : 120, wanted.brief ? 2 : 8, wanted.seed);
    if (wanted.part("speed"))
        speed(trials, wanted.seed, figures);
    if (wanted.part("recorded"))
        recordedSpeech(wanted.seed, figures);
    if (wanted.part("silent"))
        silence(trials, wanted, figures);
    if (wanted.part("speaking"))
        speaking(trials, wanted, figures);
    return figures.exitCode();
}
