#pragma once
// The program's one window: the first screen, and the room that was chosen. Makes each room's line, sound and control
// when it is entered and takes them down when it is left. GUI thread.
#include "app/first_room.h"
#include "app/help/desk_control.h"
#include "app/join/ask_page.h"
#include "app/join/join_control.h"
#include "app/join/wait_page.h"
#include "app/lead_days.h"
#include "app/look/look.h"
#include "app/write/own_pace.h"
#include "app/write/write_control.h"

#include <QStackedWidget>
#include <QTimer>

namespace vh
{

struct ProgramSetup {
    const Clock* clock = nullptr;
    QString folder; ///< the profile: who has joined, keys, usual levels
    sound::DeviceChoice sound = sound::DeviceChoice::standardDevice();
    sound::DeviceChoice loudspeaker = sound::DeviceChoice::standardDevice();
    QString classes;    ///< folder of the classes that come with the program
    QString ownClasses; ///< the leader's own, made when she writes the first; empty: in `folder`
    QString cache;      ///< folder of what can be made anew; empty: nothing is kept there
    bool plain = false;
};

class Program : public QStackedWidget
{
    Q_OBJECT
public:
    explicit Program(ProgramSetup setup, QWidget* parent = nullptr);
    ~Program() override;

    void toFirst();
    void join(const QString& link, const QString& name);
    /// A one-time link for leading or helping; the role comes with it.
    void redeem(const QString& link, const QString& name);
    void enter(const link::Membership& membership);
    /// The room in which classes are written; needs no group and no relay.
    void write();

    /// The control of the room that is open, or null.
    [[nodiscard]] join::JoinControl* joinControl() { return m_join.get(); }
    [[nodiscard]] lead::LeadControl* leadControl() { return m_room && m_lead ? m_lead.get() : nullptr; }
    [[nodiscard]] help::DeskControl* deskControl() { return m_room && m_desk ? m_desk.get() : nullptr; }
    [[nodiscard]] write::WriteControl* writeControl() { return m_write.get(); }
    /// Of the leader's or helper's room; null in the participant's.
    [[nodiscard]] link::Line* workLine() { return m_line.get(); }

protected:
    void closeEvent(QCloseEvent* event) override;

private:
    void wear(const look::Look& look);
    void askForLink(const QString& heading, const QString& link, const QString& name, const QString& notice);
    void openWorkLine(const link::Entry& entry);
    void workLineIsIn(const wire::Welcome& welcome);
    void sayOnTheWay(const QString& words);
    void showRoom(QWidget* room);
    void leaveRoom();

    ProgramSetup m_setup;
    link::Memberships m_memberships;
    std::unique_ptr<link::KeyBox> m_keys;
    FirstRoom* m_first;
    join::AskPage* m_ask;
    join::WaitPage* m_wait; ///< on the way to the leader's or helper's room
    QTimer m_noAnswer;      ///< by then an address usually has answered
    QString m_heading;      ///< of the question for a link

    std::unique_ptr<join::JoinRoom> m_joinRoom;
    std::unique_ptr<join::JoinControl> m_join;
    std::unique_ptr<link::Line> m_line; ///< leader's or helper's
    std::unique_ptr<sound::Ears> m_ears;
    std::unique_ptr<lead::LeadControl> m_lead;
    std::unique_ptr<help::DeskControl> m_desk;
    write::ClassLibrary m_library;
    write::OwnPaceBook m_pace;
    std::unique_ptr<LeadDays> m_days; ///< with the leader's room
    std::unique_ptr<write::WriteControl> m_write;
    QWidget* m_room = nullptr;
};

} // namespace vh
