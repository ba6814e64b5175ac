#pragma once
// A small class and the relay's messages about it, for the tests of the leader's model.
#include "common/wire/to_client.h"

#include <memory>

namespace vh::testing
{

inline const Instant kStart{Millis{1'700'000'000'000}};

inline Round roundOf(bool moreVoice, std::vector<Turn> turns)
{
    return {moreVoice, std::move(turns)};
}

/// Two phrases of two rounds each (10 s and 10 s), a pause of 20 s, a closing of 10 s: 70 s.
inline std::shared_ptr<const ClassScript> smallScript()
{
    using namespace std::chrono_literals;
    ClassScript script{"Bread", "Baking", "en", 1, {}};
    const std::vector<Round> twice{
        roundOf(false, {{TurnKind::listen, 4s}, {TurnKind::yours, 6s}}),
        roundOf(true, {{TurnKind::ready, 2s}, {TurnKind::yours, 8s}}),
    };
    script.sections.push_back({SectionKind::phrases,
                               "Warm loaves",
                               {{"The loaf is warm.", {}, std::nullopt, "Smile.", twice, {}},
                                {"Who taught you?", {}, std::nullopt, "", twice, {}}}});
    script.sections.push_back({SectionKind::pause,
                               "Water pause",
                               {{"", {}, std::nullopt, "", {roundOf(false, {{TurnKind::listen, 20s}})}, {}}}});
    script.sections.push_back(
        {SectionKind::closing,
         "Home",
         {{"Until Tuesday.", {}, std::nullopt, "", {roundOf(false, {{TurnKind::listen, 10s}})}, {}}}});
    return std::make_shared<const ClassScript>(script);
}

inline const ClassId kClass = *ClassId::fromHex("00112233445566778899aabbccddeeff");

inline wire::PlaceNow placeAt(std::uint32_t serial, Phase phase, Place place, Instant startedAt, Millis length)
{
    wire::PlaceNow now;
    now.classId = kClass;
    now.serial = serial;
    now.turnSerial = serial;
    now.phase = phase;
    now.place = place;
    if (phase != Phase::notStarted)
        now.startedAt = kStart; // of the class
    now.turnStartedAt = startedAt;
    now.turnLength = length;
    now.leaderName = "Anna";
    now.lease = 1;
    return now;
}

inline wire::Welcome welcomeOf(Role role)
{
    wire::Welcome welcome;
    welcome.role = role;
    welcome.name = role == Role::leader ? "Anna" : "Berta";
    welcome.groupName = "Thursday voices";
    welcome.code = role == Role::leader ? "K7M42P" : "";
    return welcome;
}

inline wire::LeaseNow leaseOf(bool mine, bool silent = false)
{
    wire::LeaseNow lease;
    lease.lease = 1;
    lease.holderName = "Anna";
    lease.mine = mine;
    lease.silent = silent;
    return lease;
}

} // namespace vh::testing
