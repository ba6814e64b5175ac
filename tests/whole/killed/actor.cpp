#include "tests/whole/killed/actor.h"

namespace vh::testing
{

namespace
{

link::Entry entryOf(const Seat& seat)
{
    link::Entry entry;
    entry.how = link::Entry::How::login;
    entry.host = "127.0.0.1";
    entry.port = seat.port;
    entry.group = seat.group;
    entry.role = seat.role;
    entry.keys = seat.keys;
    entry.plain = true;
    return entry;
}

} // namespace

Actor::Actor(const Seat& seat, std::string name, Scribe& scribe, std::uint64_t seed)
    : m_line(m_clock), m_name(std::move(name)), m_scribe(scribe), m_chance(seed),
      m_life(RequestId::random().hex().substr(0, 8))
{
    connect(&m_line, &link::Line::received, this, [this](const wire::ToClient& message) {
        if (const auto* welcome = std::get_if<wire::Welcome>(&message))
            m_person = welcome->person.hex();
        take(message);
    });
    connect(&m_line, &link::Line::answered, this,
            [this](const RequestId& id, const wire::Ack& ack, const Error* error) {
                const auto open = m_open.extract(id);
                if (open.empty())
                    return; // a piece of a picture: the sender's
                if (error)
                    m_scribe.refused(id.hex(), error->code);
                else
                    m_scribe.acknowledged(id.hex(), ack.item.value_or(0));
                answered(open.mapped(), ack, error == nullptr);
            });
    m_line.open(entryOf(seat));
}

Actor::~Actor() = default;

void Actor::act()
{
    if (!m_person.empty() && m_line.unanswered() < kAtOnce)
        doSomething();
}

void Actor::answered(std::uint64_t, const wire::Ack&, bool) {}

Trace Actor::logged(const std::string& what, const std::string& detail) const
{
    return "log\t" + m_person + "\t" + what + "\t" + detail;
}

std::string Actor::words(const std::string& what)
{
    return what + " " + std::to_string(++m_written) + " of " + m_name + " " + m_life;
}

namespace
{

bool isPicture(const wire::DeskItem& item)
{
    return item.kind == wire::ItemKind::picture;
}

/// As the log calls it.
std::string actOn(const wire::DeskItem& item, const char* what)
{
    return (isPicture(item) ? "picture-" : "line-") + std::string(what);
}

} // namespace

// --- a home --------------------------------------------------------------------------------------------------------

HomeActor::HomeActor(const Seat& seat, const std::string& name, Scribe& scribe, std::uint64_t seed, QByteArray picture)
    : Actor(seat, name, scribe, seed), m_pictures(line()), m_picture(std::move(picture))
{
    connect(&m_pictures, &pictures::PictureSender::sent, this, [this](const RequestId& id, quint64 item) {
        this->scribe().acknowledged(id.hex(), item);
        m_own.push_back(item);
    });
    connect(&m_pictures, &pictures::PictureSender::refused, this,
            [this](const RequestId& id, const Error& error) { this->scribe().refused(id.hex(), error.code); });
}

void HomeActor::doSomething()
{
    if (oneIn(5) && m_pictures.going().empty()) {
        const std::string caption = words("Picture");
        const RequestId id = m_pictures.send(m_picture, {}, QString::fromStdString(caption)); // nothing leaves before
        return scribe().asked(id.hex(), "picture\t" + caption);
    }
    if (oneIn(8) && !m_calling && m_call == 0) {
        m_calling = true;
        return ask(wire::HelpCall{}, "call\t" + person());
    }
    if (oneIn(12) && m_call != 0)
        return ask(wire::HelpTakeBack{{}, m_call}, "done\t" + std::to_string(m_call));
    if (oneIn(12) && !m_own.empty()) {
        const std::uint64_t item = m_own.back();
        m_own.pop_back();
        return ask(wire::TakeBackOwn{{}, item}, logged("own-taken-back", std::to_string(item)));
    }
    const std::string text = words("Line");
    ask(wire::Write{{}, text}, "board\t" + text, 1);
}

void HomeActor::answered(std::uint64_t about, const wire::Ack& ack, bool done)
{
    if (done && about == 1)
        m_own.push_back(*ack.item);
}

void HomeActor::take(const wire::ToClient& message)
{
    if (const auto* welcome = std::get_if<wire::Welcome>(&message)) {
        if (welcome->board.size() >= wire::kBoardTail)
            m_board.clear(); // more may have changed than it can say
        takeBoard(welcome->board);
        if (!m_calling || !welcome->calls.empty())
            m_call = welcome->calls.empty() ? 0 : welcome->calls.front().call;
    } else if (const auto* board = std::get_if<wire::Board>(&message)) {
        takeBoard(board->items);
    } else if (const auto* call = std::get_if<wire::CallStatus>(&message)) {
        m_calling = false;
        m_call = call->done ? 0 : call->call;
    }
}

void HomeActor::takeBoard(const std::vector<wire::BoardItem>& items)
{
    for (const wire::BoardItem& item : items)
        if (item.gone)
            m_board.erase(item.item);
        else
            m_board[item.item] = item.text;
}

// --- the leader ----------------------------------------------------------------------------------------------------

void LeaderActor::doSomething()
{
    for (const auto& [id, item] : m_items) {
        const bool forWindow = item.state == wire::DeskState::forWindow;
        if (forWindow && oneIn(6))
            return ask(wire::ShowPicture{{}, id, true}, logged("picture-in-window", std::to_string(id)));
        if ((forWindow || item.state == wire::DeskState::withLeader || item.state == wire::DeskState::withClinician) &&
            oneIn(forWindow ? 20 : 3)) {
            const Trace trace = logged(actOn(item, "taken"), std::to_string(id));
            m_items.erase(id);
            return ask(wire::TakeItem{{}, id}, trace);
        }
    }
    if (oneIn(10)) {
        const std::string text = words("Notice");
        return ask(wire::Notice{{}, text}, "board\t" + text);
    }
    if (oneIn(20)) {
        const bool open = oneIn(2);
        ask(wire::OpenBoard{{}, open}, logged(open ? "board-open" : "board-held", ""));
    }
}

void LeaderActor::take(const wire::ToClient& message)
{
    if (const auto* welcome = std::get_if<wire::Welcome>(&message)) {
        m_inWindow = welcome->inWindow ? welcome->inWindow->item : 0;
    } else if (const auto* now = std::get_if<wire::PictureNow>(&message)) {
        m_inWindow = now->item;
    } else if (const auto* desk = std::get_if<wire::OnDesk>(&message)) {
        if (desk->whole)
            m_items.clear();
        for (const wire::DeskItem& item : desk->items)
            m_items[item.item] = item;
    }
}

// --- the desk ------------------------------------------------------------------------------------------------------

namespace
{
constexpr std::uint64_t kCall = std::uint64_t{1} << 63;
}

void DeskActor::doSomething()
{
    if (oneIn(15) && !m_people.empty()) {
        const PersonId whom = m_people[upTo(static_cast<unsigned>(m_people.size()) - 1)];
        const std::string reason = words("Rest");
        const auto rest = static_cast<wire::Rest>(upTo(2));
        constexpr std::array kLogged{"rest-ended", "quiet-for-a-while", "quiet-for-the-class"};
        return ask(wire::SetRest{{}, whom, rest, reason}, logged(kLogged[static_cast<std::size_t>(rest)], reason));
    }
    if (oneIn(15)) {
        const std::string name = words("Mr");
        return ask(wire::AttendByHand{{}, name}, "phoned\t" + name);
    }
    for (const auto& [id, call] : m_calls)
        if (!m_busy.contains(id | kCall) && oneIn(2))
            return doWith(call);
    for (const auto& [id, item] : m_items) {
        const bool mayWait = item.state != wire::DeskState::held;
        if (!m_busy.contains(id) && oneIn(mayWait ? 40 : 2))
            return doWith(item);
    }
}

void DeskActor::doWith(const wire::DeskItem& item)
{
    using enum wire::Decision;
    if (item.state == wire::DeskState::setAside || item.state == wire::DeskState::goingUp)
        return decide(item, hold, "taken-back");
    if (item.state == wire::DeskState::shown)
        return decide(item, setAside, "set-aside");
    if (item.state != wire::DeskState::held)
        return;
    if (isPicture(item) && oneIn(2))
        return oneIn(2) ? edit(item) : decide(item, forWindow, "for-window");
    switch (upTo(6)) {
    case 0:
        return decide(item, setAside, "set-aside");
    case 1:
        return decide(item, forLeader, "for-leader");
    case 2:
        return decide(item, clinician, "for-clinician");
    case 3:
        return reply(item);
    default:
        return decide(item, show, "let-through");
    }
}

void DeskActor::reply(const wire::DeskItem& item)
{
    const std::string text = words("Reply");
    m_busy.insert(item.item);
    ask(wire::Reply{{}, item.item, oneIn(2), text}, "board\t" + text, item.item);
}

void DeskActor::edit(const wire::DeskItem& item)
{
    wire::EditPicture turned;
    turned.item = item.item;
    turned.change = item.change;
    turned.quarterTurns = 1;
    turned.text = item.text;
    m_busy.insert(item.item);
    ask(turned, logged(actOn(item, "changed"), std::to_string(item.item)), item.item);
}

void DeskActor::doWith(const wire::Call& call)
{
    m_busy.insert(call.call | kCall);
    if (call.takenBy.empty())
        return ask(wire::HelpTake{{}, call.call}, "taken\t" + std::to_string(call.call), call.call | kCall);
    const std::string outcome = words("Seen to");
    ask(wire::HelpDone{{}, call.call, outcome}, logged("call-done", outcome), call.call | kCall);
}

void DeskActor::decide(const wire::DeskItem& item, wire::Decision decision, const char* what)
{
    m_busy.insert(item.item);
    ask(wire::Decide{{}, item.item, item.change, decision}, logged(actOn(item, what), std::to_string(item.item)),
        item.item);
}

void DeskActor::answered(std::uint64_t about, const wire::Ack&, bool done)
{
    m_busy.erase(about);
    if (!done) // somebody else was first: what is so now comes by itself, or it is no longer there
        about& kCall ? m_calls.erase(about & ~kCall) : m_items.erase(about);
}

void DeskActor::take(const wire::ToClient& message)
{
    if (std::holds_alternative<wire::Welcome>(message)) {
        m_calls.clear();
    } else if (const auto* desk = std::get_if<wire::OnDesk>(&message)) {
        if (desk->whole)
            m_items.clear();
        for (const wire::DeskItem& item : desk->items)
            m_items[item.item] = item;
    } else if (const auto* calls = std::get_if<wire::Calls>(&message)) {
        for (const wire::Call& call : calls->calls)
            if (call.done)
                m_calls.erase(call.call);
            else
                m_calls[call.call] = call;
    } else if (const auto* seats = std::get_if<wire::Seats>(&message)) {
        for (const wire::SeatName& seat : seats->seats)
            if (seat.name.starts_with("Quiet") && m_people.size() < 3)
                m_people.push_back(seat.person);
    }
}

} // namespace vh::testing
