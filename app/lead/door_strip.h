#pragma once
// Whoever waits at the door during class, one at a time: the name, the four words to compare, and three presses.
// "Later" puts it away until somebody else knocks. Part of HallSide. GUI thread.
#include "app/people/door_list.h"

#include <QFrame>

class QLabel;

namespace vh::lead
{

class DoorStrip : public QFrame
{
    Q_OBJECT
public:
    explicit DoorStrip(QWidget* parent);
    /// Hides itself where nobody waits, or the one who does was put away.
    void setState(const DoorList::State& door);

signals:
    void letInRequested(quint64 door);
    void turnAwayRequested(quint64 door);

private:
    DoorList::State m_state;
    std::uint64_t m_shown = 0;
    std::uint64_t m_later = 0; ///< the newest that was there when "later" was pressed
    QLabel* m_who;
    QLabel* m_words;
};

} // namespace vh::lead
