// LeadControl's part for calls for help and lost lines.
#include "app/lead/lead_control.h"

#include <QApplication>

namespace vh::lead
{

void LeadControl::bindCalls()
{
    LeadRoom* room = m_room;
    const auto ask = [this](auto message) { m_asked[m_line.ask(std::move(message))] = {Asked::other}; };
    connect(room, &LeadRoom::callTakeRequested, this, [ask](quint64 call) { ask(wire::HelpTake{{}, call}); });
    connect(room, &LeadRoom::callDoneRequested, this, [ask](quint64 call, const QString& outcome) {
        ask(wire::HelpDone{{}, call, outcome.toStdString()});
    });
    connect(room, &LeadRoom::callAsideRequested, this, [this](quint64 call) {
        m_model.calls().setAside(call);
        refresh();
    });
    connect(room, &LeadRoom::lookRequested, this, [ask](const PersonId& person) {
        ask(wire::ContactAsk{{}, person, wire::Because::lineLost});
    });
    connect(room, &LeadRoom::lineDoneRequested, this, [ask](const PersonId& person, const QString& outcome) {
        ask(wire::LineDone{{}, person, outcome.toStdString()});
    });
    connect(room, &LeadRoom::whomToRingRequested, this, [ask](const QString& text) {
        ask(wire::SetWhomToRing{{}, text.toStdString()});
    });
}

/// A call rings as it comes, and again and again while nobody has it; for one that fills the screen the contact is
/// asked for, but not while the hall is covered: it would be seen by whom it is covered from.
void LeadControl::lookAfterCalls()
{
    const Instant now = m_line.relayNow();
    if (m_model.calls().rings(RingsFor::leader, now)) {
        m_sound.ringForCall();
        if (m_room)
            QApplication::alert(m_room->window());
    }
    if (m_model.hall().covered() || !m_model.isUp())
        return;
    if (const auto look = m_model.calls().contactToAsk(now))
        m_asked[m_line.ask(*look)] = {Asked::other};
}

} // namespace vh::lead
