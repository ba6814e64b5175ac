// LeadControl's part for the people.
#include "app/lead/lead_control.h"

#include <QClipboard>
#include <QGuiApplication>

namespace vh::lead
{

void LeadControl::bindPeople()
{
    LeadRoom* room = m_room;
    const auto then = [this](auto act) {
        return [this, act](auto... values) {
            act(m_model.hall(), values...);
            refresh();
        };
    };
    connect(room, &LeadRoom::seatRequested, this, then([](HallModel& hall, int seat) { hall.openSeat(seat); }));
    connect(room, &LeadRoom::seatCloseRequested, this, then([](HallModel& hall) { hall.closeSeat(); }));
    connect(room, &LeadRoom::coverRequested, this, then([](HallModel& hall) { hall.toggleCover(); }));
    connect(room, &LeadRoom::tableRequested, this, then([](HallModel& hall) { hall.toggleTable(); }));
    connect(room, &LeadRoom::worthWordRequested, this, &LeadControl::sendWorthWord);
    connect(room, &LeadRoom::ownWordRequested, this, &LeadControl::sendOwnWord);
    connect(room, &LeadRoom::bandRequested, this, &LeadControl::moveBand);
}

/// A link, for her to paste into a letter.
void LeadControl::handOut(const QString& link)
{
    QGuiApplication::clipboard()->setText(link);
    m_model.say(tr("The link is on the clipboard now. Paste it into a letter."), m_line.relayNow());
    refresh();
}

void LeadControl::send(const std::optional<wire::PrivateWord>& word)
{
    if (word)
        m_asked[m_line.ask(*word)] = {Asked::word, {}, word->person};
    refresh();
}

void LeadControl::moveBand(BandMove move)
{
    if (const auto band = m_model.hall().moveBand(move))
        m_asked[m_line.ask(*band)] = {Asked::band, {}, band->person};
    refresh();
}

} // namespace vh::lead
