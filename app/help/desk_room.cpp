#include "app/help/desk_room.h"

#include "app/help/board_column.h"
#include "app/help/people_column.h"
#include "app/help/words_column.h"
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QVBoxLayout>

namespace vh::help
{

using look::Space;

DeskRoom::DeskRoom(QWidget* parent) : QWidget(parent)
{
    setObjectName("room");
    setAttribute(Qt::WA_StyledBackground);
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(Space::wide, Space::small, Space::wide, Space::gap);
    page->setSpacing(Space::small);
    page->addWidget(makeHead());
    m_notice = new NoticeLine(this);
    page->addWidget(m_notice);
    m_calls = new CallList(this);
    page->addWidget(m_calls);
    m_words = new WordsColumn(this);
    m_board = new BoardColumn(this);
    m_people = new PeopleColumn(this);
    auto* columns = new QHBoxLayout;
    columns->setSpacing(Space::wide);
    columns->addWidget(m_words, 12);
    columns->addWidget(m_board, 11);
    columns->addWidget(m_people, 9);
    page->addLayout(columns, 1);
    passOn();
}

void DeskRoom::passOn()
{
    connect(m_calls, &CallList::takeRequested, this, &DeskRoom::callTakeRequested);
    connect(m_calls, &CallList::doneRequested, this, &DeskRoom::callDoneRequested);
    connect(m_words, &WordsColumn::showRequested, this, &DeskRoom::showRequested);
    connect(m_words, &WordsColumn::setAsideRequested, this, &DeskRoom::setAsideRequested);
    connect(m_board, &BoardColumn::noticeRequested, this, &DeskRoom::noticeRequested);
    connect(m_people, &PeopleColumn::letInRequested, this, &DeskRoom::letInRequested);
    connect(m_people, &PeopleColumn::turnAwayRequested, this, &DeskRoom::turnAwayRequested);
    connect(m_people, &PeopleColumn::attendRequested, this, &DeskRoom::attendRequested);
}

/// The keyboard stands on what is to read. Not by a focus proxy: the Tab key then passes by what comes before that.
void DeskRoom::focusInEvent(QFocusEvent* event)
{
    QWidget::focusInEvent(event);
    m_words->list().setFocus();
}

void DeskRoom::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    m_words->list().setFocus();
}

QWidget* DeskRoom::makeHead()
{
    auto* head = new QWidget(this);
    auto* row = new QHBoxLayout(head);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(Space::gap + 4);
    m_title = plainLabel(head, "title");
    m_title->setWordWrap(false);
    m_classLine = plainLabel(head, "second");
    m_classLine->setWordWrap(false);
    auto* leave = new BigButton(tr("Leave"), BigButton::Rank::plain, BigButton::Size::desk, head);
    connect(leave, &BigButton::pressRequested, this, &DeskRoom::leaveRequested);
    row->addWidget(m_title);
    row->addWidget(m_classLine, 1);
    row->addWidget(leave);
    return head;
}

void DeskRoom::setState(const DeskView& view)
{
    m_title->setText(tr("Helper's desk"));
    m_classLine->setText(view.classLine.isEmpty() ? view.groupName : view.classLine);
    m_notice->setState(view.notice);
    m_calls->setState(view.calls);
    m_words->setState(view.toRead);
    m_board->setState(view.board);
    m_people->setState(view);
}

} // namespace vh::help
