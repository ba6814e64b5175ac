#include "demo/chorus/characters.h"

#include "demo/chorus/seeded.h"

#include <algorithm>
#include <cmath>

namespace vh::chorus
{

namespace
{

/// How a person speaks: dB(A) over usual in a first round at the beginning of the class; what "more voice" adds; what
/// the whole class adds or takes, down to `lowestDb`.
struct Manner {
    double levelDb = 5.5;
    double moreVoiceDb = 1;
    double classDb = 0;
    double lowestDb = -20;
    double trusted = 1; ///< share of the voice that can be trusted
};

Manner mannerOf(Character character)
{
    switch (character) {
    case Character::fading:
        return {6, 0.5, -11, -3, 1};
    case Character::quiet:
        return {-1, 0.6, -0.5, -3, 1};
    case Character::tooLoud:
        return {13.5, 0.5, 0, 0, 1};
    case Character::noisyRoom:
        return {4, 1, 0, 0, 0.2};
    case Character::callsForHelp:
        return {4.5, 0.8, -0.5, 3.6, 1};
    default:
        return {};
    }
}

/// What each number below is drawn for.
enum Draw : std::uint64_t {
    kTurnLevel = 1,
    kStart,
    kSyllable,
    kHeadset,
    kLevelVisible,
    kKept,
    kNamed,
    kAddressed,
    kSore
};

float tenths(double db)
{
    return static_cast<float>(std::round(db * 10) / 10);
}

std::uint32_t wholeFrames(double milliseconds)
{
    constexpr int frame = VoiceFrame::kMilliseconds;
    return static_cast<std::uint32_t>(std::max(0.0, milliseconds)) / frame * frame;
}

/// A room in which nobody speaks, as the Fast level shows it.
constexpr double kRoomDb = -27;
/// Of the time from the first word on, this much is voice; the rest is breath.
constexpr double kSpeakingShare = 0.85;

bool saysNothing(Character character, SectionKind section)
{
    return character == Character::silentInOneSection && section == SectionKind::categoryNaming;
}

bool wearsHeadset(std::uint64_t seed)
{
    return unit({seed, kHeadset}) < 0.3;
}

} // namespace

std::string_view nameOf(Character character)
{
    static constexpr std::array<std::string_view, kCharacters.size()> kNames{
        "steady",    "fading",    "quiet",   "tooLoud",      "silentInOneSection", "noisyRoom",
        "dropsLine", "lateComer", "resting", "keepsPrivate", "writesALot",         "callsForHelp"};
    return kNames[static_cast<std::size_t>(character)];
}

Character characterOf(std::uint32_t index)
{
    using enum Character;
    static constexpr std::array<Character, 27> kSeats{
        steady, quiet,        steady,  fading, writesALot, steady,       keepsPrivate, noisyRoom,
        steady, resting,      tooLoud, quiet,  dropsLine,  steady,       lateComer,    silentInOneSection,
        steady, callsForHelp, fading,  steady, quiet,      keepsPrivate, steady,       noisyRoom,
        steady, fading,       quiet};
    return kSeats[index % kSeats.size()];
}

bool isVoiced(SectionKind section, TurnKind turn)
{
    return section != SectionKind::pause && (turn == TurnKind::withMe || turn == TurnKind::yours);
}

Reading cannedReading(Character character, const Moment& moment, std::uint64_t seed)
{
    const Manner manner = mannerOf(character);
    const double elapsed = static_cast<double>(moment.elapsed.count());
    const double starts = 200 + 250 * unit({seed, moment.turnSerial, kStart});

    Reading reading;
    reading.turnSerial = moment.turnSerial;
    reading.elapsedMs = wholeFrames(elapsed);
    reading.nowOverUsualDb = tenths(kRoomDb + unit({seed, moment.turnSerial, kSyllable, reading.elapsedMs}));
    if (manner.trusted < 0.5) {
        reading.trustPercent = static_cast<std::uint8_t>(100 * manner.trusted);
        reading.reason = Blank::roomTooNoisy;
    }
    if (saysNothing(character, moment.section) || elapsed <= starts)
        return reading;

    reading.heardMs = wholeFrames((elapsed - starts) * kSpeakingShare);
    reading.voicedMs = wholeFrames(reading.heardMs * manner.trusted);
    const double level =
        std::max(manner.lowestDb, manner.levelDb + manner.classDb * std::clamp(moment.classShare, 0.0, 1.0)) +
        (moment.moreVoice ? manner.moreVoiceDb : 0) + 0.6 * (unit({seed, moment.turnSerial, kTurnLevel}) - 0.5);
    // People begin a little louder than they go on.
    const double length = static_cast<double>(std::max(moment.length, Millis{1}).count());
    const double soFar = level + 0.4 * (1 - std::min(1.0, elapsed / length));
    reading.leqOverUsualDb = reading.voicedMs > 0 ? tenths(soFar) : 0;
    // Syllables rise and fall around it; the last one has ended when the turn does.
    reading.nowOverUsualDb = tenths(soFar + 5 * unit({seed, moment.turnSerial, kSyllable, reading.elapsedMs}) - 3);
    return reading;
}

Surroundings cannedSurroundings(Character character, const Moment& moment, std::uint64_t seed)
{
    Surroundings around;
    around.voiceHeard = true; // at the mic check
    around.roomNormal = character != Character::noisyRoom;
    around.masked = false;
    if (moment.turn == TurnKind::withMe && !wearsHeadset(seed)) {
        around.leakDb = -6; // the leader's voice comes out of the loudspeaker meanwhile
        around.masked = true;
    }
    return around;
}

Agreements agreementsOf(Character character, std::uint64_t seed)
{
    Agreements agreements;
    agreements.levelVisible = unit({seed, kLevelVisible}) < 0.3 ? LevelVisible::leaderAndHelpers : LevelVisible::leader;
    if (character == Character::keepsPrivate)
        agreements.levelVisible = LevelVisible::nobody;
    agreements.resultsKept = unit({seed, kKept}) < 0.5;
    agreements.otherLeaders = agreements.resultsKept && unit({seed, kKept, 1}) < 0.5;
    agreements.practiceToLeader = unit({seed, kKept, 2}) < 0.4;
    agreements.attendanceNamed = unit({seed, kNamed}) < 0.8;
    agreements.nameSeen = unit({seed, kNamed, 1}) < 0.7;
    agreements.pictures = unit({seed, kNamed, 2}) < 0.3;
    agreements.mayRing = unit({seed, kNamed, 3}) < 0.6;
    agreements.addressed = static_cast<Addressed>(mixed({seed, kAddressed}) % 3);
    return agreements;
}

wire::VoiceToday voiceToday(Character character, std::uint64_t seed)
{
    if (character == Character::resting)
        return wire::VoiceToday::listening;
    return unit({seed, kSore}) < 0.1 ? wire::VoiceToday::sore : wire::VoiceToday::fine;
}

std::optional<Standing> meantStanding(Character character)
{
    switch (character) {
    case Character::fading:
    case Character::quiet:
        return Standing::below;
    case Character::tooLoud:
        return Standing::straining;
    case Character::noisyRoom:
        return Standing::cantTell;
    case Character::resting:
        return Standing::resting;
    case Character::keepsPrivate:
        return Standing::private_;
    case Character::silentInOneSection:
        return std::nullopt; // noVoice in that section, in band in others
    default:
        return Standing::inBand;
    }
}

} // namespace vh::chorus
