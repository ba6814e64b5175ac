#pragma once
// Sounds for the tests of the echo: noise, somebody speaking, and a small room. Thread: one.
#include "common/voice/voice.h"

#include <cmath>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace vh::testing
{

/// Even noise, -1 to 1.
inline std::vector<float> noise(std::size_t samples, std::uint32_t seed)
{
    std::vector<float> out(samples);
    for (float& sample : out) {
        seed = seed * 1664525U + 1013904223U;
        sample = static_cast<float>(seed) / 2147483648.0F - 1.0F;
    }
    return out;
}

/// The direct sound after `late` samples, and a tail behind it that dies away.
inline std::vector<float> roomResponse(std::size_t late, std::size_t length, std::uint32_t seed)
{
    std::vector<float> response = noise(length, seed);
    for (std::size_t i = 0; i < length; ++i)
        response[i] *=
            i < late ? 0.0F : 0.1F * std::exp(-6.9F * static_cast<float>(i - late) / static_cast<float>(length));
    response[late] = 1.0F;
    return response;
}

inline std::vector<float> convolved(std::span<const float> sound, std::span<const float> response)
{
    std::vector<float> out(sound.size());
    std::size_t late = 0; // nothing before it
    while (late < response.size() && response[late] == 0)
        ++late;
    for (std::size_t i = 0; i < sound.size(); ++i) {
        const std::size_t reach = std::min(response.size(), sound.size() - i);
        if (sound[i] == 0)
            continue;
        for (std::size_t k = late; k < reach; ++k)
            out[i + k] += sound[i] * response[k];
    }
    return out;
}

/// 48 kHz, A-weighted level over the voiced parts.
inline std::vector<float> speech(const std::string& text, bool woman, double levelDbfsA, std::uint64_t seed)
{
    voice::Utterance utterance;
    utterance.text = text;
    utterance.levelDbfsA = levelDbfsA;
    voice::VoiceTraits traits;
    traits.tract = woman ? voice::Tract::woman : voice::Tract::man;
    traits.pitchHz = woman ? 200 : 115;
    return voice::render(utterance, traits, seed).samples;
}

/// "ah" held on this pitch, 48 kHz.
inline std::vector<float> heldVowel(double pitchHz, bool woman, double seconds, double levelDbfsA, std::uint64_t seed)
{
    voice::Utterance utterance;
    utterance.text = "ah";
    utterance.stretches = {{0, 2}};
    utterance.melody = voice::Melody::level;
    utterance.seconds = seconds;
    utterance.levelDbfsA = levelDbfsA;
    voice::VoiceTraits traits;
    traits.tract = woman ? voice::Tract::woman : voice::Tract::man;
    traits.pitchHz = pitchHz;
    traits.wanderPercent = 0.2;
    return voice::render(utterance, traits, seed).samples;
}

inline double meanSquare(std::span<const float> samples)
{
    double sum = 0;
    for (const float sample : samples)
        sum += static_cast<double>(sample) * sample;
    return sum / static_cast<double>(samples.size());
}

inline double decibels(double ratio)
{
    return 10 * std::log10(ratio);
}

} // namespace vh::testing
