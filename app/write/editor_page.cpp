#include "app/write/editor_page.h"

#include "app/write/ask_panel.h"
#include "app/write/page_parts.h"
#include "app/write/picture_side.h"
#include "app/write/remarks_box.h"
#include "app/write/sheet_preview.h"
#include "app/write/step_list.h"
#include "app/write/turns_side.h"
#include "app/write/whole_sides.h"
#include "app/write/words_side.h"

#include <QEvent>
#include <QMouseEvent>
#include <QStackedLayout>

namespace vh::write
{

using look::Space;

EditorPage::EditorPage(QWidget* parent) : QWidget(parent), m_pages(new QStackedLayout(this)), m_ask(new AskPanel(this))
{
    setObjectName("room");
    setAttribute(Qt::WA_StyledBackground);
    m_desk = makeDesk();
    m_pages->addWidget(m_desk);
    m_pages->addWidget(m_ask);
    connect(m_ask, &AskPanel::answered, this, &EditorPage::answered);
    makeShortcuts();
}

void EditorPage::setState(const EditorView& view)
{
    m_view = view;
    const bool asks = view.ask.question != EditorQuestion::none;
    m_ask->setState(view.ask);
    if (asks)
        return m_pages->setCurrentWidget(m_ask);
    showHead();
    m_rail->setState(view.rail);
    m_list->setState(view.rows, view.current);
    showStep();
    m_sheet->setState(view.sheet, view.sheetSize, view.largest ? look::TextSize::largest : look::TextSize::usual);
    m_remarks->setState(view);
    m_pages->setCurrentWidget(m_desk);
}

void EditorPage::showHead()
{
    const QFontMetrics metrics(look::Look::current().font(look::Type::title, look::Weight::bold));
    m_title->setText(metrics.elidedText(m_view.title, Qt::ElideMiddle, m_title->width()));
    m_title->setAccessibleName(m_view.title);
    m_times->setText(m_view.times);
    m_kept->setState(m_view.kept);
    const auto enable = [this](Press which, bool can) { m_buttons[static_cast<int>(which)]->setEnabled(can); };
    enable(Press::undo, m_view.canUndo);
    enable(Press::redo, m_view.canRedo);
    enable(Press::save, m_view.canSave);
    enable(Press::toWrite, m_view.toWrite > 0);
    const bool chosen = m_view.current > 0;
    for (const Press each : {Press::newStep, Press::copy, Press::up, Press::down, Press::remove})
        enable(each, chosen);
    m_buttons[static_cast<int>(Press::whoseTurn)]->setText(m_view.sheetTurn == TurnKind::yours ? tr("Show Listen")
                                                                                               : tr("Show You"));
    m_buttons[static_cast<int>(Press::largest)]->setText(m_view.largest ? tr("Usual text") : tr("Largest text"));
}

void EditorPage::showStep()
{
    const StepRow::Kind kind =
        m_view.rows.empty() ? StepRow::Kind::wholeClass : m_view.rows[static_cast<std::size_t>(m_view.current)].kind;
    m_whole->setState(m_view.whole);
    m_part->setState(m_view.part);
    m_words->setState(m_view);
    m_turns->setState(m_view.step);
    m_picture->setState(m_view.step);
    m_step->setAccessibleName(m_view.step.where);
    m_fields->setCurrentWidget(kind == StepRow::Kind::wholeClass ? static_cast<QWidget*>(m_whole)
                               : kind == StepRow::Kind::part     ? static_cast<QWidget*>(m_part)
                                                                 : m_step);
}

void EditorPage::toFields(std::uint32_t begin, std::uint32_t end)
{
    if (m_fields->currentWidget() == m_whole)
        return m_whole->toTitle();
    if (m_fields->currentWidget() == m_part)
        return m_part->toTitle();
    toSide(Side::words);
    m_words->toText(begin, end);
}

void EditorPage::toSide(Side side)
{
    m_side = side;
    m_sides->setCurrentIndex(static_cast<int>(side));
    const Press all[] = {Press::words, Press::turns, Press::picture};
    for (int i = 0; i < 3; ++i)
        m_buttons[static_cast<int>(all[i])]->setRank(i == static_cast<int>(side) ? BigButton::Rank::main
                                                                                 : BigButton::Rank::plain);
    if (side == Side::words)
        m_words->toText();
    else if (side == Side::turns)
        m_turns->toScore(m_turns->chosen().round);
    else
        m_picture->toDescription();
}

void EditorPage::toRound(int round)
{
    toSide(Side::turns);
    m_turns->toScore(round);
}

TurnSpot EditorPage::turn() const
{
    return m_turns->chosen();
}

void EditorPage::chooseTurn(TurnSpot at)
{
    m_turns->choose(at);
}

int EditorPage::caret() const
{
    return m_words->caret();
}

int EditorPage::chosenRemark() const
{
    return m_remarks->chosen();
}

void EditorPage::chooseRemark(int remark)
{
    m_remarks->choose(remark);
}

void EditorPage::press(Press press)
{
    if (m_view.ask.question != EditorQuestion::none)
        return;
    const BigButton* button = m_buttons.value(static_cast<int>(press));
    if (button && !button->isEnabled())
        return;
    const bool inStep = m_fields->currentWidget() == m_step;
    switch (press) {
    case Press::words:
    case Press::turns:
    case Press::picture:
        if (inStep)
            toSide(static_cast<Side>(static_cast<int>(press) - static_cast<int>(Press::words)));
        return;
    case Press::mark:
        if (inStep)
            m_words->mark();
        return;
    default:
        emit pressed(press);
    }
}

bool EditorPage::eventFilter(QObject* object, QEvent* event)
{
    if (object == m_rail && event->type() == QEvent::MouseButtonPress) {
        const auto boxes = ScriptRail::boxesOf(m_view.rail, QRectF(1, 0, m_rail->width() - 2, m_rail->height()));
        const QPointF at = static_cast<QMouseEvent*>(event)->position();
        for (std::size_t i = 0; i < boxes.size(); ++i)
            if (boxes[i].left() <= at.x() && at.x() <= boxes[i].right())
                emit spotRequested({static_cast<int>(i), -1});
    }
    return QWidget::eventFilter(object, event);
}

void EditorPage::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    QMetaObject::invokeMethod(
        this, [this] { showHead(); }, Qt::QueuedConnection); // when the layout has its new widths
}

void EditorPage::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange && m_desk)
        QMetaObject::invokeMethod(
            this, [this] { showHead(); }, Qt::QueuedConnection);
}

} // namespace vh::write
