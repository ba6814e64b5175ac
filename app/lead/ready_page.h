#pragma once
// The class is open and people are coming: how they get in, who is here, the door, and the press that starts it. Part
// of LeadRoom. GUI thread.
#include "app/lead/lead_view.h"

class QLabel;
class QVBoxLayout;

namespace vh
{
class BigButton;
}

namespace vh::lead
{

class ClinicianStrip;
class DeskSheet;
class OneLine;
class WayInSheet;
class WhomToRing;

class ReadyPage : public QWidget
{
    Q_OBJECT
public:
    explicit ReadyPage(QWidget* parent);
    void setState(const LeadView& view);

signals:
    void startRequested();
    void deskRequested(const vh::lead::DeskRequest& request);
    void takePlaceRequested();
    void papersRequested();
    void inviteRequested(vh::Role role);
    void copyRequested(const QString& text);
    void callTakeRequested(quint64 call);
    void callDoneRequested(quint64 call, const QString& outcome);
    void whomToRingRequested(const QString& text);
    void letInRequested(quint64 door);
    void turnAwayRequested(quint64 door);
    void groupWindowRequested();
    void groupWindowFillRequested();
    void groupWindowMoveRequested();
    void soundCheckRequested();
    void muteRequested();
    void leaveRequested();

protected:
    void showEvent(QShowEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    QWidget* makeHead();
    QWidget* makePeople();
    QWidget* makeFoot();
    void makeDesk();
    void setDesk(const LeadView& view);
    void askDesk(DeskRequest::Kind kind, quint64 item = 0);

    OneLine* m_title;
    OneLine* m_group;
    LevelBar* m_level;
    BigButton* m_check;
    BigButton* m_groupWindow;
    BigButton* m_fill;
    BigButton* m_move;
    NoticeLine* m_notice;
    WayInSheet* m_wayIn;
    QWidget* m_side; ///< the people; the sheet of the desk stands over it
    CallList* m_calls;
    ClinicianStrip* m_clinician;
    WhomToRing* m_whomToRing;
    QLabel* m_here;
    BigButton* m_desk;
    DeskSheet* m_deskSheet;
    DeskNewsView m_news;
    DoorList* m_door;
    QWidget* m_caution;
    BigButton* m_take;
    BigButton* m_mute;
    BigButton* m_start;
};

} // namespace vh::lead
