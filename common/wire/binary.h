#pragma once
// Binary messages. Each begins type, version, flags (one byte each); integers are big-endian. Unknown types are
// skipped.
//   1 reading  home -> relay       one reading, cumulative within its turn
//   2 sound    leader, or who is invited to speak -> all    one frame of their voice
//   3 part     relay -> client     one content-hashed part of the class
//   4 roster   relay -> leader, helper   changed standings, by seat
// Decoders give Error "malformed"; encoders cannot fail. Pure; any thread. Layouts byte by byte: docs/protocol.md.
#include "common/base/result.h"
#include "common/live/standing.h"
#include "common/measure/reading.h"
#include "common/wire/limits.h"

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace vh::wire
{

enum class BinaryType : std::uint8_t { reading = 1, sound = 2, part = 3, roster = 4 };
inline constexpr std::uint8_t kBinaryVersion = 1;

/// The type of a frame, or nothing when it is too short to have one.
std::optional<std::uint8_t> binaryTypeOf(std::span<const std::uint8_t> frame);

/// No voice is a hundred decibels from its usual level, and nothing longer than an hour is one turn.
inline constexpr float kMostOverUsualDb = 200;
inline constexpr std::uint32_t kMostTurnMs = 3'600'000;
/// Whether these numbers can be of one turn: levels and times as above, voicedMs <= heardMs <= elapsedMs.
[[nodiscard]] bool canBe(const Reading& reading);

/// 26 bytes; levels in tenths of a dB, held where they can be. Read again, only what can be is a reading.
std::string encodeReading(const Reading& reading);
Result<Reading> decodeReading(std::span<const std::uint8_t> frame);

/// Sound: stream id and the 48 kHz sample count of the first sample, which counts on through mute; then the payload,
/// at most kSoundBytes. Flag bit 0 is kept for a datagram transport.
struct SoundHead {
    std::uint32_t stream = 0;
    std::uint64_t firstSample = 0;
};
struct SoundView {
    SoundHead head;
    std::span<const std::uint8_t> payload; ///< points into the frame
};
std::string encodeSound(const SoundHead& head, std::span<const std::uint8_t> payload);
Result<SoundView> decodeSound(std::span<const std::uint8_t> frame);

struct PartView {
    std::array<std::uint8_t, 32> hash{};
    std::span<const std::uint8_t> bytes; ///< points into the frame
};
std::string encodePart(const std::array<std::uint8_t, 32>& hash, std::span<const std::uint8_t> bytes);
Result<PartView> decodePart(std::span<const std::uint8_t> frame);

/// One seat's standing. To helpers levels are never sent: overUsualDb is absent there.
struct RosterEntry {
    std::uint16_t seat = 0;
    Standing standing = Standing::cantTell;
    Blank blank = Blank::none;
    bool hasLevel = false;
    float overUsualDb = 0; ///< of the reading now, if hasLevel
    bool voicedNow = false;
    friend bool operator==(const RosterEntry&, const RosterEntry&) = default;
};
struct Roster {
    bool whole = false; ///< all seats, not only those that changed
    std::vector<RosterEntry> entries;
};
std::string encodeRoster(const Roster& roster);
Result<Roster> decodeRoster(std::span<const std::uint8_t> frame);

} // namespace vh::wire
