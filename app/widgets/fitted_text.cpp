#include "app/widgets/fitted_text.h"
#include "app/look/look.h"

#include <QEvent>
#include <QPainter>
#include <QTextLayout>

#include <algorithm>
#include <cmath>
#include <memory>

namespace vh
{

namespace
{

std::unique_ptr<QTextLayout> laidOut(const QString& line, const FittedLines& fitted, look::Weight weight)
{
    auto layout = std::make_unique<QTextLayout>(line, look::fontOfPixels(fitted.pixelSize, weight));
    layout->beginLayout();
    layout->createLine().setLineWidth(1e6); // broken already
    layout->endLayout();
    return layout;
}

} // namespace

FittedText::FittedText(QWidget* parent) : SpokenWidget(QAccessible::StaticText, parent)
{
    QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Expanding);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

void FittedText::setState(const State& state)
{
    m_state = state;
    m_text = QString::fromStdString(state.text);
    m_ranges = rangesOf(state.text, state.stretches);
    say(m_text);
    fit();
    updateGeometry();
    update();
}

int FittedText::heightForWidth(int width) const
{
    FitLimits smallest = m_state.limits;
    smallest.largest = smallest.smallest;
    return static_cast<int>(std::ceil(fitText(m_text, QSizeF(width, 0), smallest).height)) + 1;
}

QSize FittedText::sizeHint() const
{
    return {600, heightForWidth(600)};
}

QSize FittedText::minimumSizeHint() const
{
    return {6 * m_state.limits.smallest, 2 * m_state.limits.smallest};
}

void FittedText::resizeEvent(QResizeEvent* /*event*/)
{
    fit();
}

void FittedText::changeEvent(QEvent* event)
{
    if (event->type() == QEvent::StyleChange)
        fit();
    SpokenWidget::changeEvent(event);
}

QPointF FittedText::originOf(int line) const
{
    double top = 0;
    if (m_state.alignment & Qt::AlignVCenter)
        top = (height() - m_lines.height) / 2;
    else if (m_state.alignment & Qt::AlignBottom)
        top = height() - m_lines.height;
    double left = 0;
    if (m_state.alignment & Qt::AlignHCenter) {
        const QFontMetricsF metrics(look::fontOfPixels(m_lines.pixelSize, m_state.limits.weight));
        left = (width() - metrics.horizontalAdvance(m_lines.lines[line])) / 2;
    }
    return {std::max(left, 0.0), std::max(top, 0.0) + m_lines.ascent + line * m_lines.lineHeight};
}

void FittedText::fit()
{
    m_lines = fitText(m_text, QSizeF(size()), m_state.limits);
    if (!m_lines.fits && m_state.limits.whole > 0) {
        FitLimits smaller = m_state.limits;
        smaller.largest = smaller.smallest;
        smaller.smallest = smaller.whole;
        m_lines = fitText(m_text, QSizeF(size()), smaller);
    }
    m_bars.clear();
    for (int line = 0; line < m_lines.lines.size(); ++line) {
        const qsizetype begin = m_lines.starts[line];
        const qsizetype end = begin + m_lines.lines[line].size();
        const auto layout = laidOut(m_lines.lines[line], m_lines, m_state.limits.weight);
        const QTextLine shaped = layout->lineAt(0);
        const QPointF origin = originOf(line);
        for (const TextRange& range : m_ranges) {
            const qsizetype from = std::max(range.begin, begin);
            const qsizetype to = std::min(range.end, end);
            if (from >= to)
                continue;
            const double one = shaped.cursorToX(static_cast<int>(from - begin));
            const double other = shaped.cursorToX(static_cast<int>(to - begin));
            m_bars.push_back(QRectF(origin.x() + std::min(one, other), origin.y() + m_lines.barTop,
                                    std::abs(other - one), m_lines.barHeight));
        }
    }
}

void FittedText::paintEvent(QPaintEvent* /*event*/)
{
    const look::Palette& colours = look::Look::current().palette();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(Qt::NoPen);
    painter.setBrush(colours.stretch);
    for (const QRectF& bar : m_bars)
        painter.drawRoundedRect(bar, bar.height() / 4, bar.height() / 4);
    painter.setPen(m_state.ink == State::Ink::main ? colours.ink : colours.secondInk);
    for (int line = 0; line < m_lines.lines.size(); ++line) {
        const auto layout = laidOut(m_lines.lines[line], m_lines, m_state.limits.weight);
        layout->draw(&painter, originOf(line) - QPointF(0, layout->lineAt(0).ascent()));
    }
}

} // namespace vh
