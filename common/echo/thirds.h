#pragma once
// From 48 kHz to 16 kHz and back, for whole frames: one third of the samples, or three times as many. Both by the same
// linear-phase low-pass (Kaiser window, flat to 7.2 kHz, 60 dB down from 9 kHz), each late by kLate samples of 48 kHz.
// Source: Kaiser's design formulas, as in Oppenheim and Schafer, Discrete-Time Signal Processing, section 7.5. Thread:
// one.
#include <array>
#include <span>
#include <vector>

namespace vh
{

inline constexpr std::size_t kThirdsTaps = 97;

class ToThird
{
public:
    static constexpr std::size_t kLate = (kThirdsTaps - 1) / 2;

    /// `in`: a multiple of three, at most kMost; `out`: a third of it.
    void push(std::span<const float> in, std::span<float> out);

private:
    static constexpr std::size_t kMost = 480;
    std::array<float, kThirdsTaps - 1 + kMost> m_past{};
};

class FromThird
{
public:
    static constexpr std::size_t kLate = (kThirdsTaps - 1) / 2;

    /// `in`: at most kMost; `out`: three times as many.
    void push(std::span<const float> in, std::span<float> out);

private:
    static constexpr std::size_t kMost = 160;
    static constexpr std::size_t kTaps = kThirdsTaps / 3 + 1;
    std::array<float, kTaps - 1 + kMost> m_past{};
};

} // namespace vh
