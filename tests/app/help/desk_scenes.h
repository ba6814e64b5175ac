#pragma once
// The helper's desk in all its states, with invented people, made from the relay's messages and a few keys: for the
// tests of its screen and for pictures of it. GUI thread.
#include "app/help/desk_model.h"
#include "app/help/desk_room.h"

#include <functional>

namespace vh::testing
{

inline const Instant kDeskNow{Millis{1'700'000'000'000}};

wire::DeskItem deskLine(std::uint64_t item, const char* name, const std::string& text, int secondsAgo = 0);
/// The same, dealt with by somebody.
wire::DeskItem dealtWith(wire::DeskItem item, wire::DeskState state, const char* by);
/// Somebody of the group, always the same for a name.
PersonId deskPerson(const std::string& name);

/// In, with a class under way, people, and nothing to read.
void comeIn(help::DeskModel& model);
/// Four lines to read, one of them read by Ines; others dealt with; a board, a door with a name that looks like
/// another's.
void beBusy(help::DeskModel& model);

struct DeskScene {
    const char* name;
    std::function<void(help::DeskModel&)> arrange;
    std::function<void(help::DeskRoom&)> act; ///< once it is shown; may be null
};
std::vector<DeskScene> deskScenes();

} // namespace vh::testing
