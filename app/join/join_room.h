#pragma once
// The participant's room: shows one JoinView, and says what the person asks for. It changes nothing itself. GUI thread.
#include "app/join/join_view.h"

#include <QStackedWidget>

namespace vh::join
{

class AskPage;
class CheckPage;
class ClassPage;
class WaitPage;

class JoinRoom : public QStackedWidget
{
    Q_OBJECT
public:
    explicit JoinRoom(QWidget* parent = nullptr);
    void setState(const JoinView& view);

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
};

} // namespace vh::join
