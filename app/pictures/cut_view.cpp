#include "app/pictures/cut_view.h"

#include "app/look/look.h"
#include "app/pictures/picture_box.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QPainterPath>

#include <cmath>

namespace vh::pictures
{

using look::Look;

namespace
{

constexpr double kEdgeWide = 3;
constexpr double kMarkedWide = 8;
constexpr double kHalo = 2;      // of the sheet's colour, on either side of a line
constexpr double kReach = 14;    // px from an edge that a mouse still takes it
constexpr int kRoomForMarks = 8; // around the picture

bool isUpright(Edge edge)
{
    return edge == Edge::left || edge == Edge::right;
}

std::pair<QPointF, QPointF> lineOf(Edge edge, const QRectF& frame)
{
    switch (edge) {
    case Edge::left:
        return {frame.topLeft(), frame.bottomLeft()};
    case Edge::top:
        return {frame.topLeft(), frame.topRight()};
    case Edge::right:
        return {frame.topRight(), frame.bottomRight()};
    case Edge::bottom:
        break;
    }
    return {frame.bottomLeft(), frame.bottomRight()};
}

} // namespace

CutView::CutView(QWidget* parent) : SpokenWidget(QAccessible::Graphic, parent)
{
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
    setFocusPolicy(Qt::StrongFocus);
    setMouseTracking(true);
}

void CutView::setState(const State& state)
{
    if (state.cutting && !m_state.cutting)
        m_marked = Edge::left;
    m_state = state;
    if (!state.cutting) {
        m_held.clear();
        unsetCursor();
    }
    sayAll();
    update();
}

void CutView::sayAll()
{
    if (m_state.picture.isNull() || !m_state.cutting)
        return say(m_state.picture.isNull() ? m_state.words : m_state.description);
    const QString edge = m_marked == Edge::left    ? tr("left edge")
                         : m_marked == Edge::top   ? tr("top edge")
                         : m_marked == Edge::right ? tr("right edge")
                                                   : tr("bottom edge");
    const double place = placeOf(m_marked, m_state.frame);
    const bool fromEnd = m_marked == Edge::right || m_marked == Edge::bottom;
    say(tr("The frame's %1, %2 percent cut off").arg(edge).arg(std::lround(100 * (fromEnd ? 1 - place : place))));
}

QRectF CutView::picturePlace() const
{
    return placeFor(m_state.picture.size(),
                    QRectF(rect()).adjusted(kRoomForMarks, kRoomForMarks, -kRoomForMarks, -kRoomForMarks));
}

QRectF CutView::framePlace() const
{
    const QRectF whole = picturePlace();
    return {whole.left() + m_state.frame.left() * whole.width(), whole.top() + m_state.frame.top() * whole.height(),
            m_state.frame.width() * whole.width(), m_state.frame.height() * whole.height()};
}

void CutView::paintEvent(QPaintEvent*)
{
    const look::Palette& colours = Look::current().palette();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    look::paintSheet(painter, QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), colours.sheet);
    if (hasFocus()) {
        painter.setPen(QPen(colours.deep, look::Space::focusRing));
        painter.drawRoundedRect(QRectF(rect()).adjusted(1.5, 1.5, -1.5, -1.5), look::Space::corner,
                                look::Space::corner);
    }
    if (m_state.picture.isNull()) {
        painter.setFont(Look::current().font(look::Type::body));
        painter.setPen(colours.secondInk);
        return painter.drawText(rect(), Qt::AlignCenter | Qt::TextWordWrap, m_state.words);
    }
    const QRectF whole = picturePlace();
    const QSize sharp = (whole.size() * devicePixelRatioF()).toSize().expandedTo({1, 1});
    if (m_scaled.size() != sharp || m_scaledOf != m_state.picture.cacheKey()) {
        m_scaled = QPixmap::fromImage(m_state.picture.scaled(sharp, Qt::IgnoreAspectRatio, Qt::SmoothTransformation));
        m_scaledOf = m_state.picture.cacheKey();
    }
    painter.drawPixmap(whole, m_scaled, QRectF(m_scaled.rect()));
    if (m_state.cutting)
        paintFrame(painter, whole);
}

