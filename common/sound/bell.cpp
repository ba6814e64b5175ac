#include "common/sound/bell.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace vh
{

namespace
{
struct Partial {
    double ratio;
    double amplitude;
    double seconds; ///< until it has fallen to 1/e
};
constexpr double kPrimeHz = 523.25; // the c above middle c: well inside what small loudspeakers give
constexpr Partial kBell[] = {
    {0.5, 0.018, 0.60}, {1.0, 0.042, 0.50}, {1.2, 0.014, 0.40}, {1.5, 0.012, 0.30}, {2.0, 0.014, 0.22}};
constexpr std::size_t kAttack = 480; // 10 ms: no click
constexpr std::size_t kEnd = 4'800;  // the last 100 ms go to nothing

const auto kTurns = [] {
    std::array<std::complex<float>, std::size(kBell)> turns{};
    for (std::size_t i = 0; i < turns.size(); ++i) {
        const double angle = 2 * std::numbers::pi * kPrimeHz * kBell[i].ratio / 48'000;
        turns[i] = std::complex<float>(std::polar(std::exp(-1 / (48'000 * kBell[i].seconds)), angle));
    }
    return turns;
}();
} // namespace

void Bell::strike()
{
    static_assert(kPartials == std::size(kBell));
    for (std::size_t i = 0; i < kPartials; ++i)
        m_now[i] = {static_cast<float>(kBell[i].amplitude), 0};
    m_left = kSamples;
}

void Bell::mixInto(std::span<float> samples, float gain)
{
    for (float& sample : samples) {
        if (m_left == 0)
            return;
        float sum = 0;
        for (std::size_t i = 0; i < kPartials; ++i) {
            sum += m_now[i].imag();
            m_now[i] *= kTurns[i];
        }
        const std::size_t age = kSamples - m_left;
        const float rise = age < kAttack ? static_cast<float>(age) / kAttack : 1.0F;
        const float fall = m_left < kEnd ? static_cast<float>(m_left) / kEnd : 1.0F;
        sample += gain * rise * fall * sum;
        --m_left;
    }
}

} // namespace vh
