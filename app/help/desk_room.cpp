#include "app/help/desk_room.h"

#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QLineEdit>
#include <QScrollArea>
#include <QVBoxLayout>

namespace vh::help
{

using look::Space;

namespace
{
constexpr int kToBoard = 1;
constexpr int kSetAside = 2;

QVBoxLayout* columnIn(QWidget* side)
{
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::small);
    return column;
}
} // namespace

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
    connect(m_calls, &CallList::takeRequested, this, &DeskRoom::callTakeRequested);
    connect(m_calls, &CallList::doneRequested, this, &DeskRoom::callDoneRequested);
    page->addWidget(m_calls);
    auto* columns = new QHBoxLayout;
    columns->setSpacing(Space::wide);
    columns->addWidget(makeToRead(), 12);
    columns->addWidget(makeBoard(), 11);
    columns->addWidget(makePeople(), 9);
    page->addLayout(columns, 1);
}

/// The keyboard stands on what is to read. Not by a focus proxy: the Tab key then passes by what comes before that.
void DeskRoom::focusInEvent(QFocusEvent* event)
{
    QWidget::focusInEvent(event);
    m_toRead->setFocus();
}

void DeskRoom::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    m_toRead->setFocus();
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

QWidget* DeskRoom::makeToRead()
{
    auto* side = new QWidget(this);
    auto* column = columnIn(side);
    m_toReadHead = plainLabel(side, "second");
    column->addWidget(m_toReadHead);
    m_toRead = new CardList(CardList::Choice::one, tr("To read"), side);
    connect(m_toRead, &CardList::digitPressed, this, &DeskRoom::decide);
    connect(m_toRead, &CardList::currentRowChanged, this, [this](int row) {
        m_show->setEnabled(row >= 0);
        m_aside->setEnabled(row >= 0);
    });
    column->addWidget(m_toRead, 1);
    auto* row = new QHBoxLayout;
    row->setSpacing(Space::small);
    m_show = new BigButton(tr("To the board"), BigButton::Rank::main, BigButton::Size::desk, side);
    m_show->setKeyHint(QStringLiteral("1"));
    m_aside = new BigButton(tr("Set aside"), BigButton::Rank::plain, BigButton::Size::desk, side);
    m_aside->setKeyHint(QStringLiteral("2"));
    for (BigButton* button : {m_show, m_aside}) {
        button->setFocusPolicy(Qt::TabFocus); // a click leaves the keys with the list
        button->setEnabled(false);
        row->addWidget(button);
    }
    row->addStretch();
    connect(m_show, &BigButton::pressRequested, this, [this] { decide(kToBoard, m_toRead->chosen()); });
    connect(m_aside, &BigButton::pressRequested, this, [this] { decide(kSetAside, m_toRead->chosen()); });
    column->addLayout(row);
    return side;
}

QWidget* DeskRoom::makeBoard()
{
    auto* side = new QWidget(this);
    auto* column = columnIn(side);
    column->addWidget(plainLabel(side, "second", tr("On the board")));
    m_board = new CardList(CardList::Choice::newest, tr("On the board"), side);
    column->addWidget(m_board, 1);
    auto* row = new QHBoxLayout;
    row->setSpacing(Space::small);
    m_say = new QLineEdit(side);
    m_say->setPlaceholderText(tr("Say to everybody\u2026"));
    m_say->setAccessibleName(tr("Say to everybody"));
    m_say->setMaxLength(500);
    m_say->setProperty(look::kRoleProperty, "desk");
    auto* send = new BigButton(tr("Say"), BigButton::Rank::plain, BigButton::Size::desk, side);
    const auto sendNow = [this] {
        const QString text = m_say->text().trimmed();
        if (text.isEmpty())
            return;
        m_say->clear();
        emit noticeRequested(text);
    };
    connect(send, &BigButton::pressRequested, this, sendNow);
    connect(m_say, &QLineEdit::returnPressed, this, sendNow);
    row->addWidget(m_say, 1);
    row->addWidget(send);
    column->addLayout(row);
    return side;
}