/// What is cut off is pale; the edges stand out on any picture by a rim of the sheet's colour.
void CutView::paintFrame(QPainter& painter, const QRectF& whole) const
{
    const look::Palette& colours = Look::current().palette();
    const QRectF frame = framePlace();
    QPainterPath off;
    off.addRect(whole);
    QPainterPath kept;
    kept.addRect(frame);
    QColor pale = colours.sheet;
    pale.setAlpha(200);
    painter.fillPath(off.subtracted(kept), pale);
    for (const bool rim : {true, false})
        for (const Edge edge : {Edge::left, Edge::top, Edge::right, Edge::bottom}) {
            const auto [from, to] = lineOf(edge, frame);
            const double wide = edge == m_marked ? kMarkedWide : kEdgeWide;
            painter.setPen(
                QPen(rim ? colours.sheet : colours.deep, wide + (rim ? 2 * kHalo : 0), Qt::SolidLine, Qt::SquareCap));
            painter.drawLine(from, to);
        }
}

void CutView::mark(Edge edge)
{
    m_marked = edge;
    sayAll();
    update();
}

/// Along the marked edge's way it moves; across, the edge on that side is marked instead.
bool CutView::pressArrow(int key, double step)
{
    const bool sideways = key == Qt::Key_Left || key == Qt::Key_Right;
    const bool back = key == Qt::Key_Left || key == Qt::Key_Up;
    if (!sideways && key != Qt::Key_Up && key != Qt::Key_Down)
        return false;
    if (isUpright(m_marked) == sideways)
        emit frameRequested(moved(m_state.frame, m_marked, back ? -step : step));
    else
        mark(sideways ? (back ? Edge::left : Edge::right) : (back ? Edge::top : Edge::bottom));
    return true;
}

void CutView::keyPressEvent(QKeyEvent* event)
{
    if (m_state.cutting) {
        if (pressArrow(event->key(), event->modifiers() & Qt::ShiftModifier ? kSmallStep : kStep))
            return event->accept();
        if (event->key() == Qt::Key_Space) {
            mark(m_marked == Edge::bottom ? Edge::left : static_cast<Edge>(static_cast<int>(m_marked) + 1));
            return event->accept();
        }
    }
    SpokenWidget::keyPressEvent(event);
}

void CutView::mousePressEvent(QMouseEvent* event)
{
    setFocus(Qt::MouseFocusReason);
    m_held.clear();
    if (!m_state.cutting || event->button() != Qt::LeftButton)
        return;
    const QRectF frame = framePlace();
    const QPointF at = event->position();
    for (const Edge edge : {Edge::left, Edge::top, Edge::right, Edge::bottom}) {
        const auto [from, to] = lineOf(edge, frame);
        const double away = isUpright(edge) ? std::abs(at.x() - from.x()) : std::abs(at.y() - from.y());
        const bool beside = isUpright(edge) ? at.y() > from.y() - kReach && at.y() < to.y() + kReach
                                            : at.x() > from.x() - kReach && at.x() < to.x() + kReach;
        if (away <= kReach && beside)
            m_held.push_back(edge);
    }
    if (!m_held.empty())
        mark(m_held.front());
}

void CutView::mouseMoveEvent(QMouseEvent* event)
{
    if (m_held.empty() || m_state.picture.isNull())
        return;
    const QRectF whole = picturePlace();
    QRectF frame = m_state.frame;
    for (const Edge edge : m_held) {
        const double to = isUpright(edge) ? (event->position().x() - whole.left()) / whole.width()
                                          : (event->position().y() - whole.top()) / whole.height();
        frame = moved(frame, edge, to - placeOf(edge, frame));
    }
    if (frame != m_state.frame)
        emit frameRequested(frame);
}

void CutView::mouseReleaseEvent(QMouseEvent*)
{
    m_held.clear();
}

} // namespace vh::pictures
