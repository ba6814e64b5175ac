#include "common/home/check_findings.h"

#include <algorithm>
#include <cmath>

namespace vh
{

namespace
{

/// A quiet room by home microphones' own noise; above it something is on. Common practice.
constexpr float kQuietRoomDbfsA = -55;
/// What comes back this far over the usual level cannot be taken away well enough.
constexpr float kLoudspeakerOverVoiceDb = 15;
constexpr std::uint32_t kSomeVoiceMs = 1000;
/// A known sound through an ordinary microphone, a small loudspeaker that bends a little included: the gain stays.
constexpr float kMoreGainDb = 1.7F;
constexpr float kLessGainDb = -0.9F;
constexpr float kDriftDb = 0.7F;
/// Of the even vowel, which is in the midst of what is played and known best.
constexpr float kSofterMoreDb = 0.9F;
constexpr float kSofterLessDb = -0.7F;
constexpr float kSameRoomDb = 0.7F;
constexpr float kOpensDb = 1.2F;

constexpr float kLikely = 0; ///< as likely as not
constexpr float kChanceDb = 2;

/// Two silences alike, and more of the room in the pauses between them: something opens for a voice, and closes.
bool opensForVoice(const CheckFacts& facts)
{
    const auto before = facts.pauses.quietDbfsA();
    const auto after = facts.playedPauses.quietDbfsA();
    if (!before || !after || facts.pauses.count() < PauseWatch::kLeast || std::abs(*before - *after) > kSameRoomDb)
        return false;
    const float opens = facts.pauses.lateDbfsA().median - std::max(*before, *after);
    return opens > kOpensDb && facts.pauses.lowAgrees(facts.pauses.lowLateOverQuietDb(), opens);
}

bool shutsOut(const CheckFacts& facts)
{
    const bool roomIsBlack = facts.silentRoom && facts.heardMs >= kSomeVoiceMs;
    if (roomIsBlack || opensForVoice(facts) || facts.roomGain.finding() == RoomGain::Finding::gates ||
        facts.pauses.finding() == PauseWatch::Finding::gated)
        return true;
    if (facts.played && facts.played->heard && facts.playedPauses.mostlyBlack())
        return true;
    return facts.played && facts.played->tells &&
           (facts.played->evenedDb < kLessGainDb || facts.played->softerDb < kSofterLessDb ||
            facts.played->driftDb < -kDriftDb);
}

/// By how much one gain can have moved both, dB: the less of the two, and less yet where they differ by more than
/// chance.
float together(float heardDb, float lowDb)
{
    const float apart = std::max(0.0F, std::abs(heardDb - lowDb) - kChanceDb);
    return std::clamp(std::min(heardDb, lowDb) - apart / 4, 0.0F, 5.0F);
}

/// What no single sign is enough for: the logarithm of the odds that a gain is ridden, of what the room alone says.
/// Only what the low band and the ear agree on counts for much. A straight sum, its weights from logistic regression
/// over 1,300 ordinary and 1,000 altered checks of the proving ground, none of which the bench measures on.
float oddsOfRiding(const CheckFacts& facts)
{
    const RoomGain::Under under = facts.roomGain.under();
    const auto since = facts.roomGain.since();
    const float calm = 1 + under.restlessDb / 4;
    float odds = -4.5F;
    if (under.spells >= 2)
        odds += 1.15F * std::clamp(under.mostDb, -3.0F, 10.0F) / calm;
    if (since) {
        odds += 0.45F * std::clamp(since->lowDb, -4.0F, 7.0F) / calm;
        odds += 1.6F * together(since->audibleDb, since->lowDb);
    }
    if (facts.pauses.count() > 0)
        odds += 2.2F * together(facts.pauses.riseDb().median, facts.pauses.lowRiseDb()) / calm;
    return odds;
}

bool evensOut(const CheckFacts& facts)
{
    if (facts.pauses.finding() == PauseWatch::Finding::ridesGain ||
        facts.roomGain.finding() == RoomGain::Finding::rides || oddsOfRiding(facts) > kLikely)
        return true;
    if (facts.played && facts.played->heard && facts.playedPauses.finding() == PauseWatch::Finding::ridesGain)
        return true;
    return facts.played && facts.played->tells &&
           (facts.played->evenedDb > kMoreGainDb || facts.played->softerDb > kSofterMoreDb ||
            facts.played->driftDb > kDriftDb);
}

/// Nobody was heard, though lines were to be read.
CheckFinding withoutVoice(const CheckFacts& facts)
{
    const bool nothingComesBack = facts.played && !facts.played->heard;
    const bool onlyTheComputer = facts.played && facts.played->heard && facts.silentRoom;
    return nothingComesBack || onlyTheComputer ? CheckFinding::wrongDevice : CheckFinding::noVoice;
}

} // namespace

CheckFinding findingOf(const CheckFacts& facts)
{
    if (facts.dead)
        return CheckFinding::noSound;
    // A dog elsewhere may be taken for some voice, but not for enough of it.
    const bool nothingComesBack = facts.played && !facts.played->heard;
    if (facts.askedForVoice && (facts.heardMs < kSomeVoiceMs || (!facts.usualDbfsA && nothingComesBack)))
        return withoutVoice(facts);
    if (facts.clips)
        return CheckFinding::clipping;
    if (shutsOut(facts))
        return CheckFinding::gated;
    if (evensOut(facts))
        return CheckFinding::ridesGain;
    if (facts.askedForVoice && !facts.roomDbfsA && !facts.silentRoom)
        return CheckFinding::roomTooNoisy; // something sounds all the time, as a voice does
    if (facts.usualDbfsA && facts.roomDbfsA && *facts.usualDbfsA - *facts.roomDbfsA < kLeastOverRoomDb)
        return *facts.roomDbfsA < kQuietRoomDbfsA ? CheckFinding::tooFar : CheckFinding::roomTooNoisy;
    if (facts.askedForVoice && !facts.usualDbfsA)
        return CheckFinding::noVoice;
    if (facts.otherVolume)
        return CheckFinding::otherVolume;
    if (!facts.played || !facts.played->heard)
        return CheckFinding::fine;
    if (facts.played->delayMs >= kLateFromMs + facts.bufferMs)
        return CheckFinding::lateLoudspeaker;
    if (facts.usualDbfsA && facts.played->loudDbfsA > *facts.usualDbfsA + kLoudspeakerOverVoiceDb)
        return CheckFinding::loudspeakerTooLoud;
    return CheckFinding::fine;
}

bool levelsHold(CheckFinding finding)
{
    switch (finding) {
    case CheckFinding::fine:
    case CheckFinding::otherVolume:
    case CheckFinding::lateLoudspeaker:
    case CheckFinding::loudspeakerTooLoud:
        return true;
    default:
        return false;
    }
}

Blank blankOf(CheckFinding finding)
{
    switch (finding) {
    case CheckFinding::fine:
    case CheckFinding::lateLoudspeaker:
        return Blank::none;
    case CheckFinding::noSound:
    case CheckFinding::wrongDevice:
    case CheckFinding::noVoice:
        return Blank::noSignal;
    case CheckFinding::clipping:
        return Blank::clipping;
    case CheckFinding::gated:
    case CheckFinding::ridesGain:
        return Blank::alteredByComputer;
    case CheckFinding::tooFar:
    case CheckFinding::roomTooNoisy:
        return Blank::roomTooNoisy;
    case CheckFinding::otherVolume:
        return Blank::setupChanged;
    case CheckFinding::loudspeakerTooLoud:
        return Blank::loudspeakerTooLoud;
    }
    return Blank::none;
}

} // namespace vh
