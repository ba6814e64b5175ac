#pragma once
// What may be shown to whom, from what the person agreed to. Default deny: a viewer or a kind that is not named here
// sees nothing. Used by the home before it sends, and by the hall before it passes on. Pure.
#include "common/live/agreements.h"
#include "common/live/standing.h"

#include <optional>

namespace vh
{

enum class Viewer : std::uint8_t { self, leader, standIn, helper, participant };

/// What is so about one person right now, before anybody looks.
struct PersonNow {
    bool lineUp = false;
    bool resting = false;               ///< "just listening" today
    Standing judged = Standing::notYet; ///< JudgeState::standing
};

/// The standing this viewer sees; nothing where the viewer sees no standings of this person at all.
/// The leader sees line lost and resting always (they are not levels), else the level or `private_`. A helper sees the
/// same, but only of people who agreed to helpers. Stand-ins and other participants never see any.
[[nodiscard]] std::optional<Standing> standingFor(Viewer viewer, const Agreements& agreements, const PersonNow& person);

/// Readings during a turn leave the home, and are taken by the hall, only then.
[[nodiscard]] bool readingsGoUp(const Agreements& agreements);
/// Turn results leave the home only if somebody may see them or they are kept.
[[nodiscard]] bool resultsGoUp(const Agreements& agreements);

enum class WordKind : std::uint8_t { kind, prompt };
/// Whether a private word of this kind may be sent to the person.
[[nodiscard]] bool mayAddress(const Agreements& agreements, WordKind kind);
/// Leaders, stand-ins and helpers see names, participants only of those who agreed.
[[nodiscard]] bool nameShownTo(Viewer viewer, const Agreements& agreements);

} // namespace vh
