#include "tests/ground/altered.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace vh::ground
{

namespace
{

constexpr double kLeast = 1e-7;
/// Gains are worked out for every fourth sample.
constexpr int kControl = 4;

double takeIn(double seconds, int rateHz)
{
    return 1 - std::exp(-1 / (seconds * rateHz));
}

double evenly(Random& random, double from, double to) ///< in ratio
{
    return from * std::pow(to / from, random.between(0, 1));
}

class Nothing : public Line
{
public:
    void pass(std::span<float> /*samples*/) override {}
};

/// Level in dB through a curve to a gain in dB, smoothed by attack and release.
class GainRider : public Line
{
public:
    GainRider(double voiceDb, bool held, int rateHz, Random& random)
        : m_held(held), m_threshold(voiceDb - random.between(3, 15)), m_slope(1 - 1 / random.between(2.5, 12)),
          m_makeUp(random.between(0, 12)),
          m_attack(takeIn(held ? random.between(0.3, 1.5) : evenly(random, 0.005, 0.2), rateHz / kControl)),
          m_release(takeIn(held ? random.between(0.8, 4) : evenly(random, 0.25, 3), rateHz / kControl)),
          m_peakRelease(takeIn(0.02, rateHz))
    {
    }
    void pass(std::span<float> samples) override
    {
        for (float& sample : samples) {
            const double size = std::abs(static_cast<double>(sample));
            m_peak = std::max(size, m_peak - m_peakRelease * (m_peak - size));
            if (m_count++ % kControl == 0)
                control();
            sample *= m_gain;
        }
    }

private:
    void control()
    {
        const double level = 20 * std::log10(m_peak + kLeast) - 3;
        const double wanted = m_slope * std::max(0.0, level - m_threshold);
        if (!m_held || level > m_threshold - 12)
            m_reduced += (wanted > m_reduced ? m_attack : m_release) * (wanted - m_reduced);
        m_gain = static_cast<float>(std::pow(10, (m_makeUp - m_reduced) / 20));
    }

    bool m_held;
    double m_threshold, m_slope, m_makeUp, m_attack, m_release, m_peakRelease;
    double m_peak = 0;
    double m_reduced = 0;
    unsigned m_count = 0;
    float m_gain = 1;
};

class Gate : public Line
{
public:
    Gate(double voiceDb, double roomDb, bool soft, int rateHz, Random& random)
        : m_soft(soft), m_slope(random.between(1, 4)), m_closedDb(random.chance(0.4) ? 200 : random.between(12, 40)),
          m_attack(takeIn(evenly(random, 0.001, 0.02), rateHz / kControl)),
          m_release(takeIn(evenly(random, 0.01, 0.2), rateHz / kControl)),
          m_hold(static_cast<int>(random.between(0, 0.25) * rateHz / kControl)), m_peakRelease(takeIn(0.02, rateHz))
    {
        // Between the room and the voice, where somebody would set it; what it lets through of the voice differs.
        const double lowest = std::min(roomDb + 8, voiceDb - 2);
        m_threshold = random.between(std::max(lowest, voiceDb - 10), voiceDb + 4);
    }
    void pass(std::span<float> samples) override
    {
        for (float& sample : samples) {
            const double size = std::abs(static_cast<double>(sample));
            m_peak = std::max(size, m_peak - m_peakRelease * (m_peak - size));
            if (m_count++ % kControl == 0)
                control();
            sample *= m_gain;
        }
    }

private:
    void control()
    {
        const double under = m_threshold - (20 * std::log10(m_peak + kLeast) - 3);
        double wanted = 0;
        if (m_soft) {
            wanted = std::clamp(under * m_slope, 0.0, std::min(m_closedDb, 60.0));
        } else {
            m_left = under < 0 ? m_hold : std::max(0, m_left - 1);
            wanted = under < 0 || m_left > 0 ? 0 : m_closedDb;
        }
        m_reduced += (wanted > m_reduced ? m_release : m_attack) * (wanted - m_reduced);
        m_gain = m_reduced > 90 ? 0 : static_cast<float>(std::pow(10, -m_reduced / 20));
    }

    bool m_soft;
    double m_slope, m_closedDb, m_attack, m_release;
    int m_hold;
    double m_peakRelease;
    double m_threshold = 0, m_peak = 0, m_reduced = 0;
    int m_left = 0;
    unsigned m_count = 0;
    float m_gain = 1;
};

} // namespace

std::unique_ptr<Line> outsideLine(bool gain, double voiceDbfsA, int rateHz, Random& random);

const char* nameOf(Altering altering)
{
    constexpr std::array kNames{"ordinary", "gain rider", "gain rider held in pauses", "outside gain control",
                                "gate",     "soft gate",  "outside noise suppressor"};
    return kNames[static_cast<std::size_t>(altering)];
}

std::unique_ptr<Line> lineOf(Altering altering, double voiceDbfsA, double roomDbfsA, int rateHz, Random& random)
{
    switch (altering) {
    case Altering::nothing:
        break;
    case Altering::gain:
    case Altering::gainHeld:
        return std::make_unique<GainRider>(voiceDbfsA, altering == Altering::gainHeld, rateHz, random);
    case Altering::gate:
    case Altering::expander:
        return std::make_unique<Gate>(voiceDbfsA, roomDbfsA, altering == Altering::expander, rateHz, random);
    case Altering::outsideGain:
    case Altering::outsideNoiseSuppressor:
        return outsideLine(altering == Altering::outsideGain, voiceDbfsA, rateHz, random);
    }
    return std::make_unique<Nothing>();
}

} // namespace vh::ground
