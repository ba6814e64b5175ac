#include "app/widgets/level_bar.h"
#include "app/look/look.h"

#include <QPainter>
#include <QTextLayout>

#include <algorithm>
#include <cmath>
#include <vector>

namespace vh
{

using look::Look;
using look::Space;
using look::Type;

namespace
{

constexpr double kBlockWidth = 7;
constexpr double kBlockStep = 9;
constexpr double kBlocksWidth = LevelBar::kBlocks * kBlockStep;
constexpr int kInset = 14;
constexpr int kOneLine = 18;        ///< characters; more than that stand in two lines
constexpr double kSmallPitch = 1.2; ///< of the letters' size

} // namespace

int LevelBar::blocksOf(const State& state)
{
    if (!state.dbfsA)
        return 0;
    return std::clamp(static_cast<int>(std::floor((*state.dbfsA - kFloorDbfsA) / kStepDb)), 0, kBlocks);
}

LevelBar::LevelBar(QWidget* parent) : SpokenWidget(QAccessible::Indicator, parent)
{
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
}

void LevelBar::setState(const State& state)
{
    if (state == m_state)
        return;
    const bool otherWords = state.words != m_state.words;
    m_state = state;
    say(m_state.words);
    if (otherWords)
        updateGeometry();
    update();
}

void LevelBar::keepRoomFor(const QStringList& words)
{
    m_keeps = words;
    updateGeometry();
}

/// One line where that is short, else two in smaller letters, broken where they are narrowest.
double LevelBar::widthOf(const QString& words)
{
    const double whole = QFontMetricsF(Look::current().font(Type::control)).horizontalAdvance(words);
    if (words.size() <= kOneLine)
        return whole;
    const QFontMetricsF small(Look::current().font(Type::note));
    double narrowest = small.horizontalAdvance(words);
    for (qsizetype at = words.indexOf(' '); at >= 0; at = words.indexOf(' ', at + 1))
        narrowest = std::min(
            narrowest, std::max(small.horizontalAdvance(words.left(at)), small.horizontalAdvance(words.mid(at + 1))));
    return std::min(whole, narrowest);
}

QSize LevelBar::sizeHint() const
{
    double wide = widthOf(m_state.words);
    for (const QString& words : m_keeps)
        wide = std::max(wide, widthOf(words));
    const bool twoLines = !m_keeps.isEmpty() || m_state.words.size() > kOneLine;
    const double high = twoLines ? 2 * kSmallPitch * Look::current().pixels(Type::note)
                                 : QFontMetricsF(Look::current().font(Type::control)).height();
    return {static_cast<int>(std::ceil(wide + kBlocksWidth)) + 2 * kInset + Space::small + 2,
            std::max(Space::control, static_cast<int>(std::ceil(high)) + Space::small)};
}

void LevelBar::paintEvent(QPaintEvent* /*event*/)
{
    const look::Palette& colours = Look::current().palette();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const bool on = m_state.on && m_state.dbfsA.has_value();
    painter.setPen(QPen(on ? colours.deep : colours.deep2, 2, on ? Qt::SolidLine : Qt::DashLine));
    painter.setBrush(on ? colours.deep : colours.sheet);
    painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), Space::corner - 4, Space::corner - 4);

    const QColor front = on ? colours.onDeep : colours.deep;
    painter.setPen(front);
    const double blocksLeft = width() - kInset - kBlocksWidth;
    paintWords(painter, QRectF(kInset, 0, blocksLeft - kInset - Space::small + 2, height()));
    const int lit = blocksOf(m_state);
    for (int i = 0; i < kBlocks; ++i) {
        const QRectF block(blocksLeft + i * kBlockStep + 1, height() / 2.0 - 8, kBlockWidth - 1, 16);
        painter.setPen(QPen(front, 1.2));
        painter.setBrush(i < lit ? QBrush(front) : QBrush(Qt::NoBrush));
        painter.drawRect(block);
    }
}

void LevelBar::paintWords(QPainter& painter, const QRectF& room) const
{
    const QFont one = Look::current().font(Type::control);
    if (QFontMetricsF(one).horizontalAdvance(m_state.words) <= room.width()) {
        painter.setFont(one);
        painter.drawText(room, Qt::AlignVCenter | Qt::AlignLeft, m_state.words);
        return;
    }
    painter.setFont(Look::current().font(Type::note));
    QTextLayout layout(m_state.words, painter.font());
    std::vector<QTextLine> lines;
    layout.beginLayout();
    for (QTextLine line = layout.createLine(); line.isValid(); line = layout.createLine()) {
        line.setLineWidth(room.width());
        lines.push_back(line);
    }
    layout.endLayout();
    const double pitch = kSmallPitch * Look::current().pixels(Type::note);
    double y = room.center().y() - pitch * static_cast<double>(lines.size()) / 2;
    for (QTextLine& line : lines) {
        line.setPosition({0, y + (pitch - line.height()) / 2});
        y += pitch;
    }
    layout.draw(&painter, QPointF(room.left(), 0));
}

} // namespace vh
