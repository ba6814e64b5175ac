// What people write, once it is decided: told to the desk and to everybody, up on the board and off it again.
#include "server/hall/hall_store.h"

#include <algorithm>

namespace vh::hall
{

using store::BoardKind;
using store::BoardState;

namespace
{
wire::ItemKind kindOf(BoardKind kind)
{
    switch (kind) {
    case BoardKind::notice:
        return wire::ItemKind::notice;
    case BoardKind::picture:
        return wire::ItemKind::picture;
    case BoardKind::chat:
    case BoardKind::reply:
        break;
    }
    return wire::ItemKind::line;
}

/// By whoever wrote it.
bool isTakenBack(const store::BoardRow& row)
{
    return row.state == BoardState::setAside && row.decidedBy && row.decidedBy == row.author;
}

/// As its author may know it: not who read it, nor that it was set aside.
wire::OwnState ownState(const store::BoardRow& row)
{
    switch (row.state) {
    case BoardState::held:
    case BoardState::goingUp: // a helper may still think better of it
    case BoardState::shown:
        return wire::OwnState::toRead;
    case BoardState::withLeader:
    case BoardState::withClinician:
    case BoardState::forWindow:
        return wire::OwnState::withLeader;
    case BoardState::setAside:
    case BoardState::seenTo:
        break;
    }
    return isTakenBack(row) ? wire::OwnState::gone : wire::OwnState::read;
}

wire::OwnLine ownLine(const store::BoardRow& row, std::optional<wire::PictureAbout> picture)
{
    return {static_cast<std::uint64_t>(row.id), row.text, row.at, ownState(row), kindOf(row.kind), picture};
}

} // namespace

/// What everybody needs to know of an item that the store has just written.
void Hall::itemChanged(const store::BoardRow& row, bool wasShown)
{
    m_desk.take(row);
    if (m_desk.release(row.id))
        tell(kDesk, wire::Claimed{static_cast<std::uint64_t>(row.id), {}});
    wire::OnDesk now;
    now.items.push_back(deskItem(row));
    tell(kDesk, now);
    if (row.state == BoardState::shown)
        shown(row);
    else if (wasShown)
        offBoard(row);
    if (row.state != BoardState::shown && (row.decidedBy || row.kind == BoardKind::picture))
        tellAuthor(row);
    waitToGoUp();
    if (row.kind == BoardKind::picture)
        pictureChanged(row);
}

wire::DeskItem Hall::deskItem(const store::BoardRow& row) const
{
    wire::DeskItem item;
    item.item = static_cast<std::uint64_t>(row.id);
    item.change = static_cast<std::uint64_t>(row.change);
    if (row.author) {
        item.person = *row.author;
        item.name = nameOfPerson(*row.author);
    }
    item.text = row.text;
    item.at = row.at;
    item.state = static_cast<wire::DeskState>(row.state);
    if (row.decidedBy)
        item.by = nameOfPerson(*row.decidedBy);
    item.due = row.due;
    item.kind = row.kind == BoardKind::picture ? wire::ItemKind::picture : wire::ItemKind::line;
    item.picture = pictureOf(row);
    return item;
}

wire::BoardItem Hall::boardItem(const store::BoardRow& row) const
{
    wire::BoardItem item;
    item.item = static_cast<std::uint64_t>(row.id);
    item.change = static_cast<std::uint64_t>(row.change);
    item.kind = kindOf(row.kind);
    item.at = row.at;
    item.gone = row.state != BoardState::shown;
    if (item.gone)
        return item;
    item.text = row.text;
    item.picture = pictureOf(row);
    // A board line goes to everybody: its author's name only with that agreement.
    const Member* author = row.author ? memberById(*row.author) : nullptr;
    if (author && item.kind != wire::ItemKind::notice && nameShownTo(Viewer::participant, author->agreements))
        item.name = author->name;
    return item;
}

void Hall::shown(const store::BoardRow& row)
{
    std::erase_if(m_gone, [&](const store::BoardRow& each) { return each.id == row.id; });
    const auto same = std::ranges::find(m_board, row.id, &store::BoardRow::id);
    if (same != m_board.end())
        *same = row; // a picture that the desk has changed
    else
        m_board.push_back(row);
    if (m_board.size() > wire::kBoardTail)
        m_board.pop_front();
    wire::Board board;
    board.items.push_back(boardItem(row));
    tellAll(board);
}

void Hall::offBoard(const store::BoardRow& row)
{
    std::erase_if(m_board, [&](const store::BoardRow& each) { return each.id == row.id; });
    m_gone.push_back(row);
    if (m_gone.size() > wire::kBoardTail)
        m_gone.pop_front();
    wire::Board board;
    board.items.push_back(boardItem(row));
    tellAll(board);
}

void Hall::replied(const store::BoardRow& reply, const std::string& about)
{
    m_replies.push_back({reply, about});
    if (m_replies.size() > kRepliesKept)
        m_replies.pop_front();
    if (const Member* to = memberById(*reply.to); to && to->session)
        to->session->send(answerOf(m_replies.back()), m_log.end());
}

wire::Answer Hall::answerOf(const Replied& replied) const
{
    return {static_cast<std::uint64_t>(replied.reply.id),
            replied.reply.author ? nameOfPerson(*replied.reply.author) : std::string(), replied.about,
            replied.reply.text, replied.reply.at};
}

/// Everything of the board that is this person's own, or newer than what their app has.
void Hall::boardIn(wire::Welcome& welcome, const Session& session) const
{
    const Member& member = *session.member();
    const auto isNewer = [&](const store::BoardRow& row) {
        return static_cast<std::uint64_t>(row.change) > session.boardSince();
    };
    if (session.boardSince() > 0) // else there is nothing on their screen that could have gone
        for (const store::BoardRow& row : m_gone)
            if (isNewer(row))
                welcome.board.push_back(boardItem(row));
    for (const store::BoardRow& row : m_board) {
        if (isNewer(row))
            welcome.board.push_back(boardItem(row));
        if (row.author == member.id)
            welcome.own.push_back(static_cast<std::uint64_t>(row.id));
    }
    std::ranges::sort(welcome.board, {}, &wire::BoardItem::change);
    if (welcome.board.size() > wire::kBoardTail) // the newest
        welcome.board.erase(welcome.board.begin(), welcome.board.end() - wire::kBoardTail);
    for (const auto& [id, row] : m_desk.rows())
        if (row.author == member.id && row.state != BoardState::setAside)
            welcome.own.push_back(static_cast<std::uint64_t>(id));
    if (welcome.own.size() > wire::kBoardTail)
        welcome.own.erase(welcome.own.begin(), welcome.own.end() - wire::kBoardTail);
    for (const Replied& replied : m_replies)
        if (replied.reply.to == member.id && welcome.answers.size() < wire::kBoardTail)
            welcome.answers.push_back(answerOf(replied));
    if (const auto rest = restOf(member))
        welcome.writing = wire::MayWrite{rest->until};
}

void Hall::tellAuthor(const store::BoardRow& row) const
{
    const Member* author = row.author ? memberById(*row.author) : nullptr;
    if (!author || !author->session || (kDesk & roleBit(author->session->role())) != 0)
        return; // those at the desk see all of it
    wire::OwnNow now;
    now.lines.push_back(ownLine(row, pictureOf(row)));
    author->session->send(now, m_log.end());
}

void Hall::tellOwn(Session& session) const
{
    wire::OwnNow now;
    for (const auto& [id, row] : m_desk.rows())
        if (row.author == session.member()->id && !isTakenBack(row))
            now.lines.push_back(ownLine(row, pictureOf(row)));
    if (now.lines.size() > wire::kBoardTail)
        now.lines.erase(now.lines.begin(), now.lines.end() - wire::kBoardTail);
    if (!now.lines.empty())
        session.send(now, m_log.end());
}

// --- going up ------------------------------------------------------------------------------------------------------

void Hall::waitToGoUp()
{
    const auto next = m_desk.nextDue();
    m_goUp = !next ? net::Loop::Timer{} : loop().after(std::max(*next - now(), Millis{0}), [this] { goUp(); });
}

/// What is due is written as shown first: a relay that falls over now shows it when it is back, once.
void Hall::goUp()
{
    for (const std::int64_t item : m_desk.startGoingUp(now())) {
        auto done = [self = shared_from_this(), item](const Result<store::BoardRow>& row) {
            if (row)
                return self->itemChanged(*row, false);
            if (row.error().code != "item-unknown")
                self->m_desk.stayed(item); // the beat tries again
        };
        const auto submitted = m_setup.store->submit(
            [item, at = now()](store::Tables& tables) -> Result<store::BoardRow> {
                const auto row = tables.board.byId(item);
                if (!row || row->state != BoardState::goingUp || row->due.value_or(at) > at)
                    return fail("item-unknown", "It was taken back meanwhile.");
                return tables.board.decide(item, BoardState::shown, {}, at);
            },
            std::move(done), poster());
        if (submitted != store::Submitted::accepted)
            m_desk.stayed(item);
    }
}

} // namespace vh::hall
