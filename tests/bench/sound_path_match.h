#pragma once
// Where a short stretch of one recording is found in another: normalised cross-correlation at 8 kHz, refined between
// samples by a parabola. Positions are in samples at 48 kHz. Any thread.
#include "common/signal/resampler.h"

#include <cmath>
#include <optional>
#include <span>
#include <vector>

namespace vh::bench
{

inline std::vector<float> at8kHz(std::span<const float> at48kHz)
{
    std::vector<float> low;
    Resampler down(48'000, 8'000);
    down.push(at48kHz, [&](std::span<const float> piece) { low.insert(low.end(), piece.begin(), piece.end()); });
    return low;
}

/// `what` begins at `at` there if it begins at `guess` or up to `reach` later or earlier; all at 8 kHz. Nothing where
/// nothing is alike (under 0.7).
inline std::optional<double> find(std::span<const float> what, std::span<const float> in, long guess, long reach)
{
    double own = 0;
    for (const float sample : what)
        own += static_cast<double>(sample) * static_cast<double>(sample);
    if (own < 1e-4 * static_cast<double>(what.size()))
        return std::nullopt; // too quiet to be told
    const long from = std::max(0L, guess - reach);
    const long to = std::min(static_cast<long>(in.size()) - static_cast<long>(what.size()), guess + reach);
    std::vector<double> likeness;
    for (long at = from; at < to; ++at) {
        float dot = 0;
        float there = 0;
        for (std::size_t i = 0; i < what.size(); ++i) {
            const float sample = in[static_cast<std::size_t>(at) + i];
            dot += what[i] * sample;
            there += sample * sample;
        }
        likeness.push_back(there > 0 ? static_cast<double>(dot) / std::sqrt(own * static_cast<double>(there)) : 0);
    }
    if (likeness.size() < 3)
        return std::nullopt;
    std::size_t best = 1;
    for (std::size_t i = 1; i + 1 < likeness.size(); ++i)
        best = likeness[i] > likeness[best] ? i : best;
    if (likeness[best] < 0.7)
        return std::nullopt;
    const double a = likeness[best - 1];
    const double b = likeness[best];
    const double c = likeness[best + 1];
    const double bend = a - 2 * b + c;
    const double shift = bend < 0 ? 0.5 * (a - c) / bend : 0;
    return static_cast<double>(from) + static_cast<double>(best) + shift;
}

} // namespace vh::bench
