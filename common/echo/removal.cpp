#include "common/echo/removal.h"

#include "common/signal/level.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace vh
{

namespace
{
constexpr int kLearntFrom = 60;    // blocks
constexpr double kTakeSlow = 0.03; // about a third of a second
constexpr double kWorthFrom = 0.5;
constexpr double kWorthNothing = 1.3;
constexpr double kForgetLeak = 0.9995;
constexpr int kChangedToDoubt = 15;
constexpr int kDoubtEvery = 100;
constexpr double kUnknownLeakDb = 20;
/// What was learnt before may be off by that much: another volume.
constexpr double kLeakMarginDb = 3;
constexpr int kStretchBlocks = 50;
constexpr int kRunToArrive = 70; // blocks: what was played first has come back by then
constexpr std::size_t kStretchesToKnow = 3;
constexpr double kRoomShare = 0.8;      // of it is surely no leak
constexpr double kStretchMargin = 1.6;  // 2 dB: single words beside half a second of them
constexpr std::size_t kHeldFrames = 10; // in one stretch
constexpr std::size_t kSilentFrom = Canceller::kPartitions + 3;
/// As long as the stretch from which delays are told: with another voice in it they are not.
constexpr int kPersonLingers = 48;
} // namespace

Removal::Removal(int sampleRateHz)
    : m_thinning(static_cast<std::size_t>(sampleRateHz / 16'000)),
      m_ahead(m_thinning == 3 ? (ToThird::kLate + FromThird::kLate) / 3 : 0), m_alignment(m_ahead),
      m_echoWeighting(16'000), m_farWeighting(16'000), m_restWeighting(16'000), m_micWeighting(16'000),
      m_wide(kBlock * m_thinning)
{
}

void Removal::startFilter()
{
    if (const auto leak = leakDb())
        m_knownLeakDb = *leak + kLeakMarginDb;
    else if (m_stretchesKnown > 0)
        m_knownLeakDb = dbOfMeanSquare(leakAtMost()) + kLeakMarginDb;
    m_canceller.restart();
    m_learnt = 0;
    m_worth = false;
    m_micMean = m_restMean = 0;
    m_echoSum = m_farSum = 0;
    m_stretchesKnown = 0;
    m_inStretch = 0;
    m_changed = 0;
    m_sinceDoubt = 0;
    m_fresh = true;
}

void Removal::restart()
{
    m_alignment.restart();
    startFilter();
    m_knownLeakDb.reset();
}

void Removal::begin(double delaySeconds, double leakDb)
{
    restart();
    m_knownLeakDb = leakDb + kLeakMarginDb;
    m_alignment.begin(delaySeconds * Alignment::kRateHz);
}

std::optional<double> Removal::delaySeconds() const
{
    if (m_alignment.state() != Alignment::State::found)
        return std::nullopt;
    return m_alignment.delay() / Alignment::kRateHz;
}

std::optional<double> Removal::leakDb() const
{
    if (!m_worth || m_farSum <= 0)
        return std::nullopt;
    return dbOfMeanSquare(m_echoSum / m_farSum);
}

Removal::Heard Removal::push(std::span<float> mic, std::span<const float> far)
{
    assert(mic.size() == kBlock * m_thinning && far.size() == mic.size());
    m_micBefore = m_mic;
    m_farBefore = m_far;
    m_echoBefore = m_echo;
    Block farNow;
    if (m_thinning == 3) {
        m_micThird.push(mic, m_mic);
        m_farThird.push(far, farNow);
    } else {
        std::copy(mic.begin(), mic.end(), m_mic.begin());
        std::copy(far.begin(), far.end(), farNow.begin());
    }
    m_fresh = false;
    m_alignment.push(farNow, m_far);
    if (rests()) {
        m_speech.rest();
        m_farBeforeA = m_farA = m_echoA = m_coherent = 0;
        return heardNow();
    }
    const auto before = m_alignment.state();
    m_canceller.predict(m_far, m_echo);
    lookBack();
    if (before == Alignment::State::found && m_alignment.state() != before)
        startFilter();
    m_speech.push(m_canceller.newestPower());
    weigh(m_far);
    subtract(mic);
    return heardNow();
}

bool Removal::rests()
{
    const bool silent = std::all_of(m_far.begin(), m_far.end(), [](float sample) { return sample == 0; });
    m_silent = silent ? std::min<std::size_t>(m_silent + 1, 1000) : 0;
    const bool known = m_alignment.state() == Alignment::State::found;
    if (m_silent < (known ? kSilentFrom : 2 * kHeldFrames * m_farHeld.size()))
        return false;
    m_echo.fill(0);
    m_gain = m_worth ? 1.0F : 0.0F;
    return true;
}

Removal::Heard Removal::heardNow()
{
    m_frame = (m_frame + 1) % (kHeldFrames * m_farHeld.size());
    double& held = m_farHeld[m_frame / kHeldFrames];
    held = std::max(m_frame % kHeldFrames == 0 ? 0 : held, m_farA);
    Heard heard;
    heard.removed = m_worth;
    heard.coherence = m_coherent;
    heard.fresh = m_fresh;
    heard.told = true;
    if (m_worth) {
        heard.echo = m_echoA;
        heard.echoAtMost = std::max(m_farA, m_farBeforeA) * leakAtMost();
    } else if (m_alignment.state() == Alignment::State::found)
        heard.echo = std::max(m_farA, m_farBeforeA) * leakAtMost();
    else if (m_knownLeakDb || m_stretchesKnown >= kStretchesToKnow)
        heard.echo = *std::max_element(m_farHeld.begin(), m_farHeld.end()) * leakAtMost();
    else
        heard.told = false;
    return heard;
}

void Removal::lookBack()
{
    Block mic; // as far ahead as the far end is read
    std::copy(m_micBefore.begin() + static_cast<std::ptrdiff_t>(m_ahead), m_micBefore.end(), mic.begin());
    std::copy_n(m_mic.begin(), m_ahead, mic.end() - static_cast<std::ptrdiff_t>(m_ahead));
    for (std::size_t i = 0; i < kBlock; ++i)
        m_rest[i] = mic[i] - m_echoBefore[i];
    m_speaksBefore = m_speech.speaks() && m_sincePerson > kPersonLingers;
    if (m_alignment.compare(m_farBefore, mic, m_speaksBefore))
        startFilter();
    const bool found = m_alignment.state() == Alignment::State::found;
    if (found)
        m_coherent = m_coherence.push(m_rest, m_echoBefore);
    double micA = 0;
    double restA = 0;
    for (std::size_t i = 0; i < kBlock; ++i) {
        const double a = m_micWeighting.push(mic[i]).a;
        const double b = found ? m_restWeighting.push(m_rest[i]).a : 0;
        micA += a * a;
        restA += b * b;
    }
    m_micWeighting.tidy();
    m_restWeighting.tidy();
    m_run = m_speech.goesOn() ? std::min(m_run + 1, kRunToArrive) : 0;
    if (!m_speech.sounds())
        return;
    if (found)
        noteWorth(micA / kBlock, restA / kBlock);
    if (found || m_run >= kRunToArrive)
        noteLeak(micA / kBlock);
    else
        m_inStretch = 0;
}

void Removal::noteWorth(double micA, double restA)
{
    m_micMean += kTakeSlow * (micA - m_micMean);
    m_restMean += kTakeSlow * (restA - m_restMean);
    if (m_learnt >= kLearntFrom && m_restMean < kWorthFrom * m_micMean)
        m_worth = true;
    if (m_restMean > kWorthNothing * m_micMean)
        m_worth = false;
}

void Removal::noteLeak(double micA)
{
    Stretch& now = m_stretches[m_stretch];
    if (m_inStretch == 0)
        now = {};
    now.mic += std::max(micA - kRoomShare * m_room, 0.0);
    now.far += m_farA;
    if (++m_inStretch < kStretchBlocks)
        return;
    m_inStretch = 0;
    m_stretchesKnown = std::min(m_stretchesKnown + 1, m_stretches.size() - 1);
    m_stretch = (m_stretch + 1) % m_stretches.size();
}

double Removal::leakAtMost() const
{
    double least = meanSquareOfDb(m_knownLeakDb.value_or(kUnknownLeakDb));
    for (std::size_t i = 1; i <= m_stretchesKnown; ++i) {
        const Stretch& past = m_stretches[(m_stretch + m_stretches.size() - i) % m_stretches.size()];
        const double ratio = past.far > 0 ? past.mic / past.far : least;
        least = i == 1 ? ratio : std::min(least, ratio);
    }
    return kStretchMargin * least;
}

void Removal::weigh(std::span<const float> far)
{
    double echo = 0;
    double played = 0;
    for (std::size_t i = 0; i < kBlock; ++i) {
        const double a = m_echoWeighting.push(m_echo[i]).a;
        const double b = m_farWeighting.push(far[i]).a;
        echo += a * a;
        played += b * b;
    }
    m_echoWeighting.tidy();
    m_farWeighting.tidy();
    m_echoA = echo / kBlock;
    m_farBeforeA = m_farA;
    m_farA = played / kBlock;
    if (m_worth && m_speech.sounds()) {
        m_echoSum = kForgetLeak * m_echoSum + m_echoA;
        m_farSum = kForgetLeak * m_farSum + m_farA;
    }
}

void Removal::subtract(std::span<float> mic)
{
    if (m_thinning == 3)
        m_echoThird.push(m_echo, m_wide);
    else
        std::copy(m_echo.begin(), m_echo.end(), m_wide.begin());
    const float wanted = m_worth ? 1.0F : 0.0F;
    const float step = (wanted - m_gain) / static_cast<float>(mic.size());
    if (m_gain == 0 && wanted == 0)
        return;
    for (std::size_t i = 0; i < mic.size(); ++i) {
        m_gain += step;
        mic[i] -= m_gain * m_wide[i];
    }
    m_gain = wanted;
}

void Removal::judged(const LeakJudge::Verdict& verdict, double room)
{
    m_room = room;
    m_sincePerson = verdict.person ? 0 : std::min(m_sincePerson + 1, 1000);
    if (m_alignment.state() != Alignment::State::found || !m_speaksBefore)
        return;
    m_sinceDoubt = std::min(m_sinceDoubt + 1, kDoubtEvery);
    m_changed = std::max(0, m_changed + (verdict.changed ? 2 : -1));
    if (m_changed > kChangedToDoubt && m_sinceDoubt >= kDoubtEvery) {
        m_canceller.doubt();
        m_sinceDoubt = 0;
        m_changed = 0;
    }
    if (m_worth && !verdict.surely && !verdict.changed)
        return;
    m_canceller.learn(m_rest);
    ++m_learnt;
}

} // namespace vh
