#include "demo/chorus/canned.h"

#include "demo/chorus/manner.h"
#include "demo/chorus/seeded.h"

#include <algorithm>
#include <cmath>

namespace vh::chorus
{

namespace
{

/// What each number below is drawn for.
enum Draw : std::uint64_t { kTurnLevel = 1, kStart, kSyllable, kHeadset };

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
/// Share of the voice that can be trusted in a noisy room.
constexpr double kTrustedInNoise = 0.2;

bool wearsHeadset(std::uint64_t seed)
{
    return unit({seed, kHeadset}) < 0.3;
}

} // namespace

Reading cannedReading(Character character, const Moment& moment, std::uint64_t seed)
{
    const double trusted = character == Character::noisyRoom ? kTrustedInNoise : 1;
    const double elapsed = static_cast<double>(moment.elapsed.count());
    const double starts = 200 + 250 * unit({seed, moment.turnSerial, kStart});

    Reading reading;
    reading.turnSerial = moment.turnSerial;
    reading.elapsedMs = wholeFrames(elapsed);
    reading.nowOverUsualDb = tenths(kRoomDb + unit({seed, moment.turnSerial, kSyllable, reading.elapsedMs}));
    if (trusted < 0.5) {
        reading.trustPercent = static_cast<std::uint8_t>(100 * trusted);
        reading.reason = Blank::roomTooNoisy;
    }
    if (saysNothing(character, moment.section) || elapsed <= starts)
        return reading;

    reading.heardMs = wholeFrames((elapsed - starts) * kSpeakingShare);
    reading.voicedMs = wholeFrames(reading.heardMs * trusted);
    const double level =
        meantOverUsualDb(character, moment) + 0.6 * (unit({seed, moment.turnSerial, kTurnLevel}) - 0.5);
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

} // namespace vh::chorus
