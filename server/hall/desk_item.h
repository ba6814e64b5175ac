#pragma once
// What all that deals with items of the desk agrees on: which are there, who may still act on them, what the log calls
// it. Thread: inside a job of the store where Tables are handed in; else any.
#include "server/store/tables.h"

namespace vh::hall
{

Error itemUnknown();

/// Of this group, and of a kind that the desk deals with.
bool isThere(const std::optional<store::BoardRow>& row, GroupId group);
bool isWithLeader(store::BoardState state);
/// May be seen by all, by the leader's choice.
bool isForWindow(const store::BoardRow& row);

/// The item, if nothing was done with it since `change`. item-unknown, item-changed (who has done what).
Result<store::BoardRow> seenAt(const store::Tables& tables, GroupId group, std::int64_t item, std::int64_t change);
/// By its author: off the desk and the board for good; of a picture, bytes and caption go.
Result<store::BoardRow> takeBack(store::Tables& tables, const store::BoardRow& row, Instant now);

/// For the log: "line-..." or "picture-...".
std::string actOn(const store::BoardRow& row, std::string_view what);

} // namespace vh::hall
