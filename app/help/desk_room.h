#pragma once
// The helper's desk: what is to read, the board, the door, calls for help above everything, a line to all, who is here.
// Becomes the DeskView it is given; presses go out as requests. In the list of what is to read 1 lets a line onto the
// board and 2 sets it aside, only while that list has the focus (WCAG 2.2, 2.1.4). GUI thread.
#include "app/help/desk_view.h"

#include <QWidget>

class QLabel;
class QLineEdit;

namespace vh
{
class BigButton;
}

namespace vh::help
{

class DeskRoom : public QWidget
{
    Q_OBJECT
public:
    explicit DeskRoom(QWidget* parent = nullptr);
    void setState(const DeskView& view);

signals:
    void showRequested(quint64 item);
    void setAsideRequested(quint64 item);
    void letInRequested(quint64 door);
    void turnAwayRequested(quint64 door);
    void callTakeRequested(quint64 call);
    void callDoneRequested(quint64 call, const QString& outcome);
    void lookRequested(const vh::PersonId& person);
    void lineDoneRequested(const vh::PersonId& person, const QString& outcome);
    void noticeRequested(const QString& text);
    void attendRequested(const QString& name);
    void leaveRequested();

protected:
    void showEvent(QShowEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;

private:
    QWidget* makeHead();
    QWidget* makeToRead();
    QWidget* makeBoard();
    QWidget* makePeople();
    void decide(int digit, quint64 item);

    QLabel* m_title;
    QLabel* m_classLine;
    NoticeLine* m_notice;
    CallList* m_calls;
    LostList* m_lostLines;
    QLabel* m_toReadHead;
    CardList* m_toRead;
    BigButton* m_show;
    BigButton* m_aside;
    CardList* m_board;
    QLineEdit* m_say;
    DoorList* m_door;
    QLabel* m_here;
    QLabel* m_lost;
    QLabel* m_names;
    QLineEdit* m_byHandName;
    QLabel* m_byHand;
};

} // namespace vh::help
