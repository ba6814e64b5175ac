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

constexpr int kFrame = 4;
constexpr int kInset = 5;          // as a control's body stands in its own
constexpr double kLinePitch = 1.3; // of the letters' size

QFont wordsFont()
{
    return Look::current().font(look::Type::cue, look::Weight::bold);
}

double signSide()
{
    return 1.2 * wordsFont().pixelSize();
}

} // namespace

HeardSign::HeardSign(QWidget* parent)
    : SpokenWidget(QAccessible::AlertMessage, parent),
      m_end(new BigButton(tr("Stop being heard"), BigButton::Rank::main, BigButton::Size::touch, this))
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
    const int end = m_end->sizeHint().height();
    return {signWidth() + Space::gap + m_end->sizeHint().width(),
            std::max(end, static_cast<int>(std::ceil(kLinePitch * wordsFont().pixelSize())))};
}

int HeardSign::signWidth()
{
    const double words = QFontMetricsF(wordsFont()).horizontalAdvance(tr("Everyone hears you"));
    return static_cast<int>(std::ceil(words + signSide())) + 2 * Space::wide + Space::gap;
}

/// Right beside the words that it ends, and far from every other control.
void HeardSign::place()
{
    const QSize end = m_end->sizeHint();
    m_end->setGeometry(signWidth() + Space::gap, (height() - end.height()) / 2, end.width(), end.height());
}

void HeardSign::paintEvent(QPaintEvent* /*event*/)
{
    const look::Palette& colours = Look::current().palette();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(colours.deep, kFrame));
    painter.setBrush(colours.sheet);
    const QRectF sign = QRectF(0, 0, signWidth(), height()).adjusted(kInset, kInset, -kInset, -kInset);
    painter.drawRoundedRect(sign, Space::corner, Space::corner);
    const QRectF microphone(Space::wide, (height() - signSide()) / 2, signSide(), signSide());
    look::paintSign(painter, look::Sign::microphone, microphone, colours.deep);
    painter.setFont(wordsFont());
    painter.setPen(colours.ink);
    painter.drawText(sign.adjusted(microphone.right() + Space::gap - kInset, 0, 0, 0), Qt::AlignVCenter | Qt::AlignLeft,
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
