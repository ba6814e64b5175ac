#pragma once
// Any device rate to the one rate the meter works at. Mono, float, streaming, by libsamplerate. Allocates at
// construction only. The output lags by the filter's half length (about 1 ms to 48 kHz) and its count is right in the
// long run, not per call. Thread: one. Failure: the constructor throws std::runtime_error for rates it cannot serve.
#include <memory>
#include <span>
#include <vector>

struct SRC_STATE_tag;

namespace vh
{

class Resampler
{
public:
    static constexpr int kLowestRateHz = 8'000;
    static constexpr int kHighestRateHz = 192'000;

    explicit Resampler(int fromRateHz, int toRateHz = 48'000);

    /// Calls sink(std::span<const float>) with each piece that is ready, in order; the piece lives until sink returns.
    template <class Sink>
    void push(std::span<const float> samples, Sink&& sink)
    {
        if (!m_state) { // equal rates
            if (!samples.empty())
                sink(samples);
            return;
        }
        std::span<const float> piece;
        do {
            piece = convert(samples);
            if (!piece.empty())
                sink(piece);
        } while (!samples.empty() || piece.size() == m_out.size());
    }
    /// Forgets what went before: a device was changed or had a gap.
    void restart();

private:
    /// Converts from the front of `samples` and takes off what was used.
    std::span<const float> convert(std::span<const float>& samples);

    struct Closer {
        void operator()(SRC_STATE_tag* state) const;
    };
    std::unique_ptr<SRC_STATE_tag, Closer> m_state;
    double m_ratio;
    std::vector<float> m_out;
};

} // namespace vh
