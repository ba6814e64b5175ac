#pragma once
// Voices of the proving ground, from three places: espeak-ng (an outside synthesiser, run as a program), recorded human
// speech of the Debian package pocketsphinx-testdata, and what is made from either: the same speech whispered, or with
// breath mixed in to a stated harmonic-to-noise ratio. All at kVoiceRateHz. Nothing when a package is missing: callers
// must say so. Thread: one.
#include "tests/ground/sound.h"

#include <string>
#include <string_view>

namespace vh::ground
{

inline constexpr int kVoiceRateHz = 16'000;

/// Brought to kVoiceRateHz.
Samples atVoiceRate(const Samples& samples, int fromHz);
/// Variants of espeak-ng's English voice: men, women, old, hoarse.
std::span<const char* const> espeakVariants();
/// Plain sentences as a class reads them.
std::span<const char* const> sentences();
/// What espeak-ng makes of it. Empty if it could not be run.
Samples espeakSays(std::string_view text, std::string_view variant, int wordsPerMinute, int pitch = 50);

/// The same speech without a larynx: its spectral envelope (linear prediction, order 18, every 10 ms) and its loudness,
/// driven by noise.
Samples whispered(std::span<const float> speech, std::uint64_t seed);
/// Speech with so much of its own whisper in it that harmonics stand `hnrDb` over breath, over the whole of it. What the
/// speech had in it before (a few decibels under 20) comes on top.
Samples breathy(std::span<const float> speech, double hnrDb, std::uint64_t seed);
/// One held vowel: pulses with 0.6 % jitter, 3 % shimmer and a slow drift through formants; breath as above.
Samples vowel(double seconds, double pitchHz, std::uint64_t seed);

struct Recording {
    std::string name;
    Samples samples;
};
/// The recorded speech: readers, digits and commands, 16 kHz. Empty if the package is not installed.
std::vector<Recording> recordings();

/// Where somebody speaks, by the 10 ms frame; meant for clean speech. The rule looks at energy alone (unweighted, over
/// 30 ms around the frame): within 30 dB of the speech's active level (ITU-T P.56 by our SpeechLevel, checked against
/// G.191) and, where the recording has pauses at all (its quietest tenth is 15 dB under that level), at least 6 dB over
/// that tenth; pauses shorter than 200 ms (the hangover of P.56)
/// are speech, bursts shorter than 30 ms are not.
std::vector<bool> speechFrames(std::span<const float> clean);

} // namespace vh::ground
