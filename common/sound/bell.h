#pragma once
// A soft bell, synthesised: five partials that ring out by themselves. The same strike gives the same samples. 48 kHz,
// peak about 0.1 (-20 dB); rings for 2.5 s. mixInto allocates nothing. Thread: one.
// Partials: hum, prime, minor third, fifth and nominal stand 1/2 : 1 : 6/5 : 3/2 : 2 in a tuned bell (Fletcher and
// Rossing, The Physics of Musical Instruments, chapter on bells; from memory). Decay times are chosen by ear for
// softness.
#include <array>
#include <complex>
#include <cstddef>
#include <span>

namespace vh
{

class Bell
{
public:
    static constexpr std::size_t kSamples = 120'000;

    /// Begins, or begins again.
    void strike();
    void mixInto(std::span<float> samples, float gain = 1);
    [[nodiscard]] bool rings() const { return m_left > 0; }

private:
    static constexpr std::size_t kPartials = 5;
    std::array<std::complex<float>, kPartials> m_now{};
    std::size_t m_left = 0;
};

} // namespace vh
