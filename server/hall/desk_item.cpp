#include "server/hall/desk_item.h"

namespace vh::hall
{

using store::BoardKind;
using store::BoardState;

namespace
{

std::string inWords(BoardState state)
{
    switch (state) {
    case BoardState::held:
        return "put it back to be read";
    case BoardState::shown:
    case BoardState::goingUp:
        return "let it through";
    case BoardState::setAside:
        return "set it aside";
    case BoardState::withLeader:
        return "put it on the leader's screen";
    case BoardState::withClinician:
        return "called the clinician to it";
    case BoardState::seenTo:
        return "seen to it";
    case BoardState::forWindow:
        return "sent it to the leader for the window";
    }
    return "dealt with it";
}

/// By whoever wrote it: nobody else brings it back.
bool isTakenBack(const store::BoardRow& row)
{
    return row.state == BoardState::setAside && row.decidedBy && row.decidedBy == row.author;
}

} // namespace

Error itemUnknown()
{
    return {"item-unknown", "This is no longer there.", "item"};
}

bool isThere(const std::optional<store::BoardRow>& row, GroupId group)
{
    return row && row->group == group && (row->kind == BoardKind::chat || row->kind == BoardKind::picture);
}

bool isWithLeader(BoardState state)
{
    return state == BoardState::withLeader || state == BoardState::withClinician || state == BoardState::forWindow;
}

bool isForWindow(const store::BoardRow& row)
{
    return row.kind == BoardKind::picture && row.picture &&
           (row.state == BoardState::shown || row.state == BoardState::goingUp || row.state == BoardState::forWindow);
}

Result<store::BoardRow> seenAt(const store::Tables& tables, GroupId group, std::int64_t item, std::int64_t change)
{
    const auto row = tables.board.byId(item);
    if (!isThere(row, group))
        return tl::unexpected<Error>(itemUnknown());
    if (isTakenBack(*row))
        return fail("item-unknown", "Its author has taken it back.", "item");
    if (row->change != change) {
        if (row->kind == BoardKind::picture && row->state == BoardState::held && !row->decidedBy)
            return fail("item-changed", "Somebody has changed this picture.", "change");
        const auto who = row->decidedBy ? tables.people.byId(*row->decidedBy) : std::nullopt;
        return fail("item-changed", (who ? who->name + " has " : "Somebody has ") + inWords(row->state) + ".",
                    "change");
    }
    if (row->kind == BoardKind::picture && !row->picture)
        return fail("item-unknown", "This picture was set aside and is no longer kept.", "item");
    return *row;
}

Result<store::BoardRow> takeBack(store::Tables& tables, const store::BoardRow& row, Instant now)
{
    auto gone = tables.board.decide(row.id, BoardState::setAside, row.author, now);
    if (gone && row.kind == BoardKind::picture)
        gone = tables.board.erasePicture(row.id);
    if (gone)
        tables.log.add({0, row.group, row.author, "own-taken-back", row.author, std::to_string(row.id), now, {}});
    return gone;
}

std::string actOn(const store::BoardRow& row, std::string_view what)
{
    return (row.kind == BoardKind::picture ? "picture-" : "line-") + std::string(what);
}

} // namespace vh::hall