QWidget* DeskRoom::makePeople()
{
    auto* side = new QWidget(this);
    auto* outer = columnIn(side);
    auto* scroll = new QScrollArea(side);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    auto* inside = new QWidget(scroll);
    auto* column = columnIn(inside);
    column->setContentsMargins(0, 0, Space::small, 0);
    m_door = new DoorList(inside);
    connect(m_door, &DoorList::letInRequested, this, &DeskRoom::letInRequested);
    connect(m_door, &DoorList::turnAwayRequested, this, &DeskRoom::turnAwayRequested);
    column->addWidget(m_door);
    column->addSpacing(Space::gap);
    m_lostLines = new LostList(inside);
    connect(m_lostLines, &LostList::lookRequested, this, &DeskRoom::lookRequested);
    connect(m_lostLines, &LostList::doneRequested, this, &DeskRoom::lineDoneRequested);
    column->addWidget(m_lostLines);
    m_here = plainLabel(inside, "second");
    column->addWidget(m_here);
    auto* sheet = new QFrame(inside);
    sheet->setProperty(look::kRoleProperty, "sheet");
    auto* names = new QVBoxLayout(sheet);
    names->setContentsMargins(Space::gap + 4, Space::gap, Space::gap + 4, Space::gap);
    m_lost = plainLabel(sheet);
    m_lost->setFont(look::Look::current().font(look::Type::body, look::Weight::bold));
    m_names = plainLabel(sheet);
    names->addWidget(m_lost);
    names->addWidget(m_names);
    column->addWidget(sheet);
    column->addStretch();
    scroll->setWidget(inside);
    outer->addWidget(scroll, 1);
    m_byHand = plainLabel(side, "note");
    outer->addWidget(m_byHand);
    auto* row = new QHBoxLayout;
    row->setSpacing(Space::small);
    m_byHandName = new QLineEdit(side);
    m_byHandName->setPlaceholderText(tr("Who phoned in?"));
    m_byHandName->setAccessibleName(tr("Name of somebody who only phoned in"));
    m_byHandName->setMaxLength(40);
    m_byHandName->setProperty(look::kRoleProperty, "desk");
    auto* note = new BigButton(tr("Was here"), BigButton::Rank::plain, BigButton::Size::desk, side);
    const auto noteNow = [this] {
        const QString name = m_byHandName->text().trimmed();
        if (name.isEmpty())
            return;
        m_byHandName->clear();
        emit attendRequested(name);
    };
    connect(note, &BigButton::pressRequested, this, noteNow);
    connect(m_byHandName, &QLineEdit::returnPressed, this, noteNow);
    row->addWidget(m_byHandName, 1);
    row->addWidget(note);
    outer->addLayout(row);
    return side;
}

void DeskRoom::decide(int digit, quint64 item)
{
    if (item == 0 || (digit != kToBoard && digit != kSetAside))
        return;
    m_toRead->leave(item);
    if (digit == kToBoard)
        emit showRequested(item);
    else
        emit setAsideRequested(item);
}

void DeskRoom::setState(const DeskView& view)
{
    m_title->setText(tr("Helper's desk"));
    m_classLine->setText(view.classLine.isEmpty() ? view.groupName : view.classLine);
    m_notice->setState(view.notice);
    m_calls->setState(view.calls);
    m_lostLines->setState(view.lostLines);
    m_toReadHead->setText(view.toRead.empty() ? tr("Nothing to read") : tr("To read: %1").arg(view.toRead.size()));
    const bool first = m_toRead->count() == 0 && !view.toRead.empty();
    m_toRead->setState(view.toRead);
    if (first)
        m_toRead->setCurrentRow(0);
    m_board->setState(view.board);
    m_door->setState(view.door);
    m_here->setText(view.hereWords);
    m_lost->setText(view.lost);
    m_lost->setVisible(!view.lost.isEmpty());
    m_names->setText(view.names);
    m_names->parentWidget()->setVisible(!view.lost.isEmpty() || !view.names.isEmpty());
    m_byHand->setText(view.byHand);
    m_byHand->setVisible(!view.byHand.isEmpty());
}

} // namespace vh::help
