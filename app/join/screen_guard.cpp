#include "app/join/screen_guard.h"

#include <QAbstractButton>
#include <QApplication>
#include <QKeyEvent>
#include <QWidget>

namespace vh::join
{

namespace
{

const Clock& machineClock()
{
    static const SystemClock clock;
    return clock;
}

bool isPress(const QObject* watched, const QEvent* event)
{
    switch (event->type()) {
    case QEvent::MouseButtonPress:
    case QEvent::MouseButtonDblClick:
    case QEvent::TouchBegin:
        return true;
    case QEvent::KeyPress: {
        const int key = static_cast<const QKeyEvent*>(event)->key();
        return key == Qt::Key_Return || key == Qt::Key_Enter ||
               (key == Qt::Key_Space && qobject_cast<const QAbstractButton*>(watched));
    }
    default:
        return false;
    }
}

} // namespace

ScreenGuard::ScreenGuard(QWidget& room) : QObject(&room), m_room(room), m_clock(&machineClock())
{
    qApp->installEventFilter(this);
}

void ScreenGuard::screenChanged()
{
    m_guarding = true;
    (void)m_filter.accept(m_clock->now());
}

bool ScreenGuard::eventFilter(QObject* watched, QEvent* event)
{
    if (!m_guarding || !isPress(watched, event))
        return false;
    const auto* widget = qobject_cast<const QWidget*>(watched);
    if (!widget || !m_room.isAncestorOf(widget))
        return false;
    m_guarding = !m_filter.accept(m_clock->now());
    return m_guarding;
}

} // namespace vh::join
