#include "app/lead/script_column.h"

#include "app/lead/page_parts.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"

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
/// With less than this for the text the line before goes.
constexpr int kLeastTextHeight = 130;
} // namespace

ScriptColumn::ScriptColumn(QWidget* parent)
    : QWidget(parent), m_notice(new NoticeLine(this, look::Type::note)),
      m_last(new OneLine(look::Type::body, OneLine::Ink::second, this)), m_now(new FittedText(this)),
      m_turns(new TurnRow(this)), m_note(new NoteText(this)),
      m_next(new OneLine(look::Type::title, OneLine::Ink::second, this)),
      m_steps(new BigButton(tr("Steps"), BigButton::Rank::plain, BigButton::Size::desk, this))
{
    m_next->setRuled();
    m_steps->setKeyHint(QStringLiteral("J"));
    m_steps->setHintGivesWay();
    m_steps->setFocusPolicy(Qt::TabFocus);
    m_steps->setAccessibleName(tr("Steps of the class: jump, correct, more time, end on time"));
    m_steps->hide();
    connect(m_steps, &BigButton::pressRequested, this, &ScriptColumn::stepsRequested);
    m_notice->hide();
}

void ScriptColumn::setState(const Column& column)
{
    m_last->setText(column.last);
    m_turns->setState(column.turns);
    m_next->setText(column.next);
    // Fitting is not cheap, and the room is told ten times a second.
    const bool same = column.now.text == m_shown.now.text && column.now.stretches == m_shown.now.stretches &&
                      column.note == m_shown.note && column.mayChange == m_shown.mayChange;
    m_shown = column;
    if (same)
        return;
    m_steps->setVisible(column.mayChange);
    m_note->setText(column.note);
    m_now->setState(column.now);
    place();
}

void ScriptColumn::setNotice(const NoticeLine::State& notice)
{
    if (notice == m_notice->state())
        return;
    m_notice->setState(notice);
    placeNotice();
}

void ScriptColumn::place()
{
    const QRect inside = rect().adjusted(Space::wide, Space::small, -Space::wide, -Space::small);
    const int width = inside.width();
    const int noteHeight = m_shown.note.isEmpty() ? 0 : m_note->heightForWidth(width);
    const int turnsHeight = m_turns->heightForWidth(width);
    const int strip = m_last->sizeHint().height() + Space::gap;
    const QSize steps = m_shown.mayChange ? m_steps->sizeHint() : QSize(0, 0);
    const int nextHeight = std::max(m_next->sizeHint().height(), steps.height() + Space::hair);
    const int around = turnsHeight + noteHeight + nextHeight + 3 * Space::gap;
    int room = inside.height() - around - strip;
    m_lastFits = room >= kLeastTextHeight;
    // A little more air where there is plenty, so that a notice of two lines stands clear of the text.
    const int air = std::clamp(room - kUsualTextHeight, 0, Space::wide);
    room -= air;
    if (!m_lastFits)
        room = std::max(room + strip, 60);

    int y = inside.top() + (m_lastFits ? strip + air : 0);
    m_strip = m_lastFits ? strip + air : 0;
    m_last->setGeometry(inside.left(), inside.top(), width, m_last->sizeHint().height());
    const auto put = [&](QWidget* widget, int height) {
        widget->setGeometry(inside.left(), y, width, height);
        y += height + Space::gap;
    };
    m_now->setGeometry(inside.left(), y, width, room); // fits itself; then it takes what it needs
    const int needed = static_cast<int>(std::ceil(m_now->lines().height)) + Space::small;
    y += std::clamp(std::max(needed, kUsualTextHeight), 0, room) + Space::gap;
    put(m_turns, turnsHeight);
    put(m_note, noteHeight);
    put(m_next, nextHeight);
    if (m_shown.mayChange) {
        const QRect foot = m_next->geometry();
        m_steps->setGeometry(foot.right() + 1 - steps.width(), foot.bottom() + 1 - steps.height(), steps.width(),
                             steps.height());
        m_next->setGeometry(foot.adjusted(0, 0, -steps.width() - Space::gap, 0));
    }
    placeNotice();
}

void ScriptColumn::placeNotice()
{
    const bool said = !m_notice->state().words.isEmpty();
    m_notice->setVisible(said);
    m_last->setVisible(m_lastFits && !said);
    if (!said)
        return;
    const QRect inside = rect().adjusted(Space::hair, Space::hair, -Space::hair, -Space::hair);
    const int tall = std::min(m_notice->heightForWidth(inside.width()), inside.height());
    // Over the line before where it fits there, else over the next one; never over what is being said.
    const int top = tall <= m_strip + Space::hair ? inside.top() : inside.bottom() + 1 - tall;
    m_notice->setGeometry(inside.left(), top, inside.width(), tall);
    m_notice->raise();
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
