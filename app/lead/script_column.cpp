#include "app/lead/script_column.h"

#include "app/lead/page_parts.h"
#include "app/look/look.h"

#include <QEvent>
#include <QPainter>

#include <cmath>

namespace vh::lead
{

using look::Space;

namespace
{
/// Two lines at the largest size, with their bars.
constexpr int kUsualTextHeight = 190;
} // namespace

ScriptColumn::ScriptColumn(QWidget* parent)
    : QWidget(parent), m_last(new OneLine(look::Type::body, OneLine::Ink::second, this)), m_now(new FittedText(this)),
      m_turns(new TurnRow(this)), m_note(new NoteText(this)),
      m_next(new OneLine(look::Type::title, OneLine::Ink::second, this))
{
    m_next->setRuled();
}

void ScriptColumn::setState(const Column& column)
{
    m_last->setText(column.last);
    m_turns->setState(column.turns);
    m_next->setText(column.next);
    // Fitting is not cheap, and the room is told ten times a second.
    const bool same = column.now.text == m_shown.now.text && column.now.stretches == m_shown.now.stretches &&
                      column.note == m_shown.note;
    m_shown = column;
    if (same)
        return;
    m_note->setText(column.note);
    m_now->setState(column.now);
    place();
}

void ScriptColumn::place()
{
    const QRect inside = rect().adjusted(Space::wide + 4, Space::gap, -Space::wide - 4, -Space::gap);
    const int width = inside.width();
    const int noteHeight = m_shown.note.isEmpty() ? 0 : m_note->heightForWidth(width);
    const int around = m_last->sizeHint().height() + m_turns->sizeHint().height() + noteHeight +
                       m_next->sizeHint().height() + 4 * Space::gap;
    const int room = std::max(inside.height() - around, 60);

    int y = inside.top();
    const auto put = [&](QWidget* widget, int height) {
        widget->setGeometry(inside.left(), y, width, height);
        y += height + Space::gap;
    };
    put(m_last, m_last->sizeHint().height());
    m_now->setGeometry(inside.left(), y, width, room); // fits itself; then it takes what it needs
    const int needed = static_cast<int>(std::ceil(m_now->lines().height)) + Space::small;
    y += std::clamp(std::max(needed, kUsualTextHeight), 0, room) + Space::gap;
    put(m_turns, m_turns->sizeHint().height());
    put(m_note, noteHeight);
    put(m_next, m_next->sizeHint().height());
}

void ScriptColumn::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    place();
}

void ScriptColumn::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange)
        place();
}

void ScriptColumn::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    look::paintSheet(painter, QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), look::Look::current().palette().sheet);
}

} // namespace vh::lead
