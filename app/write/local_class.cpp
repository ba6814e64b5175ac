#include "app/write/local_class.h"

#include "common/live/class_lead.h"

namespace vh::write
{

LocalClass::LocalClass(std::shared_ptr<const ClassScript> script, Instant now)
    : m_script(std::move(script)), m_state(openClass(*m_script, 1, m_leader, {}, now))
{
    note(now);
}

wire::Welcome LocalClass::welcome(Instant now) const
{
    wire::Welcome welcome;
    welcome.now = now;
    welcome.person = m_leader;
    welcome.role = Role::standIn; // who leads without seeing people
    welcome.open = wire::ClassOpen{0, m_id, m_script->title, {}};
    welcome.place = place();
    return welcome;
}

wire::LeaseNow LocalClass::lease() const
{
    wire::LeaseNow lease;
    lease.lease = m_state.lease.epoch;
    lease.holder = m_leader;
    lease.mine = true;
    return lease;
}

wire::PlaceNow LocalClass::place() const
{
    wire::PlaceNow place;
    place.classId = m_id;
    place.revision = m_state.revision;
    place.serial = m_state.serial;
    place.turnSerial = m_state.turnSerial;
    place.phase = m_state.phase;
    place.place = m_state.place;
    place.startedAt = m_state.startedAt;
    place.turnStartedAt = m_state.turnStartedAt;
    place.turnSpent = m_state.turnSpent;
    place.turnLength = m_state.turnLength;
    place.line = homeLine(m_state);
    place.lease = m_state.lease.epoch;
    return place;
}

std::optional<Error> LocalClass::press(const wire::Lead& lead, Instant now)
{
    const Outcome outcome = apply(*m_script, m_state, {lead.command, m_leader, lead.lease, lead.serial}, now);
    m_state = outcome.state;
    note(now);
    if (outcome.refusal == Refusal::none)
        return {};
    const char* const code = outcome.refusal == Refusal::notNow ? "not-now" : "old-place";
    return Error{code, "That press made no sense just then.", {}};
}

bool LocalClass::tick(Instant now)
{
    const std::uint32_t before = m_state.serial;
    m_state = leaderSeen(*m_script, m_state, m_leader, now);
    note(now);
    return m_state.serial != before;
}

void LocalClass::note(Instant now)
{
    // A turn begins when the one before was over, however late the clock is looked at.
    const bool byClock = m_state.phase == Phase::running && m_state.pressedSerial != m_state.serial;
    const Instant at = m_state.endedAt ? *m_state.endedAt : byClock ? m_state.turnStartedAt : now;
    vh::note(m_trace, {at, m_state.phase, m_state.place});
}

} // namespace vh::write
