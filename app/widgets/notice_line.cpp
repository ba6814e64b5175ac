#include "app/widgets/notice_line.h"
#include "app/look/look.h"

#include <QPainter>
#include <QTextLayout>

#include <cmath>

namespace vh
{

using look::Look;
using look::Space;

namespace
{

constexpr int kSignRoom = 40;
constexpr double kLinePitch = 1.3; // of the letters' size: the typeface's own is made for books

int padOf(bool tight)
{
    return tight ? 2 : 6;
}

/// The words in lines of this width, laid out from (0, 0) downwards.
double layOut(QTextLayout& layout, double width)
{
    const double pitch = kLinePitch * layout.font().pixelSize();
    double y = 0;
    layout.beginLayout();
    for (QTextLine line = layout.createLine(); line.isValid(); line = layout.createLine()) {
        line.setLineWidth(width);
        const double middle = QFontMetricsF(layout.font()).capHeight() / 2; // of capitals, above the baseline
        line.setPosition({0, y + pitch / 2 + middle - line.ascent()});
        y += pitch;
    }
    layout.endLayout();
    return y;
}

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

void NoticeLine::setType(look::Type type)
{
    if (type == m_type)
        return;
    m_type = type;
    updateGeometry();
    update();
}

void NoticeLine::setTight(bool tight)
{
    m_tight = tight;
    updateGeometry();
    update();
}

int NoticeLine::heightOf(const QString& words, look::Type type, int width, bool tight)
{
    QTextLayout layout(words.isEmpty() ? QStringLiteral(" ") : words, Look::current().font(type));
    const double high = layOut(layout, std::max(width - kSignRoom - Space::gap, 50));
    const int wanted = static_cast<int>(std::ceil(high)) + 2 * padOf(tight);
    return tight ? wanted : std::max(wanted, Space::control);
}

int NoticeLine::heightForWidth(int width) const
{
    return heightOf(m_state.words, m_type, width, m_tight);
}

QSize NoticeLine::sizeHint() const
{
    return {600, heightForWidth(600)};
}

QSize NoticeLine::minimumSizeHint() const
{
    return {200, m_tight ? 1 : Space::control};
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
    QTextLayout layout(m_state.words, Look::current().font(m_type));
    const double high = layOut(layout, std::max(width() - kSignRoom - Space::gap, 50));
    layout.draw(&painter, QPointF(kSignRoom, (height() - high) / 2));
}

} // namespace vh
