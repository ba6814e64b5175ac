#include "common/home/played_probe.h"

#include <algorithm>
#include <cmath>

namespace vh
{

namespace
{

constexpr std::size_t kLags = PlayedProbe::kLongestDelayMs / 10;
constexpr double kClearDb = 6; ///< over the room's loud moments
constexpr double kEvenClearDb = 12;
constexpr float kHeardFrom = 0.5F;
constexpr double kLeastPlayed = 1e-9;

double dbOf(double meanSquare)
{
    return 10 * std::log10(std::max(meanSquare, 1e-12));
}

double quantile(std::vector<double> values, double share)
{
    if (values.empty())
        return 0;
    const auto at = static_cast<std::size_t>(share * static_cast<double>(values.size() - 1));
    std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(at), values.end());
    return values[at];
}

/// Of the amplitudes of two courses, one of them later: 0 ... 1.
double likenessAt(const std::vector<double>& early, const std::vector<double>& late, std::size_t lag)
{
    const std::size_t count = early.size() - lag;
    double meanEarly = 0;
    double meanLate = 0;
    for (std::size_t i = 0; i < count; ++i) {
        meanEarly += early[i];
        meanLate += late[i + lag];
    }
    meanEarly /= static_cast<double>(count);
    meanLate /= static_cast<double>(count);
    double both = 0;
    double one = 0;
    double other = 0;
    for (std::size_t i = 0; i < count; ++i) {
        const double a = early[i] - meanEarly;
        const double b = late[i + lag] - meanLate;
        both += a * b;
        one += a * a;
        other += b * b;
    }
    return one > 0 && other > 0 ? both / std::sqrt(one * other) : 0;
}

} // namespace

PlayedProbe::PlayedProbe(ProbeLayout layout) : m_layout(layout)
{
    m_microphone.reserve(layout.length + 400);
    m_played.reserve(layout.length + 400);
}

void PlayedProbe::add(float microphone, float played)
{
    m_microphone.push_back(microphone);
    m_played.push_back(played);
}

PlayedProbe::Result PlayedProbe::result() const
{
    Result result;
    const auto first = std::find_if(m_played.begin(), m_played.end(), [](float each) { return each > kLeastPlayed; });
    const auto start = static_cast<std::size_t>(first - m_played.begin());
    if (first == m_played.end() || m_played.size() < 2 * kLags)
        return result;

    std::vector<double> early;
    std::vector<double> late;
    for (std::size_t i = 0; i < m_played.size(); ++i) {
        early.push_back(std::sqrt(static_cast<double>(m_played[i])));
        late.push_back(std::sqrt(static_cast<double>(m_microphone[i])));
    }
    std::size_t lag = 0;
    double best = -1;
    for (std::size_t each = 0; each <= kLags; ++each) {
        const double likeness = likenessAt(early, late, each);
        if (likeness > best) {
            best = likeness;
            lag = each;
        }
    }
    result.likeness = static_cast<float>(std::max(0.0, best));
    result.heard = result.likeness >= kHeardFrom;
    result.delayMs = static_cast<std::uint32_t>(lag * 10);
    if (!result.heard || start < 20)
        return result;

    std::vector<double> during;
    for (std::size_t i = start; i < m_microphone.size(); ++i)
        during.push_back(static_cast<double>(m_microphone[i]));
    result.loudDbfsA = static_cast<float>(dbOf(quantile(during, 0.9)));
    // The room: the loud moments of what was heard before the sound came.
    std::vector<double> before;
    for (std::size_t i = start - std::min<std::size_t>(start, 100); i < start; ++i)
        before.push_back(static_cast<double>(m_microphone[i]));
    const double room = quantile(before, 0.9);
    const double roomMean = quantile(before, 0.5);

    struct Point {
        double playedDb, gainDb, heardDb;
    };
    // Over 50 ms; where a vowel begins or ends the room's own time would be heard.
    const auto pointsOf = [&](std::size_t from, std::size_t to) {
        constexpr std::size_t kPiece = 5;
        constexpr std::size_t kEdge = 25;
        std::vector<Point> points;
        for (std::size_t at = start + from + kEdge; at + kPiece + kEdge / 2 <= start + to; at += kPiece) {
            if (at + lag + kPiece > m_microphone.size())
                break;
            double heard = 0;
            double played = 0;
            for (std::size_t i = at; i < at + kPiece; ++i) {
                heard += static_cast<double>(m_microphone[i + lag]) / kPiece;
                played += static_cast<double>(m_played[i]) / kPiece;
            }
            points.push_back({dbOf(played), dbOf(std::max(heard - roomMean, heard / 20)) - dbOf(played), dbOf(heard)});
        }
        return points;
    };
    const std::vector<Point> even = pointsOf(m_layout.evenFrom, m_layout.evenTo);
    const std::vector<Point> fade = pointsOf(m_layout.fadeFrom, m_layout.fadeTo);
    if (even.size() < 8 || fade.size() < 8)
        return result;
    const auto gainOver = [](const std::vector<Point>& points, std::size_t from, std::size_t to) {
        std::vector<double> gains;
        for (std::size_t i = from; i < to; ++i)
            gains.push_back(points[i].gainDb);
        return quantile(gains, 0.5);
    };
    const std::size_t quarter = even.size() / 4;
    const double loudGain = gainOver(fade, 0, 6);
    result.gainDb = static_cast<float>(loudGain);
    // What would stand clear of the room if the gain stayed as it is in the loudest part.
    std::size_t clear = 0;
    while (clear < fade.size() && fade[clear].playedDb + loudGain >= dbOf(room) + kClearDb)
        ++clear;
    result.seenDb = clear > 0 ? static_cast<float>(fade.front().playedDb - fade[clear - 1].playedDb) : 0;
    const bool evenClear = even.front().playedDb + loudGain >= dbOf(room) + kEvenClearDb;
    result.tells = clear >= 12 || evenClear;
    if (clear >= 12) {
        const double last = gainOver(fade, clear - 6, clear) - loudGain;
        const double middle = gainOver(fade, clear / 2 - 3, clear / 2 + 3) - loudGain;
        // A gain that is ridden comes up early or little by little; a noise in the end does not.
        result.evenedDb = static_cast<float>(last > 0 ? std::min(last, std::max(0.0, 2 * middle)) : last);
    }
    if (evenClear) {
        result.driftDb =
            static_cast<float>(gainOver(even, even.size() - quarter, even.size()) - gainOver(even, 0, quarter));
        result.softerDb = static_cast<float>(gainOver(even, quarter, even.size()) - loudGain);
    }
    return result;
}

} // namespace vh
