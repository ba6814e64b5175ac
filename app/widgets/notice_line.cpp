#include "app/widgets/notice_line.h"
#include "app/look/look.h"

#include <QPainter>

#include <cmath>

namespace vh
{

using look::Look;
using look::Space;

namespace
{

constexpr int kSignRoom = 40;

} // namespace

NoticeLine::NoticeLine(QWidget* parent, look::Type type) : SpokenWidget(QAccessible::AlertMessage, parent), m_type(type)
{
    QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

void NoticeLine::setState(const State& state)
{
    if (state == m_state)
        return;
    m_state = state;
    alert(m_state.words);
    updateGeometry();
    update();
}

QRect NoticeLine::wordsRect() const
{
    return rect().adjusted(kSignRoom, 6, -Space::gap, -6);
}

int NoticeLine::heightForWidth(int width) const
{
    const QFontMetricsF metrics(Look::current().font(m_type));
    const QRectF room(0, 0, std::max(width - kSignRoom - Space::gap, 50), 1e6);
    const double words = metrics.boundingRect(room, Qt::TextWordWrap, m_state.words).height();
    return std::max(static_cast<int>(std::ceil(std::max(words, metrics.height()))) + 12, Space::control);
}

QSize NoticeLine::sizeHint() const
{
    return {600, heightForWidth(600)};
}

QSize NoticeLine::minimumSizeHint() const
{
    return {200, Space::control};
}

void NoticeLine::paintEvent(QPaintEvent* /*event*/)
{
    if (m_state.words.isEmpty())
        return;
    const look::Palette& colours = Look::current().palette();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    look::paintSheet(painter, QRectF(rect()), colours.quiet);
    const QPointF sign(kSignRoom / 2.0 + 1, height() / 2.0);
    if (m_state.tone == Tone::heed) { // an outlined ring with a stroke and a dot; calm is a plain bar
        painter.setPen(QPen(colours.deep2, 2.2));
        painter.setBrush(Qt::NoBrush);
        painter.drawEllipse(sign, 11, 11);
        painter.setPen(QPen(colours.deep2, 2.8, Qt::SolidLine, Qt::RoundCap));
        painter.drawLine(sign + QPointF(0, -5.5), sign + QPointF(0, 1));
        painter.drawPoint(sign + QPointF(0, 5.5));
    } else {
        painter.setPen(QPen(colours.deep2, 4, Qt::SolidLine, Qt::RoundCap));
        painter.drawLine(sign + QPointF(0, -8), sign + QPointF(0, 8));
    }
    painter.setPen(colours.ink);
    painter.setFont(Look::current().font(m_type));
    painter.drawText(wordsRect(), Qt::TextWordWrap | Qt::AlignVCenter, m_state.words);
}

} // namespace vh
