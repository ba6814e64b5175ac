#pragma once
// The participant's room: shows one JoinView, and says what the person asks for. It changes nothing itself. GUI thread.
#include "app/join/join_view.h"

#include <QStackedWidget>

namespace vh::join
{

class AskPage;
class CheckPage;
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
    void checkGoOnRequested();
    void checkSkipRequested();
    void deviceRequested(int device);
    void helpRequested();
    void writeRequested();
    void agreementsRequested();
    void privateRequested();
    void leaveRequested();

private:
    AskPage* m_ask;
    WaitPage* m_wait;
    CheckPage* m_check;
    ClassPage* m_class;
    ScreenGuard* m_guard;
    QString m_heading; ///< of the screen that is shown
};

} // namespace vh::join
