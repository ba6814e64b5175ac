#pragma once
// In class: the script in one column under the lens, its keys, the people beside it, the whole class along the foot.
// A stand-in's has no people. Keys: lead_room.h. While another window has the keyboard a large sign says so; the
// group's window and this program's own dialogs are no other window. Nothing here is pressed by accident: the mouse
// does not leave the keyboard's focus behind on a button, so Space always goes on unless somebody tabbed elsewhere.
// Part of LeadRoom. GUI thread.
#include "app/lead/lead_view.h"
#include "common/live/class_moves.h"

class QLabel;

namespace vh
{
class BigButton;
}

namespace vh::pictures
{
class WindowStrip;
}

namespace vh::lead
{

class ChangesSheet;
class ClassHead;
class DeepSign;
class DeskSheet;
class DeskTray;
class HallSide;
class ScriptColumn;

class ClassPage : public QWidget
{
    Q_OBJECT
public:
    explicit ClassPage(QWidget* parent);
    void setState(const LeadView& view);

signals:
    void commandRequested(vh::CommandKind command);
    void endRequested();
    void changeRequested(const vh::lead::ChangeRequest& request);
    void deskRequested(const vh::lead::DeskRequest& request);
    /// A picture for the group's window: shown to all or no longer; not wanted.
    void pictureShowRequested(quint64 item, bool on);
    void pictureDoneRequested(quint64 item);
    void takePlaceRequested();
    void callTakeRequested(quint64 call);
    void callDoneRequested(quint64 call, const QString& outcome);
    void lookRequested(const vh::PersonId& person);
    void lineDoneRequested(const vh::PersonId& person, const QString& outcome);
    void letInRequested(quint64 door);
    void turnAwayRequested(quint64 door);
    void groupWindowRequested();
    void seatRequested(int seat);
    void seatCloseRequested();
    void tableRequested();
    void coverRequested();
    void worthWordRequested(int line);
    void ownWordRequested(int which);
    void bandRequested(vh::lead::BandMove move);
    void inviteRequested();
    void guestEndRequested();
    void muteRequested();
    void bellRequested();
    void recordingRequested();
    /// Only somebody who does not hold the place leaves in mid-class by a button.
    void leaveRequested();

protected:
    void keyPressEvent(QKeyEvent* event) override;
    bool event(QEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    ClassHead* makeHead();
    QWidget* makeKeys();
    void makePeople();
    void makeChanges();
    void makeDesk();
    void placeSheets();
    void fitSpaces();
    BigButton* makeKey(const QString& words, const QString& hint, QWidget* parent);
    void makeShortcuts();
    void request(CommandKind command);
    void ask(ChangeRequest::Kind kind);
    void waitOrResume();
    void tellKeyboard();

    bool m_waits = false;
    bool m_holds = false;
    bool m_hasPeople = true;
    bool m_hasGuest = false;

    ClassHead* m_head;
    ScriptColumn* m_column;

    QWidget* m_keys;
    QWidget* m_following;
    QLabel* m_holder;
    BigButton* m_take;
    BigButton* m_wait;
    BigButton* m_goOn;
    DeepSign* m_keyboard;

    CallList* m_calls;
    HallSide* m_people;
    ChangesSheet* m_changes;
    DeskSheet* m_desk;
    DeskTray* m_tray;
    pictures::WindowStrip* m_pictures; ///< beside it
    QWidget* m_aside;                  ///< room for the changes where there are no people
    ScriptRail* m_rail;
};

} // namespace vh::lead
