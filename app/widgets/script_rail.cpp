#include "app/widgets/script_rail.h"
#include "app/look/look.h"
#include "app/widgets/rail_labels.h"

#include <QHelpEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QPainterPath>
#include <QToolTip>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace vh
{

using look::Look;
using look::Space;
using look::Type;

namespace
{

constexpr double kDropWidth = 22;
constexpr double kDropHeight = 30;
constexpr double kBoxHeight = 32;
constexpr double kGap = 3;

Millis plannedOf(const ScriptRail::State& state)
{
    return std::accumulate(state.parts.begin(), state.parts.end(), Millis{0},
                           [](Millis sum, const ScriptRail::Part& part) { return sum + part.planned; });
}

QPainterPath dropIn(const QRectF& box)
{
    const double radius = std::min(box.width() / 2 - 1, kDropWidth / 2 - 1);
    const QPointF centre(box.center().x(), box.bottom() - radius - 1);
    const double top = box.bottom() - kDropHeight;
    QPainterPath path(QPointF(centre.x(), top));
    path.cubicTo(centre.x() + radius * 0.5, top + radius, centre.x() + radius, centre.y() - radius * 0.6,
                 centre.x() + radius, centre.y());
    path.arcTo(QRectF(centre.x() - radius, centre.y() - radius, 2 * radius, 2 * radius), 0, -180);
    path.cubicTo(centre.x() - radius, centre.y() - radius * 0.6, centre.x() - radius * 0.5, top + radius, centre.x(),
                 top);
    path.closeSubpath();
    return path;
}

} // namespace

ScriptRail::ScriptRail(Form form, QWidget* parent) : SpokenWidget(QAccessible::ProgressBar, parent), m_form(form)
{
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void ScriptRail::setState(const State& state)
{
    if (state == m_state)
        return;
    m_state = state;
    const auto current = static_cast<std::size_t>(m_state.current);
    if (m_state.current >= 0 && current < m_state.parts.size())
        say(tr("%1, part %2 of %3")
                .arg(m_state.parts[current].title)
                .arg(m_state.current + 1)
                .arg(m_state.parts.size()));
    else
        say(tr("The class has %1 parts").arg(m_state.parts.size()));
    update();
}

std::vector<QRectF> ScriptRail::boxesOf(const State& state, QRectF where)
{
    const auto drops = static_cast<double>(std::count_if(
        state.parts.begin(), state.parts.end(), [](const Part& p) { return p.pause && p.planned > Millis{0}; }));
    Millis spoken{0};
    for (const Part& part : state.parts)
        spoken += part.pause ? Millis{0} : part.planned;
    const double gaps = kGap * static_cast<double>(std::max<std::size_t>(state.parts.size(), 1) - 1);
    const double room = std::max(0.0, where.width() - drops * kDropWidth - gaps);

    std::vector<QRectF> boxes;
    double x = where.left();
    for (const Part& part : state.parts) {
        double width = part.planned > Millis{0} ? kDropWidth : 0;
        if (!part.pause)
            width = spoken.count() > 0
                        ? room * static_cast<double>(part.planned.count()) / static_cast<double>(spoken.count())
                        : 0;
        boxes.emplace_back(x, where.top(), width, where.height());
        x += width + kGap;
    }
    return boxes;
}

double ScriptRail::doneOf(const State& state, std::size_t index)
{
    Millis before{0};
    for (std::size_t i = 0; i < index; ++i)
        before += state.parts[i].planned;
    const Millis planned = state.parts[index].planned;
    if (planned <= Millis{0})
        return state.done > before ? 1.0 : 0.0;
    return std::clamp(static_cast<double>((state.done - before).count()) / static_cast<double>(planned.count()), 0.0,
                      1.0);
}

QSize ScriptRail::sizeHint() const
{
    if (m_form == Form::slim)
        return {260, 12};
    const double label = QFontMetricsF(Look::current().font(Type::fine)).height();
    return {900, static_cast<int>(std::ceil(label + kBoxHeight + 10))};
}

QSize ScriptRail::minimumSizeHint() const
{
    return {m_form == Form::slim ? 120 : 300, sizeHint().height()};
}

void ScriptRail::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    if (m_form == Form::slim)
        paintSlim(painter);
    else
        paintFull(painter);
}

void ScriptRail::paintSlim(QPainter& painter) const
{
    const look::Palette& colours = Look::current().palette();
    const QRectF frame = QRectF(rect()).adjusted(1, (height() - 11) / 2.0, -1, -(height() - 11) / 2.0);
    QPainterPath outline;
    outline.addRoundedRect(frame, frame.height() / 2, frame.height() / 2);
    painter.setPen(Qt::NoPen);
    painter.fillPath(outline, colours.sheet);
    const Millis planned = plannedOf(m_state);
    const double share =
        planned > Millis{0}
            ? std::clamp(static_cast<double>(m_state.done.count()) / static_cast<double>(planned.count()), 0.0, 1.0)
            : 0.0;
    painter.save();
    painter.setClipRect(QRectF(frame.left(), frame.top(), frame.width() * share, frame.height()));
    painter.fillPath(outline, colours.deep2);
    painter.restore();
    painter.setPen(QPen(colours.deep2, 1.5));
    painter.setBrush(Qt::NoBrush);
    painter.drawPath(outline);
}

void ScriptRail::paintFull(QPainter& painter) const
{
    const double label = std::ceil(QFontMetricsF(Look::current().font(Type::fine)).height());
    const std::vector<QRectF> boxes = boxesOf(m_state, QRectF(1, label + 3, width() - 2, kBoxHeight));
    for (std::size_t i = 0; i < boxes.size(); ++i)
        if (m_state.parts[i].planned > Millis{0})
            paintPart(painter, i, boxes[i]);
    paintTitles(painter, boxes, label);
}

void ScriptRail::paintPart(QPainter& painter, std::size_t index, const QRectF& box) const
{
    const look::Palette& colours = Look::current().palette();
    QPainterPath shape;
    if (m_state.parts[index].pause)
        shape = dropIn(box);
    else
        shape.addRoundedRect(box.adjusted(1, 1, -1, -1), 5, 5);
    painter.setPen(Qt::NoPen);
    painter.fillPath(shape, colours.sheet);
    if (const double done = doneOf(m_state, index); done > 0) {
        const QRectF bounds = shape.boundingRect();
        painter.save();
        painter.setClipRect(QRectF(bounds.left(), bounds.top(), bounds.width() * done, bounds.height()));
        painter.fillPath(shape, colours.deep2);
        painter.restore();
    }
    const bool current = static_cast<int>(index) == m_state.current;
    painter.setPen(QPen(colours.deep2, current ? 3 : 1.5));
    painter.setBrush(Qt::NoBrush);
    painter.drawPath(shape);
}

void ScriptRail::paintTitles(QPainter& painter, const std::vector<QRectF>& boxes, double height) const
{
    const look::Palette& colours = Look::current().palette();
    std::vector<std::size_t> titled;
    std::vector<RailLabel> labels;
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        if (m_state.parts[i].pause || m_state.parts[i].planned <= Millis{0})
            continue;
        titled.push_back(i);
        labels.push_back({boxes[i].left() + 2, std::ceil(QFontMetricsF(labelFont(i)).horizontalAdvance(labelOf(i))) + 1,
                          boxes[i].width(), static_cast<int>(i) == m_state.current});
    }
    const auto places = placeLabels(labels, width(), Space::small);
    for (std::size_t n = 0; n < titled.size(); ++n) {
        if (!places[n])
            continue;
        painter.setFont(labelFont(titled[n]));
        painter.setPen(labels[n].current ? colours.ink : colours.secondInk);
        painter.drawText(QRectF(*places[n], 0, labels[n].width, height), Qt::AlignLeft | Qt::AlignVCenter,
                         labelOf(titled[n]));
    }
}

