// LeadControl's part for pictures that people sent: those that wait for the group's window, and the one that all see.
#include "app/lead/lead_control.h"

namespace vh::lead
{

void LeadControl::bindPictures()
{
    const LeadRoom* room = m_room;
    connect(room, &LeadRoom::pictureShowRequested, &m_waiting, &pictures::WindowWaiting::show);
    connect(room, &LeadRoom::pictureDoneRequested, &m_waiting, &pictures::WindowWaiting::done);
    connect(&m_waiting, &pictures::WindowWaiting::refused, this, &LeadControl::say);
    connect(&m_waiting, &pictures::WindowWaiting::changed, this, [this] { refresh(); });
    connect(&m_window, &pictures::WindowNow::changed, this, [this] { refresh(); });
}

/// The first one comes between two turns, as what the desk has for her does: nothing moves under her eyes. Behind a
/// covered hall there is no name.
void LeadControl::showPictures()
{
    const DeskNews::Turn turn = m_model.turnNow();
    const bool mayCome = turn.calm || turn != m_stripTurn || m_strip.item != 0;
    m_stripTurn = turn;
    const pictures::WindowStripView waiting = m_waiting.view();
    m_strip = mayCome ? waiting : pictures::WindowStripView{};
    m_view.waiting = m_view.hall.covered ? pictures::WindowStripView{} : m_strip;
    m_view.shown = m_window.shown();
}

} // namespace vh::lead
