#pragma once
// The right side of the helper's desk: who waits at the door, who is here and whose line is lost, and who only phoned
// in. GUI thread.
#include "app/people/door_list.h"

class QLabel;
class QLineEdit;

namespace vh::help
{

struct DeskView;

class PeopleColumn : public QWidget
{
    Q_OBJECT
public:
    explicit PeopleColumn(QWidget* parent = nullptr);
    void setState(const DeskView& view);

signals:
    void letInRequested(quint64 door);
    void turnAwayRequested(quint64 door);
    void attendRequested(const QString& name);

private:
    QWidget* makeNames();
    QWidget* makeByHand();

    DoorList* m_door = nullptr;
    QLabel* m_here = nullptr;
    QLabel* m_lost = nullptr;
    QLabel* m_names = nullptr;
    QLabel* m_byHand;
    QLineEdit* m_byHandName = nullptr;
};

} // namespace vh::help
