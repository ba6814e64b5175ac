#pragma once
// The participant's room: shows one JoinView, and says what the person asks for. It changes nothing itself. GUI thread.
#include "app/join/join_view.h"

#include <QStackedWidget>

namespace vh::join
{

class AskPage;
class CheckPage;
class ChoicesPage;
class ClassPage;
class ScreenGuard;
class WaitPage;

class JoinRoom : public QStackedWidget
{
    Q_OBJECT
public:
    explicit JoinRoom(QWidget* parent = nullptr);
    void setState(const JoinView& view);
    /// Tests hand in theirs; it must outlive the room.
    void setClock(const Clock& clock);

signals:
    void submitRequested(const QStringList& fields);
    void choiceRequested(int choice);
    void backRequested();
    void waitButtonRequested();
    void checkPressed(vh::join::CheckPress press);
    void deviceRequested(int device);
    void helpRequested();
    void helloRequested();
    void writeRequested();
    void choicesRequested();
    void privateRequested();
    void leaveRequested();
    void noticeRequested(vh::join::NoticeAction action);
    void pickRequested(int row, int answer);
    void undoRequested();
    void moreRequested();

private:
    AskPage* m_ask;
    WaitPage* m_wait;
    CheckPage* m_check;
    ChoicesPage* m_choices;
    ClassPage* m_class;
    ScreenGuard* m_guard;
    QString m_heading; ///< of the screen that is shown
};

} // namespace vh::join
