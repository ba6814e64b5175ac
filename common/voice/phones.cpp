#include "common/voice/phones.h"

namespace vh::voice
{

namespace
{

/// Women's tracts are shorter: mean ratio of the formants in Peterson and Barney's table.
constexpr double kWomanOverMan = 1.16;
constexpr std::array<double, 2> kHigherHz{3500, 4500}; // F4 and F5 of a man

constexpr PhoneShape vowel(std::array<double, 3> man, std::array<double, 3> woman, int milliseconds)
{
    return {man, woman, {60, 90, 150}, 1, 0, 0, 0, 0, milliseconds};
}
constexpr PhoneShape sonorant(std::array<double, 3> man, std::array<double, 3> width, double voicing, int milliseconds)
{
    return {man, {}, width, voicing, 0, 0, 0, 0, milliseconds};
}
constexpr PhoneShape noisy(std::array<double, 3> man, double voicing, double frication, double hz, double widthHz,
                           int milliseconds)
{
    return {man, {}, {200, 120, 180}, voicing, 0, frication, hz, widthHz, milliseconds};
}

constexpr std::array<PhoneShape, kPhones> kShapes{
    PhoneShape{{500, 1500, 2500}, {}, {60, 90, 150}, 0, 0, 0, 0, 0, 260},
    vowel({270, 2290, 3010}, {310, 2790, 3310}, 120),
    vowel({390, 1990, 2550}, {430, 2480, 3070}, 100),
    vowel({530, 1840, 2480}, {610, 2330, 2990}, 110),
    vowel({660, 1720, 2410}, {860, 2050, 2850}, 140),
    vowel({730, 1090, 2440}, {850, 1220, 2810}, 140),
    vowel({570, 840, 2410}, {590, 920, 2710}, 140),
    vowel({440, 1020, 2240}, {470, 1160, 2680}, 100),
    vowel({300, 870, 2240}, {370, 950, 2670}, 120),
    vowel({640, 1190, 2390}, {760, 1400, 2780}, 100),
    vowel({490, 1350, 1690}, {500, 1640, 1960}, 130),
    sonorant({290, 610, 2150}, {50, 80, 60}, 0.6, 65),    // w
    sonorant({260, 2070, 3020}, {40, 250, 500}, 0.6, 60), // y
    sonorant({310, 1060, 1380}, {70, 100, 120}, 0.6, 65), // r
    sonorant({310, 1050, 2880}, {50, 100, 280}, 0.6, 60), // l
    sonorant({270, 1270, 2130}, {60, 200, 200}, 0.5, 65), // m: the nasal pole stands for F1
    sonorant({270, 1340, 2470}, {60, 300, 300}, 0.5, 60), // n
    sonorant({270, 1990, 2850}, {60, 300, 300}, 0.5, 70), // ng
    noisy({340, 1100, 2080}, 0, 0.25, 7000, 6000, 80),    // f
    noisy({220, 1100, 2080}, 0.4, 0.12, 7000, 6000, 60),  // v
    noisy({320, 1290, 2540}, 0, 0.2, 7500, 6000, 80),     // th
    noisy({270, 1290, 2540}, 0.4, 0.1, 7500, 6000, 50),   // dh
    noisy({320, 1390, 2530}, 0, 1, 6000, 1800, 95),       // s
    noisy({240, 1390, 2530}, 0.4, 0.5, 6000, 1800, 70),   // z
    noisy({300, 1840, 2750}, 0, 0.9, 3000, 1200, 95),     // sh
    noisy({300, 1840, 2750}, 0.4, 0.45, 3000, 1200, 70),  // zh
    PhoneShape{{500, 1500, 2500}, {}, {250, 120, 180}, 0, 1, 0, 0, 0, 60},
    noisy({400, 1100, 2150}, 0, 0.35, 1200, 2500, 12), // p: the burst
    noisy({200, 1100, 2150}, 0, 0.3, 1200, 2500, 8),   // b
    noisy({400, 1600, 2600}, 0, 0.8, 4500, 2500, 14),  // t
    noisy({200, 1600, 2600}, 0, 0.5, 4500, 2500, 10),  // d
    noisy({300, 1990, 2850}, 0, 0.7, 2200, 900, 20),   // k
    noisy({200, 1990, 2850}, 0, 0.5, 2200, 900, 14),   // g
    PhoneShape{{500, 1500, 2500}, {}, {250, 120, 180}, 0, 0.7, 0, 0, 0, 30},
};

} // namespace

const PhoneShape& shapeOf(Phone phone)
{
    return kShapes[static_cast<std::size_t>(phone)];
}

bool isVowel(Phone phone)
{
    return phone >= Phone::heed && phone <= Phone::heard;
}

bool isNasal(Phone phone)
{
    return phone >= Phone::m && phone <= Phone::ng;
}

bool isStop(Phone phone)
{
    return phone >= Phone::p && phone <= Phone::g;
}

std::array<double, kFormants> formantsOf(Phone phone, Tract tract)
{
    const PhoneShape& shape = shapeOf(phone);
    const double scale = tract == Tract::woman ? kWomanOverMan : 1;
    std::array<double, kFormants> hz{};
    for (std::size_t i = 0; i < 3; ++i) {
        const bool measured = tract == Tract::woman && shape.womanHz[i] > 0;
        hz[i] = measured ? shape.womanHz[i] : shape.manHz[i] * scale;
    }
    hz[3] = kHigherHz[0] * scale;
    hz[4] = kHigherHz[1] * scale;
    return hz;
}

} // namespace vh::voice
