#include "app/widgets/hall_view.h"

#include "app/look/look.h"
#include "app/widgets/hall_access.h"

#include <QAccessible>
#include <QEvent>
#include <QHelpEvent>
#include <QKeyEvent>
#include <QPainter>
#include <QToolTip>

#include <algorithm>
#include <cmath>
#include <limits>

namespace vh
{

using look::Look;
using look::Type;

namespace
{

/// No seat looks like this: draw it.
constexpr SeatPictures::Key kNothingYet = std::numeric_limits<SeatPictures::Key>::max();
constexpr SeatPictures::Key kEmptySeat = kNothingYet - 1;
/// Room for the focus ring of the outermost seats.
constexpr int kEdge = 4;

int lineHeight()
{
    return static_cast<int>(std::ceil(QFontMetricsF(Look::current().font(Type::fine)).height()));
}

} // namespace

HallView::HallView(QWidget* parent) : QWidget(parent)
{
    useHallAccess();
    setFocusPolicy(Qt::TabFocus);
    setMouseTracking(true);
    setAccessibleName(tr("The hall"));
    setAccessibleDescription(tr("Arrows move from seat to seat, Enter opens a seat"));
}

HallView::~HallView() = default;

void HallView::setState(const State& state)
{
    if (state == m_state)
        return;
    const bool otherHall = state.places != m_state.places;
    const auto before = m_state.seats.size();
    const QString focused = rowAt(m_focus) ? wordsOf(*rowAt(m_focus)) : QString();
    bool otherNames = otherHall || before != state.seats.size();
    for (std::size_t i = 0; i < state.seats.size() && !otherNames; ++i)
        otherNames = state.seats[i].name != m_state.seats[i].name || state.seats[i].place != m_state.seats[i].place;
    m_state = state;
    takePlaces();
    if (otherHall)
        layOut();
    if (otherNames)
        m_stale = true;
    if (const SeatRow* row = rowAt(m_focus); row && wordsOf(*row) != focused) {
        QAccessibleEvent changed(this, QAccessible::NameChanged);
        changed.setChild(childOf(*this, m_focus));
        QAccessible::updateAccessibility(&changed);
    }
    update();
}

void HallView::takePlaces()
{
    const auto places = static_cast<std::size_t>(std::max(m_state.places, 0));
    m_rowOf.assign(places, -1);
    m_wanted.assign(places, kEmptySeat);
    m_shown.resize(places, kNothingYet);
    for (std::size_t i = 0; i < m_state.seats.size(); ++i) {
        const SeatRow& row = m_state.seats[i];
        if (row.place < 0 || row.place >= m_state.places)
            continue;
        const auto place = static_cast<std::size_t>(row.place);
        m_rowOf[place] = static_cast<int>(i);
        m_wanted[place] = SeatPictures::keyOf(row.standing, row.overUsualDb, row.band);
    }
    if (m_focus >= m_state.places)
        m_focus = -1;
    m_hover = m_hover >= m_state.places ? -1 : m_hover;
}

const SeatRow* HallView::rowAt(int place) const
{
    if (place < 0 || place >= static_cast<int>(m_rowOf.size()) || m_rowOf[static_cast<std::size_t>(place)] < 0)
        return nullptr;
    return &m_state.seats[static_cast<std::size_t>(m_rowOf[static_cast<std::size_t>(place)])];
}

QString HallView::wordsOf(const SeatRow& row)
{
    const QString standing = sentenceOf(row.standing, row.reason);
    return standing.isEmpty() ? row.name : tr("%1: %2").arg(row.name, standing);
}

int HallView::captionHeight() const
{
    return m_state.places > HallLayout::kMostNamed ? lineHeight() + 6 : 0;
}

QSize HallView::roomForSeats() const
{
    return QSize(width() - 2 * kEdge, height() - 2 * kEdge - captionHeight()).expandedTo(QSize(1, 1));
}

void HallView::layOut()
{
    const QSize room = roomForSeats();
    m_layout = HallLayout(m_state.places, room, lineHeight(), m_zoom);
    m_origin = QPoint(kEdge + std::max(0, (room.width() - m_layout.content().width()) / 2), kEdge);
    const QSize over = m_layout.content() - room;
    m_scroll = QPoint(std::clamp(m_scroll.x(), 0, std::max(over.width(), 0)),
                      std::clamp(m_scroll.y(), 0, std::max(over.height(), 0)));
    m_pictures.become(m_layout.column().size(), devicePixelRatioF());
    m_stale = true;
    update();
}

QRect HallView::columnOf(int place) const
{
    return m_layout.column().translated(rectOf(place).topLeft());
}

// --- painting --------------------------------------------------------------------------------------------------------

void HallView::takePictures()
{
    const double ratio = devicePixelRatioF();
    const QSize device = (QSizeF(size()) * ratio).toSize();
    if (m_canvas.size() != device || m_stale) {
        m_canvas = QImage(device, QImage::Format_RGB32);
        m_canvas.setDevicePixelRatio(ratio);
        m_canvas.fill(Look::current().palette().paper);
        std::fill(m_shown.begin(), m_shown.end(), kNothingYet);
        if (m_layout.named()) {
            QPainter painter(&m_canvas);
            painter.setFont(Look::current().font(Type::fine));
            painter.setPen(Look::current().palette().ink);
            for (const SeatRow& row : m_state.seats)
                paintName(painter, row.place);
        }
        m_stale = false;
    }
    for (std::size_t place = 0; place < m_wanted.size(); ++place) {
        if (m_shown[place] == m_wanted[place])
            continue;
        m_shown[place] = m_wanted[place];
        const QRect at = columnOf(static_cast<int>(place));
        const QPoint pixel(static_cast<int>(std::lround(at.x() * ratio)),
                           static_cast<int>(std::lround(at.y() * ratio)));
        if (m_wanted[place] != kEmptySeat) {
            copyInto(m_canvas, pixel, m_pictures.of(m_wanted[place]));
            continue;
        }
        QPainter painter(&m_canvas); // an empty seat: a line on the floor
        painter.fillRect(at, Look::current().palette().paper);
        const int inset = at.width() / 5;
        painter.fillRect(QRect(at.left() + inset, at.bottom() - 1, at.width() - 2 * inset, at.height() > 16 ? 2 : 1),
                         Look::current().palette().line);
    }
}

void HallView::paintName(QPainter& painter, int place) const
{
    const SeatRow* row = rowAt(place);
    const QRect at = rectOf(place);
    if (!row || !at.intersects(rect()))
        return;
    const QRect name(at.left() + 1, columnOf(place).bottom() + 3, at.width() - 2, lineHeight());
    painter.drawText(name, Qt::AlignHCenter | Qt::AlignVCenter,
                     painter.fontMetrics().elidedText(row->name, Qt::ElideRight, name.width()));
}

void HallView::paintEvent(QPaintEvent* event)
{
    takePictures();
    QPainter painter(this);
    const double ratio = devicePixelRatioF();
    const QRect dirty = event->rect();
    painter.drawImage(QRectF(dirty), m_canvas, QRectF(QPointF(dirty.topLeft()) * ratio, QSizeF(dirty.size()) * ratio));
    const look::Palette& colours = Look::current().palette();
    if (captionHeight() > 0)
        paintCaption(painter);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setBrush(Qt::NoBrush);
    if (hasFocus() && m_focus >= 0) {
        painter.setPen(QPen(colours.deep, look::Space::focusRing));
        const double out = m_layout.named() ? -1.5 : 1.5;
        painter.drawRoundedRect(QRectF(rectOf(m_focus)).adjusted(-out, -out, out, out), 4, 4);
    }
    if (rowAt(m_hover) && m_hover != m_focus) {
        painter.setPen(QPen(colours.deep2, 1.5));
        painter.drawRoundedRect(QRectF(rectOf(m_hover)).adjusted(0.5, 0.5, -0.5, -0.5), 4, 4);
    }
}

void HallView::paintCaption(QPainter& painter) const
{
    const look::Palette& colours = Look::current().palette();
    const QRect line(0, height() - captionHeight(), width(), captionHeight());
    painter.fillRect(line, colours.paper);
    const SeatRow* row = rowAt(m_hover) ? rowAt(m_hover) : hasFocus() ? rowAt(m_focus) : nullptr;
    painter.setFont(Look::current().font(Type::fine));
    painter.setPen(row ? colours.ink : colours.secondInk);
    const QString words = row ? wordsOf(*row) : tr("Point at a seat, or press Tab and the arrows. + and \u2212 zoom.");
    painter.drawText(line, Qt::AlignLeft | Qt::AlignBottom,
                     painter.fontMetrics().elidedText(words, Qt::ElideRight, line.width()));
}

void HallView::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    layOut();
}

void HallView::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange)
        layOut();
}

// --- looking about ---------------------------------------------------------------------------------------------------

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
