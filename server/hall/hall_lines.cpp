// Lines that break off during a class: who is told, who has it in hand, what was done; and whom people are to ring when
// nobody is there to help.
#include "common/base/text.h"
#include "server/hall/hall_store.h"

namespace vh::hall
{

namespace
{

bool isHome(Role role)
{
    return role == Role::participant || role == Role::standIn;
}

} // namespace

/// The relay was away, not the homes: those who do not come back have been gone since now, unless it was known before.
void Hall::linesFrom(const HallImage& image)
{
    m_whomToRing = image.state.whomToRing;
    for (const store::WatchedLineRow& row : image.state.lines) {
        const bool ofNow = image.state.openClass && image.state.openClass->id == row.classId;
        if (ofNow || row.seenBy)
            m_lost[row.person] = {row.lostAt.value_or(now()), row.seenBy, false};
    }
}

/// A line that is not written is not remembered over a restart; nothing else hangs on it.
void Hall::keepLine(std::function<void(store::Tables&)> work)
{
    m_setup.store->submit(
        [work = std::move(work)](store::Tables& tables) -> Result<bool> {
            work(tables);
            return true;
        },
        [](const Result<bool>&) {}, poster());
}

void Hall::watchLine(const Member& member)
{
    if (!m_run.isOpen() || !member.session || !isHome(member.session->role()) || !member.agreements.mayRing)
        return;
    keepLine(
        [person = member.id, id = m_run.about().classId](store::Tables& tables) { tables.lines.watch(person, id); });
}

/// On purpose, removed or sent out: not lost.
void Hall::lineLeaves(const Session& session)
{
    const Member& member = *session.member();
    if (!m_run.isOpen() || m_run.state().phase == Phase::ended || !isHome(session.role()))
        return;
    const auto known = m_lost.find(member.id);
    const bool seen = known != m_lost.end() && known->second.seenBy;
    if (session.saidBye() || isOut(member) || !member.owns(session.key())) {
        if (seen)
            return; // somebody has it in hand
        m_lost.erase(member.id);
        if (member.agreements.mayRing)
            keepLine([person = member.id](store::Tables& tables) { tables.lines.forget(person); });
        return;
    }
    m_lost[member.id] = {now(), seen ? known->second.seenBy : std::nullopt, false};
    if (member.agreements.mayRing)
        keepLine([person = member.id, at = now()](store::Tables& tables) { tables.lines.lost(person, at); });
}

void Hall::lineIsBack(const Member& member)
{
    if (const auto lost = m_lost.find(member.id); lost != m_lost.end()) {
        if (lost->second.seenBy)
            lost->second.back = true;
        else
            m_lost.erase(lost);
    }
    watchLine(member);
}

/// Given: from now on. Taken back: nobody looks any more; whoever had it in hand may still say what was done.
void Hall::mayRingChanged(const Member& member)
{
    if (member.agreements.mayRing)
        return watchLine(member);
    if (const auto lost = m_lost.find(member.id); lost == m_lost.end() || !lost->second.seenBy)
        keepLine([person = member.id](store::Tables& tables) { tables.lines.forget(person); });
}

/// The class is over: nobody is rung for a line any more, but what is in hand is finished.
void Hall::linesEnd()
{
    std::erase_if(m_lost, [](const auto& each) { return !each.second.seenBy; });
    keepLine([id = m_run.about().classId](store::Tables& tables) { tables.lines.forgetUnseen(id); });
}

/// Most come back before anybody need know.
bool Hall::isLost(const Lost& lost) const
{
    return lost.back || lost.seenBy || now() - lost.since >= wire::kLineLostAfter;
}

wire::LostLines Hall::lostLines() const
{
    wire::LostLines lines;
    for (const auto& [person, lost] : m_lost) {
        const Member* member = memberById(person);
        if (!member || !isLost(lost))
            continue;
        lines.lines.push_back({person, member->name, lost.since, member->agreements.mayRing,
                               lost.seenBy ? nameOfPerson(*lost.seenBy) : std::string(), lost.seenBy, lost.back});
    }
    std::stable_sort(lines.lines.begin(), lines.lines.end(),
                     [](const auto& a, const auto& b) { return a.since < b.since; });
    return lines;
}

void Hall::tellLostLines()
{
    const wire::LostLines lines = lostLines();
    std::string text = wire::encode(lines);
    if (text == m_lostTold || (m_lostTold.empty() && lines.lines.empty()))
        return;
    m_lostTold = std::move(text);
    tellThose([this](const Session& session) { return seesCalls(session); }, lines);
}

void Hall::on(Session& session, wire::LineDone& message)
{
    if (!seesCalls(session))
        return session.refuse(message.id, {"not-leader", "This is for helpers and whoever leads.", {}});
    const auto known = m_lost.find(message.person);
    if (known == m_lost.end() || !known->second.seenBy) {
        // Said before, and the answer was lost on the way: the same answer.
        return durably(
            session, message,
            [](store::Tables&) -> Result<wire::Ack> { return fail("not-now", "Nobody has this in hand.", "person"); },
            [] {});
    }
    durably(
        session, message,
        [group = m_group.id, by = session.member()->id, person = message.person,
         outcome = cleanLine(message.outcome, wire::kWhereLength).value_or(""),
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            tables.log.add({0, group, by, "contact-dealt-with", person, outcome, at, {}});
            tables.lines.forget(person);
            return wire::Ack{};
        },
        [self = shared_from_this(), person = message.person] {
            const Member* member = self->memberById(person);
            self->m_lost.erase(person); // away still: seen to, and not asked about again
            if (member)
                self->watchLine(*member);
            self->tellLostLines();
        });
}

void Hall::on(Session& session, wire::SetWhomToRing& message)
{
    const std::string text = cleanLine(message.text, wire::kWhereLength).value_or("");
    durably(
        session, message,
        [group = m_group.id, by = session.member()->id, text, at = now()](store::Tables& tables) -> Result<wire::Ack> {
            tables.lines.setWhomToRing(group, text, by, at);
            return wire::Ack{};
        },
        [self = shared_from_this(), text] {
            self->m_whomToRing = text;
            self->tellAll(wire::WhomToRing{0, text});
        });
}

} // namespace vh::hall
