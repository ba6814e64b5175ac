#include "common/signal/voice_activity.h"

#include "common/signal/level.h"

#include <algorithm>
#include <cmath>

namespace vh
{

namespace
{
// The figures below were found on the proving ground (tests/ground, seeds under kFirstUnseenSeed); no published source
// unless one is named.
constexpr double kLowestRoom = 1e-9; // -90 dB: below this lies the converter's own noise
constexpr double kAboveRoomDb = 4;
constexpr double kLeastShareA = 0.0631; // -12 dB: A-weighted this far under C-weighted is rumble or hum
constexpr double kToneShare = 0.6;
constexpr double kWeakDb = 30; // under the louder parts of the voice lately: its weak consonants
constexpr double kMurmurDb = 6;
constexpr double kTakeAdded = 0.3; // of each frame: three periods of hum
constexpr int kCarriedFrames = 15;
constexpr int kUndecidedFrames = 50;
constexpr int kLong = 1000; // frames: long ago

/// 0 at `from` and below, 1 at `to` and above.
double ramp(double value, double from, double to)
{
    return std::clamp((value - from) / (to - from), 0.0, 1.0);
}
} // namespace

bool VoiceActivity::isBark(const Frame& frame, bool periodic)
{
    constexpr double kHighSeconds = 1 / 330.0;
    constexpr double kLittleLow = 0.08;
    constexpr int kLongEnoughFrames = 50;
    const bool high = periodic && frame.periodicity.periodSeconds < kHighSeconds && frame.shape.lowShare < kLittleLow;
    if (high)
        m_highestSteady = std::max(m_highestSteady, frame.periodicity.steady);
    return high && m_sinceJump < kLongEnoughFrames;
}

void VoiceActivity::noteBlow(double levelDb, double roomDb)
{
    constexpr double kBlowDb = 15;
    constexpr double kJumpDb = 8;
    constexpr int kRisesFrames = 5;
    constexpr int kSwellsFrames = 11; // a cough is loudest in its first 30 to 60 ms, an s or sh at a word's head is not
    constexpr double kSwellDb = 3;
    constexpr int kWithinVoiceFrames = 60;
    std::shift_left(std::begin(m_levels), std::end(m_levels), 1);
    m_levels[3] = levelDb;
    m_sinceBlow = std::min(m_sinceBlow + 1, kLong);
    const double jumpDb = levelDb > m_levels[2] ? levelDb - m_levels[0] : 0;
    m_sinceJump = jumpDb >= kJumpDb ? 0 : std::min(m_sinceJump + 1, kLong);
    if (jumpDb >= kBlowDb && levelDb >= roomDb + kBlowDb) {
        m_sinceBlow = 0;
        m_blowDb = m_blowEarlyDb = levelDb;
        m_blowGrew = m_blowSwelled = false;
        m_soundedFrames = 0;
        m_soundedInTime = m_sinceCore < kWithinVoiceFrames;
        m_highestSteady = 0;
        return;
    }
    if (m_sinceBlow <= kRisesFrames)
        m_blowEarlyDb = std::max(m_blowEarlyDb, levelDb);
    else if (m_sinceBlow <= kSwellsFrames && levelDb > m_blowEarlyDb + kSwellDb)
        m_blowSwelled = true;
    if (levelDb > m_blowDb) {
        m_blowDb = levelDb;
        m_blowGrew = m_blowGrew || m_sinceBlow > kRisesFrames;
    }
}

bool VoiceActivity::isStruck(const Frame& frame, double levelDb)
{
    constexpr int kRingsFrames = 50;
    constexpr int kInTimeFrames = 15;
    constexpr int kCoughFrames = 45;
    constexpr int kHeldFrames = 18; // longer than the voiced end of a cough
    constexpr double kSounds = 0.4;
    m_soundedFrames = frame.periodicity.steady >= kSounds ? m_soundedFrames + 1 : 0;
    if ((m_sinceBlow <= kInTimeFrames && m_soundedFrames > 0) || m_soundedFrames >= kHeldFrames)
        m_soundedInTime = true;
    const double latelyDb = std::max(m_levels[2], levelDb); // a low voice has one pulse in a frame, or two
    const bool ringing =
        !m_blowGrew && m_sinceBlow < kRingsFrames && latelyDb < m_blowDb - std::max(5.0, 0.6 * m_sinceBlow);
    const bool cough = !m_soundedInTime && !m_blowSwelled && m_sinceBlow < kCoughFrames;
    return ringing || cough;
}

double VoiceActivity::voicedEvidence(const Frame& frame, bool barred)
{
    const double periodic = ramp(frame.periodicity.steady, 0.24, 0.42);
    m_machine = m_steadiness.push(frame.meanSquareA, frame.periodicity.periodSeconds, frame.periodicity.steady >= 0.5);
    m_bark = isBark(frame, periodic >= 0.5);
    return barred || m_machine || m_bark ? 0 : periodic;
}

double VoiceActivity::whisperEvidence(const Frame& frame, bool barred)
{
    constexpr double kTakeBroad = 0.03;
    constexpr double kStrongSteady = 0.6; // a whisper's first resonance looks periodic too, but less
    const bool bark = m_bark && m_highestSteady >= kStrongSteady;
    const bool broad = !barred && !m_machine && !bark && frame.shape.excessDb >= 2 && frame.shape.bandsUp >= 3;
    m_broad += kTakeBroad * ((broad ? 1 : 0) - m_broad);
    // Whispered vowels have a ripple of 2 to 4 dB, breath and fans under 1.7; colour changes in a whisper by 0.5 to 3
    // dB.
    const double mouth = (frame.shape.changeDb - 1) / 1.2 + (frame.shape.rippleDb - 1.6);
    return broad ? std::min(ramp(m_broad, 0.25, 0.5), ramp(mouth, 0, 0.6)) : 0;
}

/// The hangover is about that of P.56, a quarter of a second. It is shorter where the silence behind the voice is
/// plain, and after little more than a tenth of a second of it: that may have been a cough or a click.
double VoiceActivity::release(double levelDb) const
{
    constexpr int kFewFrames = 12;
    constexpr double kPlainDb = 25;
    if (m_evidentFrames < kFewFrames)
        return 0.1;
    return !m_standsOut && levelDb < m_voiceDb - kPlainDb ? 0.15 : 0.028;
}

void VoiceActivity::hold(const Frame& frame, const Moment& now)
{
    m_standsOut = now.levelDb >= now.roomDb + kAboveRoomDb || (frame.shape.bandsUp >= 4 && frame.shape.excessDb >= 2.5);
    m_voiceDb = std::max(m_voiceDb - 0.1, now.core >= 0.5 && m_standsOut ? now.levelDb : -200.0);
    double evidence = m_standsOut && now.levelDb >= m_voiceDb - kWeakDb - 5 ? now.core : 0;
    m_sinceCore = evidence >= 0.5 ? 0 : std::min(m_sinceCore + 1, kLong);
    // Carried along: consonants, and the murmur behind closed lips, which alone and loud would be rumble.
    const bool murmur = now.barred && !now.noVoice && now.levelDb < m_voiceDb - kMurmurDb;
    const bool carried = m_sinceCore > 0 && m_sinceCore < kCarriedFrames && now.levelDb >= m_voiceDb - kWeakDb;
    if (carried && (!now.barred || murmur) && !m_bark && frame.shape.excessDb >= 2.5)
        evidence = std::max(evidence, 0.8);
    if (evidence >= 0.5)
        m_evidentFrames = std::min(m_evidentFrames + 1, kLong);
    else if (m_confidence < kVoicedFrom)
        m_evidentFrames = 0;
    const double take = evidence > m_confidence ? 0.6 : release(now.levelDb);
    m_confidence += take * (evidence - m_confidence);
}

double VoiceActivity::push(const Frame& frame)
{
    const double roomA = std::max(m_floorA.meanSquare(), kLowestRoom);
    const double roomC = std::max(m_floorC.meanSquare(), kLowestRoom);
    const double addedA = frame.meanSquareA - roomA;
    const double addedC = frame.meanSquareC - roomC;
    const double levelDb = dbOfMeanSquare(frame.meanSquareA);
    const double roomDb = dbOfMeanSquare(roomA);

    noteBlow(levelDb, roomDb);
    const bool struck = isStruck(frame, levelDb);
    const bool noVoice = addedA <= 0 || frame.shape.toneShare > kToneShare || struck;
    m_addedA += kTakeAdded * (addedA - m_addedA);
    m_addedC += kTakeAdded * (addedC - m_addedC);
    const bool barred = noVoice || m_addedA < kLeastShareA * m_addedC;
    const double voiced = voicedEvidence(frame, barred); // first: it knows barks
    const double core = std::max(voiced, whisperEvidence(frame, barred));
    // Right after a blow nothing is decided yet: what is periodic then is not learnt as the room.
    m_voiceLike = core >= 0.4 || (m_sinceBlow < kUndecidedFrames && frame.periodicity.steady >= 0.4);
    if (frame.learns) {
        m_floorA.push(frame.meanSquareA, m_voiceLike);
        m_floorC.push(frame.meanSquareC, m_voiceLike);
    }
    hold(frame, {levelDb, roomDb, core, noVoice, barred});
    m_mayBegin = m_standsOut && !struck;
    return m_confidence;
}

} // namespace vh
