#include "server/hall/class_run.h"

#include <algorithm>

namespace vh::hall
{

ClassRun::ClassRun(net::Loop& loop, const Clock& clock, std::function<void()> changed)
    : m_loop(loop), m_clock(clock), m_changed(std::move(changed))
{
}

void ClassRun::open(wire::ClassOpen about, std::shared_ptr<const ClassScript> script, const ClassState& state,
                    const std::vector<ClassState>& before)
{
    m_about = std::move(about);
    m_script = std::move(script);
    m_turns.clear();
    for (const ClassState& each : before)
        note(each);
    m_state = state;
    // What became due while nobody was here, turn by turn.
    for (auto due = nextChangeAt(m_state); due && *due <= m_clock.now(); due = nextChangeAt(m_state)) {
        note(m_state);
        m_state = tick(*m_script, m_state, *due);
    }
    note(m_state);
    wait();
    m_changed();
}

void ClassRun::close()
{
    m_timer.cancel();
    m_script.reset();
}

const ClassRun::Turn* ClassRun::turnOf(const ClassId& id, std::uint32_t turnSerial) const
{
    if (id != m_about.classId)
        return nullptr;
    const auto found =
        std::find_if(m_turns.rbegin(), m_turns.rend(), [&](const Turn& turn) { return turn.serial == turnSerial; });
    return found == m_turns.rend() ? nullptr : &*found;
}

void ClassRun::catchUp()
{
    become(tick(*m_script, m_state, m_clock.now()));
}

Outcome ClassRun::lead(const Command& command)
{
    Outcome outcome = apply(*m_script, m_state, command, m_clock.now());
    become(outcome.state);
    return outcome;
}

void ClassRun::leading(PersonId who, std::uint32_t lease)
{
    if (lease == m_state.lease.epoch)
        become(leaderSeen(*m_script, m_state, who, m_clock.now()));
}

Outcome ClassRun::take(PersonId who, Role role)
{
    Outcome outcome = takePlace(*m_script, m_state, who, role, m_clock.now());
    become(outcome.state);
    return outcome;
}

Outcome ClassRun::reassert(PersonId who, std::uint32_t lease, const Seen& seen)
{
    Outcome outcome = vh::reassert(*m_script, m_state, who, lease, seen, m_clock.now());
    become(outcome.state);
    return outcome;
}

Outcome ClassRun::revise(const Revision& revision, const std::shared_ptr<const ClassScript>& script,
                         const std::vector<wire::Hash>& parts)
{
    Outcome outcome = vh::revise(*m_script, *script, m_state, revision, m_clock.now());
    if (outcome.moved) {
        m_script = script;
        m_about.parts = parts;
    }
    become(outcome.state);
    return outcome;
}

void ClassRun::become(const ClassState& state)
{
    const bool changed = state.serial != m_state.serial || state.lease.epoch != m_state.lease.epoch ||
                         state.silentSince.has_value() != m_state.silentSince.has_value();
    m_state = state;
    note(state);
    wait();
    if (changed)
        m_changed();
}

/// Remembers the turn of this state, if it is another one than the last; of the same one how long it is by now.
void ClassRun::note(const ClassState& state)
{
    if (!m_turns.empty() && m_turns.back().serial == state.turnSerial) {
        m_turns.back().length = state.turnLength;
        return;
    }
    const auto at = turnAt(*m_script, state.place);
    if (!at)
        return;
    m_turns.push_back({state.turnSerial, at->turn->kind, at->section->kind, state.turnLength,
                       static_cast<std::uint32_t>(state.place.section), at->round->moreVoice});
    if (m_turns.size() > kTurnsKept)
        m_turns.pop_front();
}

void ClassRun::wait()
{
    const auto next = nextChangeAt(m_state);
    if (!next)
        return m_timer.cancel();
    const Millis left = std::max(Millis{0}, *next - m_clock.now());
    const std::chrono::duration<double, std::milli> wait = left / m_clock.speed();
    m_timer = m_loop.after(std::chrono::ceil<Millis>(wait), [this] { catchUp(); });
}

} // namespace vh::hall
