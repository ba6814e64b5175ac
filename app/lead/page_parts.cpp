#include "app/lead/page_parts.h"

#include "app/look/look.h"

#include <QPainter>

#include <cmath>

namespace vh::lead
{

using look::Look;
using look::Space;

namespace
{
constexpr int kRuleRoom = 14;
}

OneLine::OneLine(look::Type type, Ink ink, QWidget* parent)
    : SpokenWidget(QAccessible::StaticText, parent), m_type(type), m_ink(ink)
{
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void OneLine::setText(const QString& text)
{
    if (text == m_text)
        return;
    m_text = text;
    say(text);
    updateGeometry();
    update();
}

QFont OneLine::inkFont() const
{
    return Look::current().font(m_type, m_bold ? look::Weight::bold : look::Weight::regular);
}

QSize OneLine::sizeHint() const
{
    const QFontMetricsF metrics(inkFont());
    return {static_cast<int>(std::ceil(metrics.horizontalAdvance(m_text))) + 2,
            static_cast<int>(std::ceil(metrics.height())) + (m_ruled ? kRuleRoom : 2)};
}

void OneLine::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.setFont(inkFont());
    const look::Palette& colours = Look::current().palette();
    painter.setPen(m_ink == Ink::main ? colours.ink : colours.secondInk);
    if (m_ruled)
        painter.fillRect(QRect(0, 0, width(), 1), colours.line);
    painter.drawText(rect().adjusted(0, m_ruled ? kRuleRoom - 4 : 0, 0, 0), Qt::AlignLeft | Qt::AlignVCenter,
                     painter.fontMetrics().elidedText(m_text, Qt::ElideRight, width()));
}

namespace
{
constexpr int kNoteIndent = 16;
}

NoteText::NoteText(QWidget* parent) : SpokenWidget(QAccessible::StaticText, parent)
{
    QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Minimum);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

void NoteText::setText(const QString& text)
{
    if (text == m_text)
        return;
    m_text = text;
    say(text.isEmpty() ? QString() : tr("Note: %1").arg(text));
    updateGeometry();
    update();
}

int NoteText::heightForWidth(int width) const
{
    if (m_text.isEmpty())
        return 0;
    const QFontMetricsF metrics(Look::current().font(look::Type::note));
    const QRectF room(0, 0, std::max(width - kNoteIndent, 60), 1e6);
    return static_cast<int>(std::ceil(metrics.boundingRect(room, Qt::TextWordWrap, m_text).height())) + 4;
}

void NoteText::paintEvent(QPaintEvent*)
{
    if (m_text.isEmpty())
        return;
    QPainter painter(this);
    const look::Palette& colours = Look::current().palette();
    painter.fillRect(QRect(0, 0, 4, height()), colours.stretch);
    painter.setFont(Look::current().font(look::Type::note));
    painter.setPen(colours.secondInk);
    painter.drawText(rect().adjusted(kNoteIndent, 1, 0, 0), Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, m_text);
}

DeepSign::DeepSign(QWidget* parent) : SpokenWidget(QAccessible::AlertMessage, parent)
{
    hide();
}

void DeepSign::setText(const QString& text)
{
    if (text == m_text)
        return;
    m_text = text;
    alert(text);
    update();
}

void DeepSign::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const look::Palette& colours = Look::current().palette();
    look::paintSheet(painter, QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), colours.deep);
    painter.setFont(Look::current().font(look::Type::heading));
    painter.setPen(colours.onDeep);
    painter.drawText(rect().adjusted(Space::wide, 0, -Space::wide, 0), Qt::AlignVCenter | Qt::AlignLeft, m_text);
}

} // namespace vh::lead