QString ScriptRail::labelOf(std::size_t index) const
{
    const Part& part = m_state.parts[index];
    return part.label.isEmpty() || static_cast<int>(index) == m_state.current ? part.title : part.label;
}

QFont ScriptRail::labelFont(std::size_t index) const
{
    return Look::current().font(Type::fine, static_cast<int>(index) == m_state.current ? look::Weight::bold
                                                                                       : look::Weight::regular);
}

int ScriptRail::partAt(int x) const
{
    const std::vector<QRectF> boxes = boxesOf(m_state, QRectF(1, 0, width() - 2, height()));
    for (std::size_t i = 0; i < boxes.size(); ++i)
        if (boxes[i].left() <= x && x <= boxes[i].right() && boxes[i].width() > 0)
            return static_cast<int>(i);
    return -1;
}

void ScriptRail::mousePressEvent(QMouseEvent* event)
{
    const int part = m_form == Form::full && event->button() == Qt::LeftButton ? partAt(event->pos().x()) : -1;
    if (part < 0)
        return SpokenWidget::mousePressEvent(event);
    emit partPressed(part);
}

bool ScriptRail::event(QEvent* event)
{
    if (event->type() != QEvent::ToolTip || m_form == Form::slim)
        return SpokenWidget::event(event);
    const auto* help = static_cast<QHelpEvent*>(event);
    const int part = partAt(help->pos().x());
    const QString words = part < 0 ? QString() : m_state.parts[static_cast<std::size_t>(part)].title;
    QToolTip::showText(help->globalPos(), words.toHtmlEscaped(), this);
    return true;
}

} // namespace vh
