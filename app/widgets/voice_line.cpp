#include "app/widgets/voice_line.h"

#include "app/look/look.h"

#include <QPainter>

#include <cmath>

namespace vh
{

using look::Look;
using look::Space;

VoiceLine::VoiceLine(QWidget* parent) : SpokenWidget(QAccessible::StaticText, parent)
{
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
}

QFont VoiceLine::font()
{
    return Look::current().font(look::Type::body);
}

double VoiceLine::earSide()
{
    return 1.2 * Look::current().pixels(look::Type::body);
}

void VoiceLine::setState(const State& state)
{
    if (state == m_state)
        return;
    m_state = state;
    alert(m_state.words.value(0));
    updateGeometry();
    update();
}

QSize VoiceLine::sizeWith(const QString& words)
{
    const QFontMetricsF metrics(font());
    const double wide = words.isEmpty() ? 0 : earSide() + Space::small + metrics.horizontalAdvance(words) + 2;
    return {static_cast<int>(std::ceil(wide)), static_cast<int>(std::ceil(metrics.height()))};
}

QSize VoiceLine::minimumSizeHint() const
{
    return sizeWith(m_state.words.isEmpty() ? QString() : m_state.words.last());
}

QString VoiceLine::shown() const
{
    for (const QString& words : m_state.words)
        if (sizeWith(words).width() <= width())
            return words;
    const double room = width() - earSide() - Space::small;
    return QFontMetricsF(font()).elidedText(m_state.words.isEmpty() ? QString() : m_state.words.last(), Qt::ElideMiddle,
                                            room);
}

void VoiceLine::paintEvent(QPaintEvent* /*event*/)
{
    if (m_state.words.isEmpty())
        return;
    const look::Palette& colours = Look::current().palette();
    QPainter painter(this);
    const double side = earSide();
    const QRectF ear(0, (height() - side) / 2, side, side);
    if (m_state.ear != Ear::none)
        look::paintSign(painter, m_state.ear == Ear::hears ? look::Sign::heard : look::Sign::unheard, ear,
                        colours.deep2);
    painter.setFont(font());
    painter.setPen(colours.secondInk);
    painter.drawText(QRectF(side + Space::small, 0, width() - side - Space::small, height()),
                     Qt::AlignVCenter | Qt::AlignLeft, shown());
}

} // namespace vh
