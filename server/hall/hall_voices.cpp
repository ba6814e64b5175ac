// What homes say of their voices: readings, results of turns, and what comes of them for the leader.
#include "common/wire/binary.h"
#include "server/hall/hall_store.h"

#include <algorithm>
#include <cmath>

namespace vh::hall
{

namespace
{

bool canBe(const TurnResult& result)
{
    return wire::canBe(result.reading) && std::abs(result.around.leakDb) <= wire::kMostOverUsualDb; // false for NaN
}

/// A home may hear of the end of a turn this much late.
constexpr Millis kTurnSlack{2'000};

} // namespace

void Hall::reading(Session& session, std::span<const std::uint8_t> frame)
{
    Member& member = *session.member();
    const auto reading = wire::decodeReading(frame);
    if (!reading)
        return session.close(wire::CloseCode::policy, reading.error().message);
    // Dropped unless an agreement is on disk, the turn is on, and the rules are ours.
    if (!readingsGoUp(member.agreements) || !m_run.isOpen() || reading->turnSerial != m_run.state().turnSerial ||
        reading->judgeVersion != kJudgeVersion)
        return;
    member.reading = *reading;
    m_roster.touch(member.seat);
}

void Hall::on(Session& session, wire::TurnDone& message)
{
    Member& member = *session.member();
    const TurnResult& result = message.result;
    const ClassRun::Turn* turn = m_run.turnOf(message.classId, result.reading.turnSerial);
    if (!canBe(result))
        return session.refuse(message.id, {"result-impossible", "These numbers cannot be of one turn.", {}});
    const bool mayCome = resultsGoUp(member.agreements) && result.reading.judgeVersion == kJudgeVersion &&
                         (!turn || Millis{result.reading.elapsedMs} <= turn->length + kTurnSlack);
    wire::Ack ack;
    ack.id = message.id;
    if (!turn || !mayCome)
        return session.send(ack, m_log.end()); // nothing to keep and nothing to show
    judgeTurn(member, result, *turn);
    if (!member.agreements.resultsKept)
        return session.send(ack, m_log.end());
    store::TurnResultRow row;
    row.person = member.id;
    row.classId = m_run.about().classId;
    row.turnSerial = result.reading.turnSerial;
    row.sectionKind = nameOf(turn->section);
    row.voiced = Millis{result.reading.voicedMs};
    if (result.reading.voicedMs > 0)
        row.leqOverUsualTenthsDb = static_cast<int>(std::lround(result.reading.leqOverUsualDb * 10));
    row.standing = nameOf(member.judge.standing);
    row.blank = result.reading.reason == Blank::none
                    ? std::string()
                    : std::string(wire::WireNames<Blank>::kNames[static_cast<std::size_t>(result.reading.reason)]);
    row.judgeVersion = result.reading.judgeVersion;
    row.at = now();
    durably(
        session, message,
        [row](store::Tables& tables) -> Result<wire::Ack> {
            // The agreement may have been taken back while this waited.
            if (tables.agreements.valueOf(row.person, store::AgreementKind::resultsKept) == "yes")
                tables.results.put(row);
            return wire::Ack{};
        },
        [] {});
}

void Hall::judgeTurn(Member& member, const TurnResult& result, const ClassRun::Turn& turn)
{
    const JudgeState before = member.judge;
    member.judge = judge(member.judge, {result, turn.kind, turn.section, turn.length, member.bandOffsetDb});
    if (!readingsGoUp(member.agreements))
        return; // kept for themselves: no part of what anybody else is shown
    if (member.judge.lastTurnSerial != before.lastTurnSerial && turn.kind == TurnKind::yours) {
        member.story.add({turn.sectionIndex, turn.moreVoice, member.judge.judgedTurns != before.judgedTurns,
                          member.judge.standing, result.reading.leqOverUsualDb});
        m_overChanged = true;
        m_storyChanged = true;
        ++m_summary.judgedTurns;
        m_summary.easyTurns += member.judge.standing == Standing::inBand;
        m_summary.cantTellTurns += member.judge.standing == Standing::cantTell;
    }
    member.reading = result.reading;
    m_roster.touch(member.seat);
}

void Hall::tellWorth()
{
    if (!m_run.isOpen() || (!std::exchange(m_storyChanged, false) && m_worth.lines.empty()))
        return;
    std::vector<WorthCandidate> people;
    for (const auto& [id, member] : m_members)
        people.push_back(
            {id, member->seat, &member->agreements, &member->story, member->session != nullptr, member->resting});
    Worth next = worthNow(m_worth, people, now());
    const bool changed = next.lines != m_worth.lines;
    m_worth = std::move(next);
    if (changed)
        sendWorth(rolesOf(Role::leader));
}

void Hall::sendWorth(RoleSet roles, Session* only)
{
    wire::WorthNow worth;
    for (const WorthLine& line : m_worth.lines)
        worth.people.push_back({line.seat, line.person, line.reason, line.section, line.turns});
    if (only)
        only->send(worth, m_log.end());
    else
        tell(roles, worth);
}

void Hall::tellOver()
{
    if (!std::exchange(m_overChanged, false) || !m_over)
        return;
    m_over->judgedTurns = m_summary.judgedTurns;
    m_over->easyTurns = m_summary.easyTurns;
    m_over->cantTellTurns = m_summary.cantTellTurns;
    tell(rolesOf(Role::leader), *m_over);
}

} // namespace vh::hall
