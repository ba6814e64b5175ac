#include "app/help/desk_room.h"

#include "app/help/acts_page.h"
#include "app/help/board_column.h"
#include "app/help/head_line.h"
#include "app/help/people_column.h"
#include "app/help/replies_page.h"
#include "app/help/words_column.h"
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QScopedValueRollback>
#include <QStackedWidget>
#include <QVBoxLayout>

namespace vh::help
{

using look::Space;

DeskRoom::DeskRoom(QWidget* parent) : QWidget(parent), m_calls(new CallList(this))
{
    setObjectName("room");
    setAttribute(Qt::WA_StyledBackground);
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(Space::wide, Space::small, Space::wide, Space::gap);
    page->setSpacing(Space::small);
    page->addWidget(makeHead());
    page->addWidget(m_calls);
    m_whole = new QStackedWidget(this);
    m_whole->addWidget(makeColumns());
    m_picture = new pictures::PictureSheet(m_whole);
    m_whole->addWidget(m_picture);
    page->addWidget(m_whole, 1);
    m_lines = &m_words->list();
    passOn();
    follow(m_words->list());
    follow(m_board->inHand());
    follow(m_board->board());
    follow(m_people->resting());
    follow(m_people->everybody());
    showTarget();
}

QWidget* DeskRoom::makeHead()
{
    auto* head = new QWidget(this);
    auto* row = new QHBoxLayout(head);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(Space::small);
    auto* title = plainLabel(head, "title", tr("Helper's desk"));
    title->setWordWrap(false);
    m_head = new HeadLine(head);
    row->addWidget(title);
    row->addWidget(m_head, 1);
    for (const DeskTask task : {DeskTask::takeBack, DeskTask::whatWasDone}) {
        auto* button = new BigButton(buttonWords(task), BigButton::Rank::plain, BigButton::Size::desk, head);
        button->setKeyHint(QString::fromLatin1(keyOf(task).hint));
        button->setFocusPolicy(Qt::NoFocus); // driven by its key
        connect(button, &BigButton::pressRequested, this, [this, task] { doTask(task); });
        row->addWidget(button);
    }
    auto* leave = new BigButton(tr("Leave"), BigButton::Rank::plain, BigButton::Size::desk, head);
    connect(leave, &BigButton::pressRequested, this, &DeskRoom::leaveRequested);
    row->addWidget(leave);
    return head;
}

QWidget* DeskRoom::makeColumns()
{
    auto* all = new QWidget(this);
    m_words = new WordsColumn(all);
    m_right = new QStackedWidget(all);
    auto* both = new QWidget(m_right);
    m_middle = new QStackedWidget(both);
    m_board = new BoardColumn(m_middle);
    m_answer = new AnswerPage(m_middle);
    m_repliesPage = new RepliesPage(m_middle);
    m_middle->addWidget(m_board);
    m_middle->addWidget(m_answer);
    m_middle->addWidget(m_repliesPage);
    m_people = new PeopleColumn(both);
    m_acts = new ActsPage(m_right);
    auto* bothRow = new QHBoxLayout(both);
    bothRow->setContentsMargins(0, 0, 0, 0);
    bothRow->setSpacing(Space::wide);
    bothRow->addWidget(m_middle, 11);
    bothRow->addWidget(m_people, 9);
    m_right->addWidget(both);
    m_right->addWidget(m_acts);
    auto* columns = new QHBoxLayout(all);
    columns->setContentsMargins(0, 0, 0, 0);
    columns->setSpacing(Space::wide);
    columns->addWidget(m_words, 14);
    columns->addWidget(m_right, 20);
    return all;
}

void DeskRoom::passOn()
{
    connect(m_calls, &CallList::takeRequested, this, &DeskRoom::callTakeRequested);
    connect(m_calls, &CallList::doneRequested, this, &DeskRoom::callDoneRequested);
    connect(m_words, &WordsColumn::taskRequested, this, &DeskRoom::doTask);
    connect(m_words, &WordsColumn::claimRequested, this, &DeskRoom::claimRequested);
    connect(m_board, &BoardColumn::noticeRequested, this, &DeskRoom::noticeRequested);
    connect(m_people, &PeopleColumn::letInRequested, this, &DeskRoom::letInRequested);
    connect(m_people, &PeopleColumn::turnAwayRequested, this, &DeskRoom::turnAwayRequested);
    connect(m_people, &PeopleColumn::attendRequested, this, &DeskRoom::attendRequested);
    connect(m_people, &PeopleColumn::lookRequested, this, &DeskRoom::lookRequested);
    connect(m_people, &PeopleColumn::lineDoneRequested, this, &DeskRoom::lineDoneRequested);
    connect(m_answer, &AnswerPage::sendRequested, this, &DeskRoom::send);
    connect(m_answer, &AnswerPage::closeRequested, this, &DeskRoom::closePage);
    connect(m_answer, &AnswerPage::repliesRequested, this, [this] {
        turnTo(m_middle, m_repliesPage);
        m_repliesPage->open(m_replies);
    });
    connect(m_repliesPage, &RepliesPage::doneRequested, this, [this](const QStringList& replies) {
        setReplies(replies);
        turnTo(m_middle, m_answer);
        m_answer->comeBack();
        emit repliesChanged(replies);
    });
    connect(m_acts, &ActsPage::closeRequested, this, &DeskRoom::closePage);
}

// --- where the keyboard is -----------------------------------------------------------------------------------------

void DeskRoom::follow(WordList& list)
{
    if (&list != &m_words->list())
        connect(&list, &WordList::taskRequested, this, &DeskRoom::doTask);
    connect(&list, &WordList::chosenChanged, this, &DeskRoom::showTarget);
    connect(&list, &WordList::focusChanged, this, [this, &list](bool has) {
        if (!has || m_turning)
            return;
        m_lines = &list;
        m_persons = nullptr;
        showTarget();
    });
}

void DeskRoom::follow(PeopleList& list)
{
    connect(&list, &PeopleList::taskRequested, this, &DeskRoom::doTask);
    connect(&list, &PeopleList::chosenChanged, this, &DeskRoom::showTarget);
    connect(&list, &PeopleList::focusChanged, this, [this, &list](bool has) {
        if (!has || m_turning)
            return;
        m_lines = nullptr;
        m_persons = &list;
        showTarget();
    });
}

void DeskRoom::showTarget()
{
    using Target = WordsColumn::Target;
    const WordRow* line = m_lines ? m_lines->chosen() : nullptr;
    const bool person = m_persons && m_persons->chosen();
    m_words->setTarget(line && !line->isNotice ? Target::line : person ? Target::person : Target::nothing);
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

void DeskRoom::hideEvent(QHideEvent* event)
{
    QWidget::hideEvent(event);
    m_words->stopReading();
}

WordList& DeskRoom::toRead()
{
    return m_words->list();
}

void DeskRoom::chooseToRead(quint64 item)
{
    m_words->list().choose(item);
}

/// What had the keyboard goes out of sight, and Qt looks for another place for it: that is nobody's wish.
void DeskRoom::turnTo(QStackedWidget* stack, QWidget* page)
{
    const QScopedValueRollback turning(m_turning, true);
    stack->setCurrentWidget(page);
}

void DeskRoom::openPage(QWidget* page)
{
    m_backTo = m_lines ? static_cast<QWidget*>(m_lines) : m_persons;
    turnTo(page == m_acts ? m_right : m_middle, page);
}

void DeskRoom::closePage()
{
    turnTo(m_right, m_right->widget(0));
    turnTo(m_middle, m_board);
    (m_backTo ? m_backTo.data() : static_cast<QWidget*>(&m_words->list()))->setFocus();
}

void DeskRoom::showPicture(const pictures::SheetView& view)
{
    const bool open = view.item != 0;
    if (open)
        m_picture->setState(view);
    if (open == (m_whole->currentWidget() == m_picture))
        return;
    if (open)
        m_backTo = m_lines ? static_cast<QWidget*>(m_lines) : m_persons;
    turnTo(m_whole, open ? m_picture : m_whole->widget(0));
    if (!open)
        (m_backTo ? m_backTo.data() : static_cast<QWidget*>(&m_words->list()))->setFocus();
}

// --- what is asked for ---------------------------------------------------------------------------------------------

void DeskRoom::doTask(DeskTask task)
{
    if (task == DeskTask::whatWasDone) {
        emit actsRequested();
        openPage(m_acts);
        return m_acts->open();
    }
    if (task == DeskTask::takeBack)
        return takeBack();
    if (const WordRow* row = m_lines ? m_lines->chosen() : nullptr; row && !row->isNotice && !row->onItsWay)
        return doWithLine(task, WordRow(*row)); // a copy: what is asked for may change the list at once
    if (const PersonRow* person = m_persons ? m_persons->chosen() : nullptr)
        doWithPerson(task, person->person, person->name, 0);
}

void DeskRoom::takeBack()
{
    if (const PersonRow* person = m_persons ? m_persons->chosen() : nullptr; person && person->rest != wire::Rest::none)
        return emit restRequested(person->person, person->name, wire::Rest::none, {});
    const WordRow* row = m_lines ? m_lines->chosen() : nullptr;
    const bool thisOne = row && isSettled(*row) && !row->isNotice && !row->onItsWay;
    emit takeBackRequested(thisOne ? row->item : 0);
}

void DeskRoom::doWithLine(DeskTask task, const WordRow& row)
{
    const auto decide = [&](wire::Decision decision) {
        WordList* list = m_lines;
        // Somebody may have dealt with it a moment ago: first that is said, and can be taken back.
        if (list == &m_words->list() && isSettled(row))
            return emit sayRequested(tr("%1. 0 takes that back.").arg(list->words()->stateWords(row)));
        emit decisionRequested(row.item, decision);
        if (list == &m_words->list())
            list->goOn();
    };
    switch (task) {
    case DeskTask::toBoard:
        return decide(wire::Decision::show);
    case DeskTask::setAside:
        return decide(wire::Decision::setAside);
    case DeskTask::toLeader:
        return decide(row.isPicture ? wire::Decision::forWindow : wire::Decision::forLeader);
    case DeskTask::clinician:
        return decide(wire::Decision::clinician);
    case DeskTask::answerOne:
    case DeskTask::answerAll:
        openPage(m_answer);
        return m_answer->open(task == DeskTask::answerOne ? AnswerPage::Kind::toOne : AnswerPage::Kind::toAll,
                              {row.item, row.person, row.name});
    case DeskTask::openPicture:
        if (row.isPicture)
            emit pictureOpenRequested(row.item);
        return;
    default:
        return doWithPerson(task, row.person, row.name, row.item);
    }
}

void DeskRoom::doWithPerson(DeskTask task, PersonId person, const QString& name, quint64 item)
{
    switch (task) {
    case DeskTask::quietShort:
        return emit restRequested(person, name, wire::Rest::tenMinutes, {});
    case DeskTask::quietClass:
        return emit restRequested(person, name, wire::Rest::theClass, {});
    case DeskTask::out:
        openPage(m_answer);
        return m_answer->open(AnswerPage::Kind::out, {item, person, name});
    default:
        return;
    }
}

void DeskRoom::send(AnswerPage::Kind kind, const AnswerPage::About& about, const QString& text)
{
    const bool fromToRead = m_lines == &m_words->list();
    closePage();
    if (kind == AnswerPage::Kind::out)
        return emit restRequested(about.person, about.name, wire::Rest::out, text);
    emit answerRequested(about.item, kind == AnswerPage::Kind::toAll, text);
    if (const WordRow* row = m_words->list().chosen(); fromToRead && row && row->item == about.item)
        m_words->list().goOn();
}

// --- what is shown -------------------------------------------------------------------------------------------------

void DeskRoom::setReplies(const QStringList& replies)
{
    m_replies = replies;
    m_answer->setReplies(replies);
}

void DeskRoom::setState(const DeskView& view)
{
    m_head->setState(view.classLine.isEmpty() ? view.groupName : view.classLine, view.notice);
    m_calls->setState(view.calls);
    m_words->setState(view);
    m_board->setState(view);
    m_people->setState(view);
    m_acts->setState(view.acts);
    showPicture(view.picture);
}

} // namespace vh::help
