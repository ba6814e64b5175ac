#include "app/join/heard_sign.h"

#include "app/look/look.h"
#include "app/look/sign.h"
#include "app/widgets/big_button.h"

#include <QEvent>
#include <QPainter>

#include <cmath>

namespace vh::join
{

using look::Look;
using look::Space;

namespace
{

constexpr int kFrame = 5;

QFont wordsFont()
{
    return Look::current().font(look::Type::cue, look::Weight::bold);
}

} // namespace

HeardSign::HeardSign(QWidget* parent)
    : SpokenWidget(QAccessible::AlertMessage, parent),
      m_end(new BigButton(tr("End now"), BigButton::Rank::main, BigButton::Size::touch, this))
{
    m_end->setAccessibleDescription(tr("After this nobody hears you any more."));
    connect(m_end, &BigButton::pressRequested, this, &HeardSign::endRequested);
    hide();
}

void HeardSign::setHeard(bool heard)
{
    if (heard == m_heard)
        return;
    m_heard = heard;
    setVisible(heard);
    alert(heard ? tr("Everyone hears you") : tr("Nobody hears you any more"));
}

QSize HeardSign::sizeHint() const
{
    const QFontMetricsF metrics(wordsFont());
    const int end = m_end->sizeHint().height();
    return {static_cast<int>(std::ceil(metrics.horizontalAdvance(tr("Everyone hears you")))) + end +
                m_end->sizeHint().width() + 4 * Space::wide,
            std::max(end, static_cast<int>(std::ceil(metrics.height()))) + 2 * kFrame};
}

void HeardSign::place()
{
    const QSize end = m_end->sizeHint();
    m_end->setGeometry(width() - end.width() - Space::gap, (height() - end.height()) / 2, end.width(), end.height());
}

void HeardSign::paintEvent(QPaintEvent* /*event*/)
{
    const look::Palette& colours = Look::current().palette();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(colours.deep, kFrame));
    painter.setBrush(colours.sheet);
    constexpr double kHalf = kFrame / 2.0;
    painter.drawRoundedRect(QRectF(rect()).adjusted(kHalf, kHalf, -kHalf, -kHalf), Space::corner, Space::corner);
    const double side = 1.2 * wordsFont().pixelSize();
    const QRectF sign(Space::wide, (height() - side) / 2, side, side);
    look::paintSign(painter, look::Sign::microphone, sign, colours.deep);
    painter.setFont(wordsFont());
    painter.setPen(colours.ink);
    const double left = sign.right() + Space::gap;
    painter.drawText(QRectF(left, 0, m_end->x() - left, height()), Qt::AlignVCenter | Qt::AlignLeft,
                     tr("Everyone hears you"));
}

void HeardSign::resizeEvent(QResizeEvent* event)
{
    SpokenWidget::resizeEvent(event);
    place();
}

void HeardSign::changeEvent(QEvent* event)
{
    SpokenWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange)
        place();
}

} // namespace vh::join
