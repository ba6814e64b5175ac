#pragma once
// The leader's room: choose a class, let people in, lead it, see how it went. Becomes the LeadView it is given; what a
// person presses goes out as a request and changes nothing here. In class everything goes by keyboard and clicker:
// go on Space, Enter, Right, Page Down; back Left, Page Up; O once more, W wait and resume, S skip, T take the place,
// F the group's window. Esc does nothing. GUI thread.
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

class LeadRoom : public QWidget
{
    Q_OBJECT
public:
    explicit LeadRoom(QWidget* parent = nullptr);
    void setState(const LeadView& view);

signals:
    void fileRequested(const QString& path);
    void otherFileRequested();
    void openClassRequested();
    void commandRequested(vh::CommandKind command);
    /// Each press of "End": the first arms it, the second ends.
    void endRequested();
    void takePlaceRequested();
    void inviteRequested(vh::Role role);
    void copyRequested(const QString& text);
    void callTakeRequested(quint64 call);
    void callDoneRequested(quint64 call, const QString& outcome);
    void letInRequested(quint64 door);
    void turnAwayRequested(quint64 door);
    void groupWindowRequested();
    void anotherClassRequested();
    void leaveRequested();

private:
    QStackedLayout* m_pages;
    ChoosePage* m_choose;
    ReadyPage* m_ready;
    ClassPage* m_class;
    OverPage* m_over;
};

} // namespace vh::lead
