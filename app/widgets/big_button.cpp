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
constexpr double kNamePad = Space::wide;
constexpr double kSignGap = 10;    // between a sign and its words
constexpr double kLinePitch = 1.3; // of the letters' size, from line to line
constexpr double kCaptionPitch = 1.16;

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

void BigButton::setCaption(const QString& caption)
{
    if (caption == m_caption)
        return;
    m_caption = caption;
    setAccessibleDescription(caption);
    updateGeometry();
    update();
}

void BigButton::setSign(std::optional<look::Sign> sign)
{
    if (sign == m_sign)
        return;
    m_sign = sign;
    updateGeometry();
    update();
}

void BigButton::keepRoomFor(const QString& words, const QString& caption)
{
    m_alsoWords = words;
    m_alsoCaption = caption;
    updateGeometry();
}

QFont BigButton::wordsFont() const
{
    switch (m_size) {
    case Size::name:
        return Look::current().font(look::Type::cue);
    case Size::touch:
        return Look::current().font(look::Type::touch);
    case Size::desk:
        break;
    }
    return Look::current().font(look::Type::control);
}

/// Of the key's name or of the caption.
QFont BigButton::smallFont() const
{
    if (!m_keyHint.isEmpty())
        return Look::current().font(look::Type::fine);
    return Look::current().font(m_size == Size::desk ? look::Type::note : look::Type::caption);
}

double BigButton::signSide() const
{
    return m_sign ? std::ceil(1.3 * wordsFont().pixelSize()) : 0;
}

double BigButton::widthOf(const QString& words, const QString& caption, bool hint) const
{
    double width = QFontMetricsF(wordsFont()).horizontalAdvance(words);
    if (hint && !m_keyHint.isEmpty())
        width += Space::small + QFontMetricsF(smallFont()).horizontalAdvance(m_keyHint);
    return std::max(width, QFontMetricsF(smallFont()).horizontalAdvance(caption));
}

void BigButton::setHintGivesWay()
{
    m_hintGivesWay = true;
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
}

QSize BigButton::sizeHint() const
{
    return sizeWith(m_sign ? signSide() + kSignGap : 0, true);
}

QSize BigButton::sizeWith(double signRoom, bool hint) const
{
    const bool touch = m_size != Size::desk;
    const double wide = std::max(widthOf(text(), m_caption, hint), widthOf(m_alsoWords, m_alsoCaption, hint)) +
                        signRoom + 2 * (touch ? Space::wide - 4 : Space::wide - 8);
    const bool twoLines = !m_caption.isEmpty() || !m_alsoCaption.isEmpty();
    double high = kLinePitch * wordsFont().pixelSize() + (twoLines ? 10 : Space::gap);
    if (twoLines)
        high += kCaptionPitch * smallFont().pixelSize();
    const int least = touch ? Space::touch : Space::control;
    const QSize body(std::max(static_cast<int>(std::ceil(wide)), least),
                     std::max(static_cast<int>(std::ceil(high)), least));
    return body + QSize(2 * kRingRoom, 2 * kRingRoom);
}

void BigButton::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const QRectF body = QRectF(rect()).adjusted(kRingRoom, kRingRoom, -kRingRoom, -kRingRoom);
    paintBody(painter, body);
    paintWords(painter, body);
}

void BigButton::paintBody(QPainter& painter, const QRectF& body) const
{
    const look::Palette& colours = Look::current().palette();
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
}

/// Sign, words with their key, and the caption below the words, all together in the middle.
void BigButton::paintWords(QPainter& painter, const QRectF& body) const
{
    const look::Palette& colours = Look::current().palette();
    const bool main = m_rank == Rank::main && isEnabled();
    const QColor front = main ? colours.onDeep : isEnabled() ? colours.deep : colours.secondInk;
    const QColor second = main ? colours.onDeep : colours.secondInk;
    const bool hint = !m_keyHint.isEmpty() && (!m_hintGivesWay || width() >= sizeHint().width());
    const double signRoom = m_sign ? signSide() + kSignGap : 0;
    // In the middle; names, which stand below each other, all begin at one edge.
    double left = m_size == Size::name ? body.left() + kNamePad
                                       : body.center().x() - (widthOf(text(), m_caption, hint) + signRoom) / 2;
    if (m_sign)
        look::paintSign(painter, *m_sign, QRectF(left, body.center().y() - signSide() / 2, signSide(), signSide()),
                        front);
    left += signRoom;

    const double wordsHigh = kLinePitch * wordsFont().pixelSize();
    const double captionHigh = m_caption.isEmpty() ? 0 : kCaptionPitch * smallFont().pixelSize();
    const double top = body.center().y() - (wordsHigh + captionHigh) / 2;
    const auto line = [&](double x, double y, double high, const QFont& font, const QColor& colour,
                          const QString& words) {
        const QFontMetricsF metrics(font);
        painter.setFont(font);
        painter.setPen(colour);
        painter.drawText(QPointF(x, y + (high + metrics.capHeight()) / 2), words);
        return x + metrics.horizontalAdvance(words);
    };
    const double right = line(left, top, wordsHigh, wordsFont(), front, text());
    if (hint)
        line(right + Space::small, top, wordsHigh, smallFont(), second, m_keyHint);
    if (!m_caption.isEmpty())
        line(left, top + wordsHigh, captionHigh, smallFont(), second, m_caption);
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
