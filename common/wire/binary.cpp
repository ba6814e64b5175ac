#include "common/wire/binary.h"

#include "common/wire/byte_order.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace vh::wire
{

namespace
{

constexpr std::uint8_t kRosterWhole = 1;
constexpr std::uint8_t kEntryHasLevel = 1;
constexpr std::uint8_t kEntryVoiced = 2;
constexpr auto kLastStanding = static_cast<std::uint8_t>(Standing::away);
constexpr auto kLastBlank = static_cast<std::uint8_t>(Blank::setupChanged);

std::string begin(BinaryType type, std::uint8_t flags = 0)
{
    std::string frame;
    frame += static_cast<char>(type);
    frame += static_cast<char>(kBinaryVersion);
    frame += static_cast<char>(flags);
    return frame;
}

std::uint16_t tenths(float decibels)
{
    using Limits = std::numeric_limits<std::int16_t>;
    if (!std::isfinite(decibels))
        return static_cast<std::uint16_t>(Limits::min());
    const double clamped = std::clamp(std::round(decibels * 10.0), double{Limits::min()}, double{Limits::max()});
    return static_cast<std::uint16_t>(static_cast<std::int16_t>(clamped));
}

/// A reading's level, held where one can be; what is no number is as low as can be.
std::uint16_t heldTenths(float decibels)
{
    return tenths(std::isfinite(decibels) ? std::clamp(decibels, -kMostOverUsualDb, kMostOverUsualDb)
                                          : -kMostOverUsualDb);
}

float fromTenths(std::uint16_t value)
{
    return static_cast<float>(static_cast<std::int16_t>(value)) / 10.0F;
}

/// Takes the head off; the flags, or what is wrong.
Result<std::uint8_t> takeHead(ByteReader& reader, BinaryType type, std::string_view name)
{
    const auto typeByte = reader.take<std::uint8_t>();
    const auto version = reader.take<std::uint8_t>();
    const auto flags = reader.take<std::uint8_t>();
    if (!reader.ok() || typeByte != static_cast<std::uint8_t>(type))
        return fail("malformed", "not a " + std::string(name) + " frame");
    if (version != kBinaryVersion)
        return fail("malformed", "a " + std::string(name) + " frame of an unknown version");
    return flags;
}

tl::unexpected<Error> wrongLength(std::string_view name)
{
    return fail("malformed", "a " + std::string(name) + " frame of the wrong length");
}

} // namespace

bool canBe(const Reading& reading)
{
    const auto isLevel = [](float decibels) { return std::abs(decibels) <= kMostOverUsualDb; }; // false for NaN
    return isLevel(reading.leqOverUsualDb) && isLevel(reading.nowOverUsualDb) && reading.trustPercent <= 100 &&
           reading.voicedMs <= reading.heardMs && reading.heardMs <= reading.elapsedMs &&
           reading.elapsedMs <= kMostTurnMs;
}

std::optional<std::uint8_t> binaryTypeOf(std::span<const std::uint8_t> frame)
{
    return frame.size() < 3 ? std::nullopt : std::optional(frame[0]);
}

std::string encodeReading(const Reading& reading)
{
    std::string frame = begin(BinaryType::reading);
    putBigEndian(frame, reading.turnSerial);
    putBigEndian(frame, reading.voicedMs);
    putBigEndian(frame, reading.heardMs);
    putBigEndian(frame, reading.elapsedMs);
    putBigEndian(frame, heldTenths(reading.leqOverUsualDb));
    putBigEndian(frame, heldTenths(reading.nowOverUsualDb));
    putBigEndian(frame, reading.trustPercent);
    putBigEndian(frame, static_cast<std::uint8_t>(reading.reason));
    putBigEndian(frame, reading.judgeVersion);
    return frame;
}

Result<Reading> decodeReading(std::span<const std::uint8_t> frame)
{
    ByteReader bytes(frame);
    if (const auto head = takeHead(bytes, BinaryType::reading, "reading"); !head)
        return tl::unexpected<Error>(head.error());
    Reading reading;
    reading.turnSerial = bytes.take<std::uint32_t>();
    reading.voicedMs = bytes.take<std::uint32_t>();
    reading.heardMs = bytes.take<std::uint32_t>();
    reading.elapsedMs = bytes.take<std::uint32_t>();
    reading.leqOverUsualDb = fromTenths(bytes.take<std::uint16_t>());
    reading.nowOverUsualDb = fromTenths(bytes.take<std::uint16_t>());
    reading.trustPercent = bytes.take<std::uint8_t>();
    const auto blank = bytes.take<std::uint8_t>();
    reading.judgeVersion = bytes.take<std::uint8_t>();
    if (!bytes.atEnd())
        return wrongLength("reading");
    if (blank > kLastBlank || !canBe(reading))
        return fail("malformed", "a reading that cannot be");
    reading.reason = static_cast<Blank>(blank);
    return reading;
}

std::string encodeSound(const SoundHead& head, std::span<const std::uint8_t> payload)
{
    std::string frame = begin(BinaryType::sound);
    putBigEndian(frame, head.stream);
    putBigEndian(frame, head.firstSample);
    frame.append(reinterpret_cast<const char*>(payload.data()), payload.size());
    return frame;
}

Result<SoundView> decodeSound(std::span<const std::uint8_t> frame)
{
    ByteReader bytes(frame);
    if (const auto head = takeHead(bytes, BinaryType::sound, "sound"); !head)
        return tl::unexpected<Error>(head.error());
    SoundView sound;
    sound.head.stream = bytes.take<std::uint32_t>();
    sound.head.firstSample = bytes.take<std::uint64_t>();
    sound.payload = bytes.rest();
    if (!bytes.ok() || sound.payload.empty() || sound.payload.size() > kSoundBytes)
        return wrongLength("sound");
    return sound;
}

std::string encodePart(const std::array<std::uint8_t, 32>& hash, std::span<const std::uint8_t> part)
{
    std::string frame = begin(BinaryType::part);
    frame.append(reinterpret_cast<const char*>(hash.data()), hash.size());
    frame.append(reinterpret_cast<const char*>(part.data()), part.size());
    return frame;
}

Result<PartView> decodePart(std::span<const std::uint8_t> frame)
{
    ByteReader bytes(frame);
    if (const auto head = takeHead(bytes, BinaryType::part, "part"); !head)
        return tl::unexpected<Error>(head.error());
    PartView part;
    if (bytes.rest().size() < part.hash.size() ||
        bytes.rest().size() > part.hash.size() + std::max(kPartBytes, kPictureShownBytes))
        return wrongLength("part");
    std::copy_n(bytes.rest().begin(), part.hash.size(), part.hash.begin());
    part.bytes = bytes.rest().subspan(part.hash.size());
    return part;
}

std::string encodeRoster(const Roster& roster)
{
    std::string frame = begin(BinaryType::roster, roster.whole ? kRosterWhole : 0);
    for (const RosterEntry& entry : roster.entries) {
        putBigEndian(frame, entry.seat);
        putBigEndian(frame, static_cast<std::uint8_t>(entry.standing));
        putBigEndian(frame, static_cast<std::uint8_t>(entry.blank));
        putBigEndian(frame, static_cast<std::uint8_t>((entry.hasLevel ? kEntryHasLevel : 0) |
                                                      (entry.voicedNow ? kEntryVoiced : 0)));
        putBigEndian(frame, entry.hasLevel ? tenths(entry.overUsualDb) : std::uint16_t{0});
    }
    return frame;
}

Result<Roster> decodeRoster(std::span<const std::uint8_t> frame)
{
    ByteReader bytes(frame);
    const auto head = takeHead(bytes, BinaryType::roster, "roster");
    if (!head)
        return tl::unexpected<Error>(head.error());
    Roster roster;
    roster.whole = (*head & kRosterWhole) != 0;
    if (bytes.rest().size() % 7 != 0 || bytes.rest().size() / 7 > kPeoplePerHall)
        return wrongLength("roster");
    roster.entries.reserve(bytes.rest().size() / 7);
    while (!bytes.rest().empty()) {
        RosterEntry& entry = roster.entries.emplace_back();
        entry.seat = bytes.take<std::uint16_t>();
        const auto standing = bytes.take<std::uint8_t>();
        const auto blank = bytes.take<std::uint8_t>();
        const auto flags = bytes.take<std::uint8_t>();
        const auto level = bytes.take<std::uint16_t>();
        if (standing > kLastStanding || blank > kLastBlank)
            return fail("malformed", "a roster with a standing that is not known");
        entry.standing = static_cast<Standing>(standing);
        entry.blank = static_cast<Blank>(blank);
        entry.hasLevel = (flags & kEntryHasLevel) != 0;
        entry.voicedNow = (flags & kEntryVoiced) != 0;
        entry.overUsualDb = entry.hasLevel ? fromTenths(level) : 0.0F;
    }
    return roster;
}

} // namespace vh::wire
