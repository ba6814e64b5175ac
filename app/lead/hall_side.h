#pragma once
// The people's side of the class page: how many are easy to hear, the hall or its table, worth a word; over it, where
// something cannot wait, calls for help, what needs a clinician and the door, so that the hall never moves. One seat
// opened takes its place for a while; covered, nothing of anybody is left. Part of ClassPage. GUI thread.
#include "app/lead/lead_view.h"

class QStackedLayout;

namespace vh
{
class BigButton;
class HallView;
class SeatTable;
} // namespace vh

namespace vh::lead
{

class ClinicianStrip;
class CoverSheet;
class DoorStrip;
class OneLine;
class SeatPanel;
class WordFlow;
class WorthBox;

class HallSide : public QWidget
{
    Q_OBJECT
public:
    explicit HallSide(QWidget* parent);
    void setState(const LeadView& view);
    /// A number key: a word of the open seat, or of a line of worth a word. `key`: 1 ... 9.
    void pressNumber(int key);
    /// The key of what needs a clinician.
    void pressClinician();
    /// Where the keyboard belongs when a seat was closed.
    void focusPeople();
    /// As far down as nothing urgent stands at the foot.
    [[nodiscard]] int freeHeight() const;

signals:
    void seatRequested(int seat);
    void seatCloseRequested();
    void tableRequested();
    void worthWordRequested(int line);
    void ownWordRequested(int which);
    void bandRequested(vh::lead::BandMove move);
    void inviteRequested();
    void guestEndRequested();
    void callTakeRequested(quint64 call);
    void callDoneRequested(quint64 call, const QString& outcome);
    void clinicianTakeRequested(quint64 item);
    void lookRequested(const vh::PersonId& person);
    void lineDoneRequested(const vh::PersonId& person, const QString& outcome);
    void letInRequested(quint64 door);
    void turnAwayRequested(quint64 door);
    void freeHeightChanged();

protected:
    bool event(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    QWidget* makePeople();
    QWidget* makeGuest();
    void setGuest(const GuestState& guest);
    void setCounts(const HallState& hall);
    void setUrgent(const LeadView& view);
    void placeUrgent();

    QStackedLayout* m_pages;
    QWidget* m_people;
    QStackedLayout* m_heads; ///< the counts, or whoever is asked to be heard by all
    WordFlow* m_counts;
    QWidget* m_guest;
    OneLine* m_guestWords;
    BigButton* m_guestPress;
    BigButton* m_table;
    QStackedLayout* m_twins;
    HallView* m_hall;
    SeatTable* m_seats;
    WorthBox* m_worth;
    SeatPanel* m_panel;
    CoverSheet* m_cover;
    QWidget* m_urgent; ///< over the foot of this side
    CallList* m_calls;
    ClinicianStrip* m_clinician;
    LostList* m_lostLines;
    DoorStrip* m_door;
    bool m_panelOpen = false;
};

} // namespace vh::lead
