#include "app/pictures/window_strip.h"

#include "app/look/look.h"

#include <QEvent>
#include <QPainter>

#include <cmath>

namespace vh::pictures
{

using look::Look;
using look::Space;
using look::Type;

namespace
{
constexpr int kPad = 5; ///< above and below the line
constexpr int kWide = 340;
} // namespace

WindowStrip::WindowStrip(QWidget* parent) : QAbstractButton(parent)
{
    setFocusPolicy(Qt::TabFocus);
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
    setAccessibleName(tr("A picture"));
    connect(this, &QAbstractButton::clicked, this, &WindowStrip::press);
    hide();
}

void WindowStrip::press()
{
    if (m_view.item != 0)
        emit showRequested(m_view.item, !m_view.shown);
}

void WindowStrip::putAway()
{
    if (m_view.item != 0 && !m_view.shown)
        emit doneRequested(m_view.item);
}

void WindowStrip::setState(const WindowStripView& view)
{
    m_view = view;
    if (view.item == 0 && hasFocus())
        parentWidget()->setFocus(); // the page's keys
    setVisible(view.item != 0);
    const QString whose = view.name.isEmpty() ? tr("A picture") : tr("A picture from %1").arg(view.name);
    const QString whole = view.text.isEmpty() ? whose : QStringLiteral("%1: %2").arg(whose, view.text.simplified());
    setAccessibleName(view.shown ? tr("All see it now. %1").arg(whole) : whole);
    setAccessibleDescription(view.shown ? tr("Key P: all see the class again. So they do with your next move.")
                                        : tr("Key P: shows it to all. Shift and P: not this one."));
    setToolTip(whole.toHtmlEscaped());
    update();
}

QSize WindowStrip::sizeHint() const
{
    const double line = QFontMetricsF(Look::current().font(Type::body)).height();
    return {kWide, static_cast<int>(std::ceil(line)) + 2 * kPad};
}

void WindowStrip::paintEvent(QPaintEvent*)
{
    const look::Palette& colours = Look::current().palette();
    QPainter painter(this);
    painter.setRenderHints(QPainter::Antialiasing | QPainter::SmoothPixmapTransform);
    const bool deep = m_view.shown;
    look::paintSheet(painter, QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5),
                     deep       ? colours.deep
                     : isDown() ? colours.quiet
                                : colours.sheet);
    const int side = height() - 2 * kPad;
    const QRectF key(Space::small, kPad, side, side);
    painter.setPen(QPen(deep ? colours.onDeep : colours.deep2, 1.5));
    painter.drawRoundedRect(key.adjusted(1, 1, -1, -1), 6, 6);
    painter.setFont(Look::current().font(Type::note));
    painter.setPen(deep ? colours.onDeep : colours.deep);
    painter.drawText(key, Qt::AlignCenter, QStringLiteral("P"));
    const QRectF frame(key.right() + Space::small, 3, 4.0 / 3 * (height() - 6), height() - 6);
    if (!m_view.picture.isNull()) {
        const QSizeF size = QSizeF(m_view.picture.size()).scaled(frame.size(), Qt::KeepAspectRatio);
        painter.drawImage(QRectF(frame.center() - QPointF(size.width() / 2, size.height() / 2), size), m_view.picture);
    }
    paintWords(painter, rect().adjusted(static_cast<int>(frame.right()) + Space::small, 0, -Space::gap, 0));
    if (hasFocus()) {
        painter.setPen(QPen(colours.deep, Space::focusRing));
        painter.setBrush(Qt::NoBrush);
        painter.drawRoundedRect(QRectF(rect()).adjusted(1.5, 1.5, -1.5, -1.5), Space::corner, Space::corner);
    }
}

void WindowStrip::paintWords(QPainter& painter, QRect room) const
{
    const look::Palette& colours = Look::current().palette();
    const auto put = [&](const QString& words, look::Weight weight, Qt::Alignment where) {
        painter.setFont(Look::current().font(where == Qt::AlignRight ? Type::note : Type::body, weight));
        const QString shown = painter.fontMetrics().elidedText(words, Qt::ElideRight, room.width());
        painter.drawText(room, where | Qt::AlignVCenter, shown);
        const int wide = painter.fontMetrics().horizontalAdvance(shown) + Space::small;
        where == Qt::AlignRight ? room.setRight(room.right() - wide) : room.setLeft(room.left() + wide);
    };
    painter.setPen(m_view.shown ? colours.onDeep : colours.secondInk);
    if (m_view.more > 0)
        put(tr("+%1").arg(m_view.more), look::Weight::regular, Qt::AlignRight);
    painter.setPen(m_view.shown ? colours.onDeep : colours.ink);
    if (m_view.shown)
        return put(tr("All see it now"), look::Weight::bold, Qt::AlignLeft);
    put(m_view.name.isEmpty() ? tr("A picture") : m_view.name, look::Weight::bold, Qt::AlignLeft);
    put(m_view.text.simplified(), look::Weight::regular, Qt::AlignLeft);
}

void WindowStrip::changeEvent(QEvent* event)
{
    QAbstractButton::changeEvent(event);
    if (event->type() == QEvent::StyleChange)
        updateGeometry();
}

} // namespace vh::pictures
