#include "app/widgets/big_button.h"
#include "app/look/look.h"

#include <QEvent>
#include <QKeyEvent>
#include <QPainter>

#include <cmath>

namespace vh
{

using look::Look;
using look::Space;

namespace
{

// The focus ring stands around the body, with a hair of ground between: both belong to the widget.
constexpr int kRingRoom = Space::focusRing + 2;

const Clock& machineClock()
{
    static const SystemClock clock;
    return clock;
}

} // namespace

BigButton::BigButton(const QString& words, Rank rank, Size size, QWidget* parent)
    : QPushButton(words, parent), m_rank(rank), m_size(size), m_clock(&machineClock())
{
    setFocusPolicy(Qt::StrongFocus);
    setSizePolicy(QSizePolicy::Minimum, QSizePolicy::Fixed);
    setAutoDefault(false);
    connect(this, &QPushButton::clicked, this, [this] {
        if (m_filter.accept(m_clock->now()))
            emit pressRequested();
    });
}

void BigButton::setKeyHint(const QString& key)
{
    m_keyHint = key;
    setAccessibleDescription(key.isEmpty() ? QString() : tr("Key %1").arg(key));
    updateGeometry();
    update();
}

void BigButton::setRank(Rank rank)
{
    m_rank = rank;
    update();
}

QFont BigButton::wordsFont() const
{
    return Look::current().font(m_size == Size::touch ? look::Type::touch : look::Type::control);
}

QFont BigButton::hintFont() const
{
    return Look::current().font(look::Type::fine);
}

void BigButton::setHintGivesWay()
{
    m_hintGivesWay = true;
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
}

QSize BigButton::sizeHint() const
{
    return sizeWith(true);
}

QSize BigButton::sizeWith(bool hint) const
{
    const QFontMetricsF words(wordsFont());
    const bool touch = m_size == Size::touch;
    double width = words.horizontalAdvance(text()) + 2 * (touch ? Space::wide : Space::wide - 8);
    if (hint && !m_keyHint.isEmpty())
        width += Space::small + QFontMetricsF(hintFont()).horizontalAdvance(m_keyHint);
    const int least = touch ? Space::touch : Space::control;
    const QSize body(std::max(static_cast<int>(std::ceil(width)), least),
                     std::max(static_cast<int>(std::ceil(words.height())) + Space::small, least));
    return body + QSize(2 * kRingRoom, 2 * kRingRoom);
}

void BigButton::paintEvent(QPaintEvent* /*event*/)
{
    const look::Palette& colours = Look::current().palette();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);

    const QRectF body = QRectF(rect()).adjusted(kRingRoom, kRingRoom, -kRingRoom, -kRingRoom);
    const bool main = m_rank == Rank::main && isEnabled();
    const double outline = isDown() && !main ? 3 : 2;
    QPen pen(main ? (isDown() ? colours.deepHeld : colours.deep) : colours.deep2, outline);
    if (!isEnabled())
        pen = QPen(colours.dashes, outline, Qt::DashLine);
    painter.setPen(pen);
    if (main)
        painter.setBrush(isDown() ? colours.deepHeld : colours.deep);
    else
        painter.setBrush(isDown() ? colours.quiet : colours.sheet);
    painter.drawRoundedRect(body.adjusted(1, 1, -1, -1), Space::corner, Space::corner);

    if (hasFocus()) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(colours.deep, Space::focusRing));
        const double half = Space::focusRing / 2.0;
        painter.drawRoundedRect(QRectF(rect()).adjusted(half, half, -half, -half), Space::corner + 4,
                                Space::corner + 4);
    }

    const QFont words = wordsFont();
    const double wordsWidth = QFontMetricsF(words).horizontalAdvance(text());
    const bool hint = !m_keyHint.isEmpty() && width() >= sizeHint().width();
    const double hintWidth = !hint ? 0 : Space::small + QFontMetricsF(hintFont()).horizontalAdvance(m_keyHint);
    const double left = body.center().x() - (wordsWidth + hintWidth) / 2;
    painter.setPen(main ? colours.onDeep : isEnabled() ? colours.deep : colours.secondInk);
    painter.setFont(words);
    painter.drawText(QRectF(left, body.top(), wordsWidth + 1, body.height()), Qt::AlignVCenter | Qt::AlignLeft, text());
    if (hint) {
        painter.setFont(hintFont());
        painter.setPen(main ? colours.onDeep : colours.secondInk);
        painter.drawText(QRectF(left + wordsWidth + Space::small, body.top(), hintWidth, body.height()),
                         Qt::AlignVCenter | Qt::AlignLeft, m_keyHint);
    }
}

void BigButton::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        click(); // a key held down repeats; the filter makes one press of it
        event->accept();
        return;
    }
    QPushButton::keyPressEvent(event);
}

void BigButton::changeEvent(QEvent* event)
{
    if (event->type() == QEvent::StyleChange)
        updateGeometry();
    QPushButton::changeEvent(event);
}

} // namespace vh
