#pragma once
// The sounds that the synthetic voice can make, and what each takes: formants, and how much pulse, breath and
// frication. Plain table; any thread. Sources: vowels Peterson and Barney 1952, Table II; consonants Klatt 1980, Table
// III (formants of the cascade; frication reduced to one or two resonances at the strongest part of its spectrum); F4,
// F5 and vowel bandwidths: typical values in Klatt 1980, Table I and text. Durations: unhurried reading aloud, common
// practice.
#include "common/voice/voice.h"

#include <array>

namespace vh::voice
{

enum class Phone : std::uint8_t {
    pause,
    heed,
    hid,
    head,
    had,
    hod,
    hawed,
    hood,
    whod,
    hud,
    heard, // vowels, by Peterson and Barney's words
    w,
    y,
    r,
    l,
    m,
    n,
    ng,
    f,
    v,
    th,
    dh,
    s,
    z,
    sh,
    zh,
    h,
    p,
    b,
    t,
    d,
    k,
    g,
    release, ///< of p, t, k before a vowel: breath through the tract of what follows
};
inline constexpr std::size_t kPhones = static_cast<std::size_t>(Phone::release) + 1;

inline constexpr std::size_t kFormants = 5;

struct PhoneShape {
    std::array<double, 3> manHz{};   ///< F1 to F3
    std::array<double, 3> womanHz{}; ///< 0: a man's, scaled
    std::array<double, 3> widthHz{60, 90, 150};
    double voicing = 0;    ///< of the pulse, 1 = a vowel's
    double aspiration = 0; ///< breath through the whole tract
    double frication = 0;  ///< noise from the mouth, 1 = an s
    double frictionHz = 0; ///< where that is strongest
    double frictionWidthHz = 0;
    int milliseconds = 0;
};

[[nodiscard]] const PhoneShape& shapeOf(Phone phone);
[[nodiscard]] bool isVowel(Phone phone);
[[nodiscard]] bool isNasal(Phone phone);
/// p, t, k, b, d, g.
[[nodiscard]] bool isStop(Phone phone);

/// F1 to F5 of one tract.
[[nodiscard]] std::array<double, kFormants> formantsOf(Phone phone, Tract tract);

} // namespace vh::voice
