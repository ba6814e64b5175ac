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

constexpr int kEdge = 4;           // below it, along all of the window
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
    return {signWidth() + m_end->sizeHint().width(),
            std::max(end, static_cast<int>(std::ceil(kLinePitch * wordsFont().pixelSize()))) + kEdge};
}

int HeardSign::signWidth()
{
    const double words = QFontMetricsF(wordsFont()).horizontalAdvance(tr("Everyone hears you"));
    return Space::margin + static_cast<int>(std::ceil(signSide() + Space::gap + words)) + Space::wide;
}

/// Right beside the words that it ends, and far from every other control.
void HeardSign::place()
{
    const QSize end = m_end->sizeHint();
    m_end->setGeometry(signWidth(), (height() - kEdge - end.height()) / 2, end.width(), end.height());
}

void HeardSign::paintEvent(QPaintEvent* /*event*/)
{
    const look::Palette& colours = Look::current().palette();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(rect(), colours.quiet);
    painter.fillRect(QRect(0, height() - kEdge, width(), kEdge), colours.deep);
    const QRectF person(Space::margin, (height() - kEdge - signSide()) / 2, signSide(), signSide());
    look::paintSign(painter, look::Sign::carried, person, colours.deep);
    painter.setFont(wordsFont());
    painter.setPen(colours.ink);
    painter.drawText(QRectF(person.right() + Space::gap, 0, width(), height() - kEdge),
                     Qt::AlignVCenter | Qt::AlignLeft, tr("Everyone hears you"));
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
