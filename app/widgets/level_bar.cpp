#include "app/widgets/level_bar.h"
#include "app/look/look.h"

#include <QPainter>

#include <algorithm>
#include <cmath>

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

QSize LevelBar::sizeHint() const
{
    const QFontMetricsF metrics(Look::current().font(Type::control));
    return {static_cast<int>(std::ceil(metrics.horizontalAdvance(m_state.words) + kBlocksWidth)) + 14 + Space::small +
                14,
            std::max(Space::control, static_cast<int>(std::ceil(metrics.height())) + 4)};
}

void LevelBar::paintEvent(QPaintEvent* /*event*/)
{
    const look::Palette& colours = Look::current().palette();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const bool live = m_state.dbfsA.has_value();
    painter.setPen(QPen(live ? colours.deep : colours.deep2, 2, live ? Qt::SolidLine : Qt::DashLine));
    painter.setBrush(live ? colours.deep : colours.sheet);
    painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), Space::corner - 4, Space::corner - 4);

    const QColor front = live ? colours.onDeep : colours.deep;
    painter.setPen(front);
    painter.setFont(Look::current().font(Type::control));
    const double blocksLeft = width() - 14 - kBlocksWidth;
    painter.drawText(QRectF(14, 0, blocksLeft - 14, height()), Qt::AlignVCenter | Qt::AlignLeft, m_state.words);
    const int lit = blocksOf(m_state);
    for (int i = 0; i < kBlocks; ++i) {
        const QRectF block(blocksLeft + i * kBlockStep + 1, height() / 2.0 - 8, kBlockWidth - 1, 16);
        painter.setPen(QPen(front, 1.2));
        painter.setBrush(i < lit ? QBrush(front) : QBrush(Qt::NoBrush));
        painter.drawRect(block);
    }
}

} // namespace vh
