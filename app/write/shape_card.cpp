#include "app/write/shape_card.h"

#include "app/look/look.h"

#include <QEvent>
#include <QPainter>

namespace vh::write
{

using look::Look;
using look::Space;
using look::Type;

namespace
{
constexpr int kPad = 12;
constexpr int kDot = 24;
constexpr int kLeft = kPad + kDot + kPad;

QFont titleFont()
{
    return Look::current().font(Type::body, look::Weight::bold);
}
QFont aboutFont()
{
    return Look::current().font(Type::note);
}
} // namespace

ShapeCard::ShapeCard(const QString& title, const QString& about, QWidget* parent)
    : QRadioButton(title, parent), m_about(about), m_rail(new ScriptRail(ScriptRail::Form::full, this))
{
    m_rail->setAttribute(Qt::WA_TransparentForMouseEvents);
    setAccessibleName(title);
    setAccessibleDescription(about);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void ShapeCard::setRail(const ScriptRail::State& rail)
{
    m_rail->setState(rail);
}

int ShapeCard::wordsHeight() const
{
    return QFontMetrics(titleFont()).height() + QFontMetrics(aboutFont()).height();
}

QSize ShapeCard::sizeHint() const
{
    return {560, wordsHeight() + m_rail->sizeHint().height() + 2 * kPad};
}

QSize ShapeCard::minimumSizeHint() const
{
    return {360, sizeHint().height()};
}

void ShapeCard::place()
{
    const int high = m_rail->sizeHint().height();
    m_rail->setGeometry(kLeft, height() - kPad - high, width() - kLeft - kPad, high);
}

void ShapeCard::resizeEvent(QResizeEvent* event)
{
    QRadioButton::resizeEvent(event);
    place();
}

void ShapeCard::changeEvent(QEvent* event)
{
    QRadioButton::changeEvent(event);
    if (event->type() != QEvent::StyleChange)
        return;
    setMinimumHeight(sizeHint().height());
    place();
}

bool ShapeCard::event(QEvent* event)
{
    const bool done = QRadioButton::event(event);
    if (event->type() == QEvent::Polish) // the style sheet knows the height of a plain radio button only
        setMinimumHeight(sizeHint().height());
    return done;
}

void ShapeCard::paintEvent(QPaintEvent* /*event*/)
{
    const look::Palette& colours = Look::current().palette();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const double edge = hasFocus() ? Space::focusRing : isChecked() ? 2 : 1;
    const QRectF sheet = QRectF(rect()).adjusted(edge / 2, edge / 2, -edge / 2, -edge / 2);
    painter.setPen(QPen(hasFocus() ? colours.deep : isChecked() ? colours.deep2 : colours.line, edge));
    painter.setBrush(isChecked() ? colours.quiet : colours.sheet);
    painter.drawRoundedRect(sheet, Space::corner, Space::corner);

    const QFontMetrics title(titleFont());
    const QRectF dot(kPad, kPad + (title.height() - kDot) / 2.0, kDot, kDot);
    painter.setPen(QPen(colours.deep2, 2));
    painter.setBrush(colours.sheet);
    painter.drawEllipse(dot.adjusted(1, 1, -1, -1));
    if (isChecked()) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(colours.deep2);
        painter.drawEllipse(dot.adjusted(6, 6, -6, -6));
    }
    QRect line(kLeft, kPad, width() - kLeft - kPad, title.height());
    painter.setFont(titleFont());
    painter.setPen(colours.ink);
    painter.drawText(line, Qt::AlignLeft | Qt::AlignVCenter, title.elidedText(text(), Qt::ElideRight, line.width()));
    const QFontMetrics about(aboutFont());
    line = QRect(kLeft, line.bottom() + 1, line.width(), about.height());
    painter.setFont(aboutFont());
    painter.setPen(colours.secondInk);
    painter.drawText(line, Qt::AlignLeft | Qt::AlignVCenter, about.elidedText(m_about, Qt::ElideRight, line.width()));
}

} // namespace vh::write
