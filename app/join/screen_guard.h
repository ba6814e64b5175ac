#pragma once
// Keeps a trembling press that meant the screen before from answering the one that has just appeared: presses within
// 400 ms of the change, and those that follow each other as closely, are swallowed (PressFilter). Mouse, touch, Enter,
// and Space on a button; typing is left alone. Lives with the room it guards. GUI thread.
#include "app/widgets/press_filter.h"

#include <QObject>

class QWidget;

namespace vh::join
{

class ScreenGuard : public QObject
{
    Q_OBJECT
public:
    explicit ScreenGuard(QWidget& room);
    /// Another screen has appeared.
    void screenChanged();
    /// Tests hand in theirs; it must outlive the room.
    void setClock(const Clock& clock) { m_clock = &clock; }

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    QWidget& m_room;
    const Clock* m_clock;
    PressFilter m_filter;
    bool m_guarding = false;
};

} // namespace vh::join
