// The hall by keyboard and pointer: which seat has the focus, what is asked of it, how near one looks.
#include "app/widgets/hall_access.h"
#include "app/widgets/hall_view.h"

#include <QAccessible>
#include <QHelpEvent>
#include <QKeyEvent>
#include <QToolTip>

#include <algorithm>
#include <cmath>

namespace vh
{

int HallView::firstTaken() const
{
    const auto found = std::find_if(m_rowOf.begin(), m_rowOf.end(), [](int row) { return row >= 0; });
    return found == m_rowOf.end() ? -1 : static_cast<int>(found - m_rowOf.begin());
}

void HallView::setFocusPlace(int place)
{
    if (!rowAt(place) || place == m_focus)
        return;
    m_focus = place;
    scrollTo(place);
    tellFocus();
    update();
}

void HallView::tellFocus()
{
    if (!hasFocus() || m_focus < 0)
        return;
    QAccessibleEvent moved(this, QAccessible::Focus);
    moved.setChild(childOf(*this, m_focus));
    QAccessible::updateAccessibility(&moved);
}

void HallView::requestPlace(int place)
{
    if (const SeatRow* row = rowAt(place))
        emit seatRequested(row->seat);
}

/// To the next taken seat that way.
void HallView::moveFocus(QPoint step)
{
    if (m_focus < 0)
        return setFocusPlace(firstTaken());
    const QSize grid = m_layout.grid();
    for (QPoint at = m_layout.gridOf(m_focus) + step; QRect(QPoint(), grid).contains(at); at += step)
        if (const int place = m_layout.placeAtGrid(at); rowAt(place))
            return setFocusPlace(place);
}

void HallView::setZoom(int zoom)
{
    const int wanted = m_layout.inBlocks() ? std::clamp(zoom, 0, HallLayout::kZooms - 1) : 0;
    if (wanted == m_zoom)
        return;
    m_zoom = wanted;
    layOut();
    scrollTo(m_focus >= 0 ? m_focus : m_hover >= 0 ? m_hover : firstTaken());
}

void HallView::scrollTo(int place)
{
    if (place < 0)
        return;
    const QSize room = roomForSeats();
    const QRect seat = m_layout.rectOf(place);
    const QSize over = (m_layout.content() - room).expandedTo(QSize(0, 0));
    if (over.isEmpty() && over.width() == 0 && over.height() == 0)
        return;
    QPoint to = m_scroll;
    if (!QRect(m_scroll, room).contains(seat.adjusted(-2, -2, 2, 2)))
        to = seat.center() - QPoint(room.width() / 2, room.height() / 2);
    to = QPoint(std::clamp(to.x(), 0, over.width()), std::clamp(to.y(), 0, over.height()));
    if (to == m_scroll)
        return;
    m_scroll = to;
    m_stale = true;
    update();
}

void HallView::keyPressEvent(QKeyEvent* event)
{
    switch (event->key()) {
    case Qt::Key_Left:
        return moveFocus({-1, 0});
    case Qt::Key_Right:
        return moveFocus({1, 0});
    case Qt::Key_Up:
        return moveFocus({0, -1});
    case Qt::Key_Down:
        return moveFocus({0, 1});
    case Qt::Key_Home:
        return setFocusPlace(firstTaken());
    case Qt::Key_Plus:
    case Qt::Key_Equal:
        return setZoom(m_zoom + 1);
    case Qt::Key_Minus:
        return setZoom(m_zoom - 1);
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (!event->isAutoRepeat())
            requestPlace(m_focus);
        return;
    default:
        QWidget::keyPressEvent(event); // the class's keys
    }
}

void HallView::focusInEvent(QFocusEvent* event)
{
    QWidget::focusInEvent(event);
    if (!rowAt(m_focus))
        m_focus = firstTaken();
    scrollTo(m_focus);
    tellFocus();
    update();
}

void HallView::setHover(int place)
{
    if (place == m_hover)
        return;
    m_hover = place;
    update();
}

void HallView::mouseMoveEvent(QMouseEvent* event)
{
    setHover(m_layout.placeAt(event->position().toPoint() - m_origin + m_scroll));
}

void HallView::leaveEvent(QEvent* event)
{
    QWidget::leaveEvent(event);
    setHover(-1);
}

void HallView::mousePressEvent(QMouseEvent* event)
{
    const int place = m_layout.placeAt(event->position().toPoint() - m_origin + m_scroll);
    if (event->button() != Qt::LeftButton || !rowAt(place))
        return QWidget::mousePressEvent(event);
    m_focus = place;
    requestPlace(place);
    update();
}

void HallView::wheelEvent(QWheelEvent* event)
{
    const QSize room = roomForSeats();
    const QSize over = (m_layout.content() - room).expandedTo(QSize(0, 0));
    const QPoint to = m_scroll - event->angleDelta() / 2;
    const QPoint held(std::clamp(to.x(), 0, over.width()), std::clamp(to.y(), 0, over.height()));
    if (held == m_scroll)
        return event->ignore();
    m_scroll = held;
    m_stale = true;
    update();
}

bool HallView::event(QEvent* event)
{
    if (event->type() == QEvent::ToolTip) {
        const auto* help = static_cast<QHelpEvent*>(event);
        const int place = m_layout.placeAt(help->pos() - m_origin + m_scroll);
        if (const SeatRow* row = rowAt(place))
            QToolTip::showText(help->globalPos(), wordsOf(*row).toHtmlEscaped(), this);
        else
            QToolTip::hideText();
        return true;
    }
    return QWidget::event(event);
}

} // namespace vh
