#include "common/signal/pause_watch.h"

#include "common/signal/level.h"

#include <algorithm>
#include <cmath>
#include <span>

namespace vh
{

namespace
{

constexpr int kLeastVoice = 50;          ///< frames; a cough is no word
constexpr std::size_t kLeastPause = 150; ///< frames; shorter ones say little
constexpr std::size_t kEarlyFrom = 5, kEarlyTo = 65, kEarlyLength = 20;
constexpr std::size_t kLateFrom = 120;
/// The low band needs longer to be known, and its filter rings.
constexpr std::size_t kLowEarlyFrom = 20, kLowLateTo = 6;
constexpr double kBlack = 1e-11;
/// Even noise, a fan, a hum: less than that between its softer and its louder moments.
constexpr float kSteadyDb = 2.5F;
/// A voice 60 dB(A) loud at half a metre stands some 35 dB over the quietest room with a good microphone in it; one at
/// a headset's 3 cm some 50 dB. Arithmetic, and common practice.
constexpr float kMostClearDb = 56;
constexpr float kRiseDb = 0.8F;
constexpr float kRiseShare = 0.6F;
constexpr float kHeldDownDb = 3.5F;
/// Of what is heard, the low band moves at least so much with it, less so much by chance.
constexpr float kLowShare = 0.35F;
constexpr float kLowChanceDb = 0.3F;
constexpr float kCutAway = -115; ///< dB; no microphone's band is so silent of itself: it tells nothing

/// Levels of stretches of 50 ms: a fifth of them lie under `low`, a fifth above `high`.
struct Quiet {
    float low = -120;
    float high = -120;
    [[nodiscard]] bool steady() const { return high - low < kSteadyDb; }
};

float meanDb(std::span<const float> meanSquares)
{
    double sum = 0;
    for (const float each : meanSquares)
        sum += static_cast<double>(each);
    return static_cast<float>(dbOfMeanSquare(sum / static_cast<double>(std::max<std::size_t>(1, meanSquares.size()))));
}

Quiet quietOf(std::span<const float> meanSquares)
{
    constexpr std::size_t kPiece = 5;
    std::array<double, 64> pieces{};
    std::size_t count = 0;
    for (std::size_t at = 0; at + kPiece <= meanSquares.size() && count < pieces.size(); at += kPiece) {
        double sum = 0;
        for (const float each : meanSquares.subspan(at, kPiece))
            sum += static_cast<double>(each);
        pieces[count++] = sum / kPiece;
    }
    if (count == 0)
        return {};
    std::sort(pieces.begin(), pieces.begin() + static_cast<std::ptrdiff_t>(count));
    return {static_cast<float>(dbOfMeanSquare(pieces[count / 5])),
            static_cast<float>(dbOfMeanSquare(pieces[count - 1 - count / 5]))};
}

} // namespace

void PauseWatch::add(const VoiceFrame& frame)
{
    if (frame.blank == Blank::noSignal && !m_inPause)
        return; // a device that wakes up
    if (frame.voiced) {
        if (m_inPause)
            end();
        ++m_voiced;
        m_voicedEnergy += static_cast<double>(frame.meanSquareA);
        return;
    }
    if (!m_inPause)
        begin();
    if (!m_inPause && m_voiced == 0)
        addQuiet(frame); // a silence that goes on is the room without any voice
    if (m_inPause && m_length < kLongest) {
        m_nowLow[m_length] = frame.lowMeanSquare;
        m_now[m_length++] = frame.meanSquareA;
    }
    if (m_inPause && m_length == kLongest)
        end();
}

void PauseWatch::addQuiet(const VoiceFrame& frame)
{
    if (frame.voiced || frame.blank == Blank::noSignal)
        return;
    m_quietLow[m_quietCount % kLongest] = frame.lowMeanSquare;
    m_quiet[m_quietCount++ % kLongest] = frame.meanSquareA;
}

std::optional<float> PauseWatch::quietDbfsA() const
{
    constexpr std::size_t kEnough = 100;
    if (m_quietCount < kEnough)
        return std::nullopt;
    const Quiet quiet = quietOf(std::span<const float>(m_quiet.data(), std::min(m_quietCount, kLongest)));
    return quiet.steady() ? std::optional(quiet.low) : std::nullopt;
}

void PauseWatch::begin()
{
    if (m_voiced < kLeastVoice)
        return;
    m_inPause = true;
    m_length = 0;
    m_before = static_cast<float>(dbOfMeanSquare(m_voicedEnergy / m_voiced));
}

void PauseWatch::finishPause()
{
    if (m_inPause)
        end();
}

void PauseWatch::end()
{
    m_inPause = false;
    const bool longEnough = m_length >= kLeastPause;
    if (!longEnough)
        return; // the voice goes on: what was said before it still counts
    const std::span<const float> all(m_now.data(), m_length);
    Pause pause;
    pause.voiceDbfsA = m_before;
    pause.earlyDbfsA = quietOf(all.subspan(kEarlyFrom, kEarlyLength)).low;
    for (std::size_t from = kEarlyFrom + kEarlyLength; from + kEarlyLength <= kEarlyTo; from += kEarlyLength)
        pause.earlyDbfsA = std::min(pause.earlyDbfsA, quietOf(all.subspan(from, kEarlyLength)).low);
    const std::span<const float> low(m_nowLow.data(), m_length);
    pause.lowEarlyDb = meanDb(low.subspan(kLowEarlyFrom, kEarlyTo - kLowEarlyFrom));
    pause.lowLateDb = meanDb(low.subspan(kLateFrom, m_length - kLateFrom - kLowLateTo));
    const Quiet late = quietOf(all.subspan(kLateFrom));
    pause.lateDbfsA = late.low;
    const auto black = std::count_if(all.begin(), all.end(), [](float each) { return each < kBlack; });
    pause.black = static_cast<std::size_t>(black) * 4 > m_length;
    m_voiced = 0;
    m_voicedEnergy = 0;
    if (!pause.black && !late.steady())
        return; // somebody breathes, a kettle whistles: it says nothing of the gain
    m_pauses[m_next] = pause;
    m_next = (m_next + 1) % kKept;
    m_count = std::min(m_count + 1, kKept);
}

template <class Value>
PauseWatch::Course PauseWatch::courseOf(Value&& value) const
{
    std::array<float, kKept> values{};
    for (std::size_t i = 0; i < m_count; ++i)
        values[i] = value(m_pauses[i]);
    if (m_count == 0)
        return {};
    std::sort(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(m_count));
    const float middle = m_count % 2 == 1 ? values[m_count / 2] : (values[m_count / 2] + values[m_count / 2 - 1]) / 2;
    return {values[0], middle};
}

PauseWatch::Course PauseWatch::riseDb() const
{
    return courseOf([](const Pause& pause) { return pause.lateDbfsA - pause.earlyDbfsA; });
}

PauseWatch::Course PauseWatch::underQuietDb() const
{
    const auto quiet = quietDbfsA();
    return quiet ? courseOf([&](const Pause& pause) { return *quiet - pause.earlyDbfsA; }) : Course{};
}

float PauseWatch::lowRiseDb() const
{
    return courseOf([](const Pause& pause) { return pause.lowLateDb - pause.lowEarlyDb; }).median;
}

float PauseWatch::lowQuietDb() const
{
    return meanDb(std::span<const float>(m_quietLow.data(), std::min(m_quietCount, kLongest)));
}

float PauseWatch::lowUnderQuietDb() const
{
    return lowQuietDb() - courseOf([](const Pause& pause) { return pause.lowEarlyDb; }).median;
}

float PauseWatch::lowLateOverQuietDb() const
{
    return courseOf([](const Pause& pause) { return pause.lowLateDb; }).median - lowQuietDb();
}

bool PauseWatch::lowAgrees(float low, float heard) const
{
    const bool isThere = courseOf([](const Pause& pause) { return pause.lowLateDb; }).median > kCutAway;
    return !isThere || low > kLowShare * heard - kLowChanceDb;
}

PauseWatch::Course PauseWatch::clearDb() const
{
    return courseOf([](const Pause& pause) { return pause.voiceDbfsA - pause.lateDbfsA; });
}

PauseWatch::Course PauseWatch::lateDbfsA() const
{
    return courseOf([](const Pause& pause) { return pause.lateDbfsA; });
}

bool PauseWatch::mostlyBlack() const
{
    const auto all = std::span(m_pauses).first(m_count);
    const auto black = std::count_if(all.begin(), all.end(), [](const Pause& pause) { return pause.black; });
    return m_count > 0 && static_cast<std::size_t>(black) * 2 > m_count;
}

PauseWatch::Finding PauseWatch::finding() const
{
    if (mostlyBlack())
        return Finding::gated;
    if (m_count == 0)
        return Finding::nothing;
    const float asked = m_count < kLeast ? 2 : 1;
    if (clearDb().median > kMostClearDb)
        return Finding::gated;
    const Course rise = riseDb();
    const Course under = underQuietDb();
    // What rises within a pause has risen in the longer silence too; a noise that came and went has not.
    const bool comesUp =
        rise.median > asked * kRiseDb && under.median > kRiseShare * rise.median && lowAgrees(lowRiseDb(), rise.median);
    const bool isHeldDown = under.median > asked * kHeldDownDb && under.least > kHeldDownDb / 2 &&
                            lowAgrees(lowUnderQuietDb(), under.median);
    return comesUp || isHeldDown ? Finding::ridesGain : Finding::nothing;
}

} // namespace vh
