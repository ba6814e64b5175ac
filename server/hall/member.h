#pragma once
// One person of a group as the hall holds them in memory. Loaded from the store at the hall's start; what must last is
// changed here only after it is on disk (withdrawals at once). Thread: the hall's loop.
#include "common/live/agreements.h"
#include "common/live/judge.h"
#include "common/live/share.h"
#include "common/live/worth_a_word.h"
#include "common/wire/to_relay.h"
#include "server/store/rows.h"

#include <map>
#include <memory>
#include <string>
#include <vector>

namespace vh::hall
{

class Session;

struct Member {
    // What every reading and every roster looks at lies together: with thousands of people, nothing is in the cache.
    Session* session = nullptr; ///< the newest line, or none
    std::uint16_t seat = 0;
    RoleSet roles = 0;
    Agreements agreements;
    bool came = false; ///< stands in the attendance of this class
    bool resting = false;
    bool saidHello = false;
    JudgeState judge;
    std::optional<Reading> reading; ///< of this class: the last one taken, of the turn it names

    PersonId id;
    std::string name;
    std::string skeleton; ///< of the name: what it looks like (shown_text.h)
    std::vector<store::DeviceRow> devices;
    std::vector<AgreementKind> answered; ///< kinds that the person has ever answered
    float bandOffsetDb = 0;
    std::string where;
    std::string ring;
    std::optional<Instant> contactAt;   ///< when the person last said so, or that it is still so
    VoiceStory story;                   ///< of this class
    std::optional<store::RestRow> rest; ///< may be over: Hall::restOf()

    [[nodiscard]] bool has(Role role) const { return (roles & roleBit(role)) != 0; }
    /// What a line is when nobody says which of a person's roles is meant.
    [[nodiscard]] Role foremost() const;
    /// Bound and not revoked.
    [[nodiscard]] bool owns(const wire::Key& key) const;
    [[nodiscard]] PersonNow now() const { return {session != nullptr, resting, judge.standing}; }
};

/// The store's numbers for roles and agreements, and ours.
Role fromStore(store::Role role);
store::Role toStore(Role role);
store::AgreementKind toStore(AgreementKind kind);
AgreementKind fromStore(store::AgreementKind kind);

/// What the store has just written about somebody who is here already: roles and devices are added, a device stays
/// revoked; all else is newer here.
void addTo(Member& member, const store::PersonState& state);
Member memberOf(const store::PersonState& state);

} // namespace vh::hall
