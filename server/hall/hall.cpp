#include "server/hall/hall.h"

#include "server/hall/desk_item.h"
#include "server/hall/hall_store.h"
#include "server/hall/picture_works.h"

#include <algorithm>

namespace vh::hall
{

Hall::Hall(HallSetup setup, HallImage image)
    : m_setup(std::move(setup)), m_image(std::move(image)), m_group(m_image.state.group), m_log(*m_setup.loop),
      m_run(*m_setup.loop, *m_setup.clock, [this] { classChanged(); }),
      m_coming(m_setup.pictures ? &m_setup.pictures->room : nullptr)
{
}

void Hall::start()
{
    const HallImage image = std::exchange(m_image, {});
    for (const store::PersonState& person : image.state.people)
        adopt(person);
    for (const store::ContactRow& contact : image.contacts)
        if (const auto found = m_members.find(contact.person); found != m_members.end()) {
            found->second->where = contact.whereabouts;
            found->second->ring = contact.whomToRing;
            found->second->contactAt = contact.at;
        }
    m_board.assign(image.state.board.begin(), image.state.board.end());
    m_gone.assign(image.state.gone.begin(), image.state.gone.end());
    for (const store::BoardRow& row : image.state.desk)
        m_desk.take(row);
    for (const store::RepliedRow& each : image.state.replies)
        m_replies.push_back({each.reply, each.about});
    for (const store::RestRow& rest : image.state.rests)
        if (const auto found = m_members.find(rest.person); found != m_members.end())
            found->second->rest = rest;
    if (image.state.inWindow && isForWindow(*image.state.inWindow))
        m_window = image.state.inWindow;
    waitToGoUp();
    for (const store::CallRow& row : image.state.calls)
        m_calls[row.id] = row;
    linesFrom(image);
    if (image.state.handout)
        m_handout = handoutNow(*image.state.handout);
    m_nameless = image.nameless;
    m_summary = image.summary;
    if (image.script) {
        const store::ClassRow& row = *image.state.openClass;
        ClassState state =
            image.states.empty() ? openClass(*image.script, 1, row.leader, {}, row.startedAt) : image.states.back();
        // The relay was away, not the leader: unless it was away for long, she has her time to come back.
        if (state.phase != Phase::running || now() - (state.turnStartedAt + state.turnLength) < kCalmPauseAfter)
            state.lease.lastSeen = std::max(state.lease.lastSeen, now());
        m_placesKept = image.state.place ? image.state.place->revision : 0;
        m_partsTold = m_partsKept = image.parts;
        m_run.open({0, row.id, row.title, image.parts}, image.script, state, image.states);
        letDeskSeeLevels(row.levelsToDesk);
    }
    m_beat = loop().every(wire::kReadingEvery, [this] {
        m_roster.tell([this](std::uint16_t seat) { return memberAt(seat); });
        tellSeats();
        tellDoor();
        goUp();
        m_desk.forget(now());
        m_coming.forget(now());
        tellStandIns();
        tellLostLines();
        if (++m_quarter % 4 == 0)
            tellHere(), tellWorth(), tellOver(), letGoOfCalls();
    });
}

void Hall::stop()
{
    m_beat.cancel();
    m_endRetry.cancel();
    m_goUp.cancel();
    m_run.close();
    m_sound = {};
    m_standInsSee.clear();
    for (Session* session : std::exchange(m_sessions, {}))
        session->isOut();
    for (auto& [door, waiting] : std::exchange(m_door, {}))
        waiting.session->isOut();
}

store::Poster Hall::poster() const
{
    return [loop = m_setup.loop](std::function<void()> task) { loop->post(std::move(task)); };
}

Member* Hall::memberFor(const wire::Key& key, std::optional<Role> role)
{
    const auto found = m_byKey.find(key);
    if (found == m_byKey.end() || !found->second->owns(key) || (role && !found->second->has(*role)))
        return nullptr;
    return found->second;
}

Member& Hall::adopt(const store::PersonState& person)
{
    auto& slot = m_members[person.person.id];
    if (slot)
        addTo(*slot, person); // somebody known who brings another device keeps the class they are in
    else
        slot = std::make_unique<Member>(memberOf(person));
    for (const store::DeviceRow& device : slot->devices)
        m_byKey[device.key] = slot.get();
    if (m_bySeat.size() <= slot->seat)
        m_bySeat.resize(slot->seat + 1U);
    m_bySeat[slot->seat] = slot.get();
    touch(*slot);
    return *slot;
}

Member* Hall::memberAt(std::uint16_t seat)
{
    // Who only leads or helps has no voice to be seen.
    Member* member = seat < m_bySeat.size() ? m_bySeat[seat] : nullptr;
    return member && (member->has(Role::participant) || member->has(Role::standIn)) ? member : nullptr;
}

const Member* Hall::memberById(PersonId id) const
{
    const auto found = m_members.find(id);
    return found == m_members.end() ? nullptr : found->second.get();
}

std::string Hall::nameOfPerson(PersonId id) const
{
    const Member* member = memberById(id);
    return member ? member->name : std::string();
}

void Hall::touch(const Member& member)
{
    m_roster.touch(member.seat);
    m_changedSeats.insert(member.seat);
}

void Hall::admit(Session& session, Member& member, Role role)
{
    if (isOut(member))
        return turnOut(session, member.rest->reason);
    if (member.session) {
        // Two devices at once: the newest is live.
        Session* older = member.session;
        left(*older);
        older->isOut();
        older->close(kCloseAnotherDevice, "You have come in on another device.");
    }
    member.session = &session;
    m_sessions.insert(&session);
    session.isIn(*this, member, role);
    session.connection()->attach(m_log, net::Connection::From::end);
    session.send(welcomeFor(session));
    if ((kDesk & roleBit(role)) != 0)
        tellDesk(session);
    else
        tellOwn(session);
    if (role == Role::leader && m_over)
        session.send(*m_over, m_log.end());
    if (role == Role::leader)
        sendWorth(rolesOf(Role::leader), &session);
    if (role == Role::leader || role == Role::standIn)
        tellLease();
    if (m_run.isOpen() && (role == Role::participant || role == Role::standIn))
        cameIn(member);
    lineIsBack(member);
    touch(member);
    m_hereChanged = true;
    m_setup.store->submit(
        [key = session.key(), at = now()](store::Tables& tables) -> Result<bool> {
            tables.devices.seen(key, at);
            return true;
        },
        [](const Result<bool>&) {}, poster());
}

void Hall::left(Session& session)
{
    for (auto at = m_door.begin(); at != m_door.end(); ++at)
        if (at->second.session == &session) {
            m_door.erase(at);
            m_doorChanged = true;
            return;
        }
    if (m_sessions.erase(&session) == 0)
        return;
    m_roster.remove(session);
    m_coming.forget(&session);
    for (const std::int64_t item : m_desk.releaseAll(&session))
        tell(kDesk, wire::Claimed{static_cast<std::uint64_t>(item), {}});
    m_standInsSee.erase(&session);
    lineLeaves(session);
    Member& member = *session.member();
    if (member.session == &session)
        member.session = nullptr;
    soundLeaves(session);
    touch(member);
    m_hereChanged = true;
    if (member.came && m_run.isOpen() && member.agreements.attendanceNamed)
        m_setup.store->submit(
            [id = m_run.about().classId, person = member.id, at = now()](store::Tables& tables) -> Result<bool> {
                tables.classes.left(id, person, at);
                return true;
            },
            [](const Result<bool>&) {}, poster());
}

void Hall::skipped(Session& session, net::Skipped skipped)
{
    // Whoever missed a cue or words gets all of it again; sound that was missed stays missed.
    if (skipped.lasting == 0)
        return;
    session.send(welcomeFor(session), m_log.end());
    if ((kDesk & roleBit(session.role())) != 0)
        tellDesk(session);
    else
        tellOwn(session);
}

wire::Welcome Hall::welcomeFor(const Session& session) const
{
    const Member& member = *session.member();
    wire::Welcome welcome;
    welcome.epoch = m_setup.epoch;
    welcome.seq = m_seq;
    welcome.now = now();
    welcome.group = m_group.id;
    welcome.groupName = m_group.name;
    if ((kDesk & roleBit(session.role())) != 0)
        welcome.code = m_group.code;
    welcome.person = member.id;
    welcome.name = member.name;
    welcome.role = session.role();
    welcome.seat = member.seat;
    const wire::Here here = hereNow();
    welcome.here = here.here;
    welcome.helpers = here.helpers;
    welcome.leaders = here.leaders;
    welcome.hellos = here.hellos;
    welcome.saidHello = member.saidHello;
    for (const AgreementKind kind : member.answered)
        welcome.agreements.push_back({kind, std::string(valueOf(member.agreements, kind))});
    welcome.where = member.where;
    welcome.ring = member.ring;
    welcome.whomToRing = m_whomToRing;
    welcome.bandOffsetDb = member.bandOffsetDb;
    if (m_run.isOpen()) {
        welcome.open = m_run.about();
        welcome.place = placeNow();
    }
    welcome.handout = m_handout;
    if (m_window)
        welcome.inWindow = pictureNow();
    boardIn(welcome, session);
    for (const auto& [id, row] : m_calls)
        if (row.person == member.id)
            welcome.calls.push_back(
                {static_cast<std::uint64_t>(id), row.takenBy ? nameOfPerson(*row.takenBy) : std::string(), false});
    soundIn(welcome, session);
    return welcome;
}

wire::SeatName Hall::seatName(const Member& member, Role viewer) const
{
    // How the leader has moved somebody's band says how they are doing: not for helpers.
    const bool leads = viewer == Role::leader;
    return {member.seat,
            member.id,
            member.name,
            member.session != nullptr,
            leads ? member.bandOffsetDb : 0,
            leads ? member.agreements.addressed : Addressed::notAtAll};
}

void Hall::tellSeats()
{
    if (m_changedSeats.empty())
        return;
    const std::set<std::uint16_t> seats = std::exchange(m_changedSeats, {});
    for (const Role viewer : {Role::leader, Role::moderator}) {
        std::vector<wire::SeatName> changed;
        for (const std::uint16_t seat : seats)
            if (const Member* member = memberAt(seat))
                changed.push_back(seatName(*member, viewer));
        inPieces(changed, &wire::Seats::seats, false,
                 [&](const wire::Seats& piece) { tell(rolesOf(viewer), piece, net::Weight::bulk); });
    }
}

wire::Here Hall::hereNow() const
{
    wire::Here here;
    for (const Session* session : m_sessions) {
        here.here += session->role() == Role::participant || session->role() == Role::standIn;
        here.helpers += session->role() == Role::moderator;
        here.leaders += session->role() == Role::leader || m_standInsSee.contains(session);
    }
    for (const auto& [id, member] : m_members)
        here.hellos += member->saidHello;
    return here;
}

void Hall::tellHere()
{
    if (std::exchange(m_hereChanged, false))
        tellAll(hereNow(), net::FrameKind::droppable);
}

/// All that leaders and helpers work with, whole.
void Hall::tellDesk(Session& session)
{
    const auto send = [&](const auto& piece) { session.send(piece, m_log.end(), net::Weight::bulk); };
    std::vector<wire::SeatName> seats;
    for (std::size_t seat = 0; seat < m_bySeat.size(); ++seat)
        if (const Member* member = memberAt(static_cast<std::uint16_t>(seat)))
            seats.push_back(seatName(*member, session.role()));
    inPieces(seats, &wire::Seats::seats, true, send);
    m_roster.add(session, session.role() == Role::leader ? Viewer::leader : Viewer::helper, m_bySeat.size());

    std::vector<wire::DeskItem> items;
    for (const auto& [id, row] : m_desk.rows())
        items.push_back(deskItem(row));
    inPieces(items, &wire::OnDesk::items, true, send);
    for (const auto& [item, name] : m_desk.claims())
        send(wire::Claimed{static_cast<std::uint64_t>(item), name});
    send(deskNow());

    callsTo(session);
    send(doorNow());
}

} // namespace vh::hall
