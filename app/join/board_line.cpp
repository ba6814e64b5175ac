#include "app/join/board_line.h"

#include "app/look/look.h"
#include "app/widgets/big_button.h"

#include <QPainter>
#include <QTextLayout>

#include <cmath>

namespace vh::join
{

using look::Look;
using look::Space;
using look::Type;

namespace
{

constexpr int kPad = Space::gap;
constexpr double kLinePitch = 1.3;     // of the letters' size: the typeface's own is made for books
constexpr double kNameLetters = 8.5;   // width of the names' column, in sizes of its letters
constexpr double kPictureShare = 0.42; // of the height there is: two have room
constexpr Type kSizes[] = {Type::touch, Type::title, Type::body, Type::note};
constexpr Type kBelow = Type::body;

/// Laid out from (0, 0) downwards; painted where there is a painter. Its height.
double words(const QString& text, const QFont& font, double width, QPainter* painter = nullptr, QPointF at = {})
{
    QString lines = text;
    lines.replace('\n', QChar::LineSeparator);
    QTextLayout layout(lines, font);
    QTextOption option;
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    layout.setTextOption(option);
    const double pitch = kLinePitch * font.pixelSize();
    double y = 0;
    layout.beginLayout();
    for (QTextLine line = layout.createLine(); line.isValid(); line = layout.createLine()) {
        line.setLineWidth(std::max(width, 40.0));
        const double middle = QFontMetricsF(font).capHeight() / 2;
        line.setPosition({0, y + pitch / 2 + middle - line.ascent()});
        y += pitch;
    }
    layout.endLayout();
    if (painter)
        layout.draw(painter, at);
    return y;
}

} // namespace

BoardLineView::BoardLineView(QWidget* parent)
    : SpokenWidget(QAccessible::ListItem, parent),
      m_act(new BigButton({}, BigButton::Rank::plain, BigButton::Size::touch, this))
{
    m_act->hide();
    connect(m_act, &BigButton::pressRequested, this, [this] { emit pressRequested(m_row.key); });
}

void BoardLineView::setRow(const BoardRow& row)
{
    if (row == m_row)
        return;
    m_row = row;
    m_act->setText(row.act);
    m_act->setSign(row.sign);
    m_act->setAccessibleDescription(row.text);
    m_act->setVisible(!row.act.isEmpty());
    QString all = row.head.isEmpty() ? row.text : QStringLiteral("%1: %2").arg(row.head, row.text);
    for (const QString& more : {row.pictureDescribed, row.below})
        if (!more.isEmpty())
            all += QStringLiteral(". ") + more;
    say(all);
    update();
}

double BoardLineView::nameWidth() const
{
    return m_row.head.isEmpty() ? 0 : kNameLetters * Look::current().pixels(kBelow) + Space::gap;
}

double BoardLineView::textWidth(int width) const
{
    const double act = m_row.act.isEmpty() ? 0 : m_act->sizeHint().width() + Space::gap;
    const double picture = m_row.picture.isNull() ? 0 : pictureSize().width() + Space::gap;
    return width - 2 * kPad - nameWidth() - act - picture;
}

QSizeF BoardLineView::pictureSize() const
{
    const QSizeF size = m_row.picture.size();
    return size.isEmpty() ? QSizeF() : size.scaled(2 * m_pictureMost, m_pictureMost, Qt::KeepAspectRatio);
}

double BoardLineView::heightAt(Type type, double width) const
{
    double high = words(m_row.text, Look::current().font(type), width);
    if (!m_row.below.isEmpty())
        high += words(m_row.below, Look::current().font(kBelow), width);
    return high;
}

void BoardLineView::fit(int width, int most)
{
    m_pictureMost = kPictureShare * most;
    const double wide = textWidth(width);
    double high = 0;
    for (const Type type : kSizes) {
        m_type = type;
        high = heightAt(type, wide);
        if (high + 2 * kPad <= most)
            break;
    }
    high = std::max(high, pictureSize().height());
    const int act = m_row.act.isEmpty() ? 0 : m_act->sizeHint().height();
    m_wanted = std::max(static_cast<int>(std::ceil(high)), act) + 2 * kPad;
    update();
}

void BoardLineView::resizeEvent(QResizeEvent* /*event*/)
{
    const QSize act = m_act->sizeHint();
    m_act->setGeometry(width() - kPad - act.width(), (height() - act.height()) / 2, act.width(), act.height());
}

void BoardLineView::paintEvent(QPaintEvent* /*event*/)
{
    const look::Palette& colours = Look::current().palette();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const bool apart = m_row.kind == BoardRow::Kind::notice || m_row.kind == BoardRow::Kind::answer;
    look::paintSheet(painter, QRectF(rect()), apart ? colours.quiet : colours.sheet);
    double left = kPad;
    const double wide = textWidth(width());
    const double top = std::max<double>(kPad, (height() - heightAt(m_type, wide)) / 2);
    if (!m_row.head.isEmpty()) {
        const QFont bold = Look::current().font(kBelow, look::Weight::bold);
        painter.setPen(colours.ink);
        // On one line with the first of the words, whatever their size.
        const double down = kLinePitch * (Look::current().pixels(m_type) - Look::current().pixels(kBelow)) / 2;
        const double room = nameWidth() - Space::gap;
        words(m_row.head, bold, room, &painter, {left, top + std::max(0.0, down)});
        left += nameWidth();
    }
    if (!m_row.picture.isNull()) {
        const QSizeF size = pictureSize();
        painter.setRenderHint(QPainter::SmoothPixmapTransform);
        painter.drawImage(QRectF({left, (height() - size.height()) / 2}, size), m_row.picture);
        left += size.width() + Space::gap;
    }
    painter.setPen(colours.ink);
    const double high = words(m_row.text, Look::current().font(m_type), wide, &painter, {left, top});
    painter.setPen(colours.secondInk);
    if (!m_row.below.isEmpty())
        words(m_row.below, Look::current().font(kBelow), wide, &painter, {left, top + high});
}

} // namespace vh::join
