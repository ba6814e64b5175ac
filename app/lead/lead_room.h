#pragma once
// The leader's room: choose a class, let people in, lead it, see how it went. Becomes the LeadView it is given; what a
// person presses goes out as a request and changes nothing here. In class everything goes by keyboard and clicker:
// go on Space, Enter, Right, Page Down; back Left, Page Up; O once more, W wait and resume, S skip, T take the place,
// F the group's window, Shift+F fills its display, Shift+D moves it to the next one; L hall or table, C covers the
// hall, 1 to 3 a private word; J the steps to jump to, X ten seconds more for this turn, I what to leave out to end on
// time, E the text of this step to be corrected; M mutes and opens her voice, B rings the bell, R plays and stops the
// recording, V asks whoever's seat is open to be heard by all, and ends it; 7 to 9 take a question of the tray, N what
// needs a clinician, D shows the sheet of the desk; P shows a picture to all and takes it away, Shift+P puts it away
// unseen. While a call for help fills the screen H takes it and A sets it aside. Esc closes an open seat and ends
// nothing. GUI thread.
#include "app/lead/lead_view.h"
#include "common/live/class_moves.h"

#include <QWidget>

class QStackedLayout;

namespace vh::lead
{

class ChoosePage;
class ReadyPage;
class ClassPage;
class OverPage;
class SoundCheckPage;

class LeadRoom : public QWidget
{
    Q_OBJECT
public:
    explicit LeadRoom(QWidget* parent = nullptr);
    void setState(const LeadView& view);

signals:
    void fileRequested(const QString& path);
    void papersRequested();
    void otherFileRequested();
    void openClassRequested();
    void commandRequested(vh::CommandKind command);
    /// Each press of "End": the first arms it, the second ends.
    void endRequested();
    /// In mid-class: a jump, more time, steps left out, a correction; or the sheet for it.
    void changeRequested(const vh::lead::ChangeRequest& request);
    /// What the desk has for her, and what she lets it do.
    void deskRequested(const vh::lead::DeskRequest& request);
    void pictureShowRequested(quint64 item, bool on);
    void pictureDoneRequested(quint64 item);
    void takePlaceRequested();
    void inviteRequested(vh::Role role);
    void copyRequested(const QString& text);
    void callTakeRequested(quint64 call);
    void callDoneRequested(quint64 call, const QString& outcome);
    void callAsideRequested(quint64 call);
    void lookRequested(const vh::PersonId& person);
    void lineDoneRequested(const vh::PersonId& person, const QString& outcome);
    void whomToRingRequested(const QString& text);
    void letInRequested(quint64 door);
    void turnAwayRequested(quint64 door);
    void groupWindowRequested();
    void groupWindowFillRequested();
    void groupWindowMoveRequested();
    void soundCheckRequested();
    void soundCheckCloseRequested();
    void seatRequested(int seat);
    void seatCloseRequested();
    void tableRequested();
    void coverRequested();
    void worthWordRequested(int line);
    void ownWordRequested(int which);
    void bandRequested(vh::lead::BandMove move);
    void inviteToSpeakRequested();
    void guestEndRequested();
    void muteRequested();
    void bellRequested();
    void recordingRequested();
    /// Before class: which way her voice goes; a file to play in class; none of it.
    void wayRequested(vh::lead::VoiceWay way);
    void recordingFileRequested();
    void recordingDropRequested();
    void anotherClassRequested();
    void leaveRequested();

private:
    void bindCalls();
    void makeShortcuts();
    QStackedLayout* m_pages;
    ChoosePage* m_choose;
    ReadyPage* m_ready;
    ClassPage* m_class;
    OverPage* m_over;
    SoundCheckPage* m_check;
    CallScreen* m_callScreen; ///< over all of them
};

} // namespace vh::lead
