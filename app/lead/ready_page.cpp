#include "app/lead/ready_page.h"

#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QGridLayout>
#include <QLineEdit>
#include <QScrollArea>
#include <QVBoxLayout>

namespace vh::lead
{

using look::Look;
using look::Space;

namespace
{
constexpr int kCodePixels = 56;
}

ReadyPage::ReadyPage(QWidget* parent) : QWidget(parent)
{
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(Space::margin, Space::gap, Space::margin, Space::gap);
    page->setSpacing(Space::gap);
    page->addWidget(makeHead());
    m_notice = new NoticeLine(this);
    page->addWidget(m_notice);
    auto* columns = new QHBoxLayout;
    columns->setSpacing(Space::wide);
    columns->addWidget(makeWayIn(), 3);
    columns->addWidget(makePeople(), 2);
    page->addLayout(columns, 1);
    page->addWidget(makeFoot());
    setFocusPolicy(Qt::StrongFocus);
}

void ReadyPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    setFocus(); // on no button: a stray press of the clicker starts nothing
}

QWidget* ReadyPage::makeHead()
{
    auto* head = new QWidget(this);
    auto* row = new QHBoxLayout(head);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(Space::gap);
    m_title = plainLabel(head, "title");
    m_title->setWordWrap(false);
    m_group = plainLabel(head, "second");
    m_group->setWordWrap(false);
    m_level = new LevelBar(head);
    m_groupWindow = new BigButton(tr("Group's window"), BigButton::Rank::plain, BigButton::Size::desk, head);
    m_groupWindow->setKeyHint(QStringLiteral("F"));
    connect(m_groupWindow, &BigButton::pressRequested, this, &ReadyPage::groupWindowRequested);
    auto* leave = new BigButton(tr("Leave"), BigButton::Rank::plain, BigButton::Size::desk, head);
    connect(leave, &BigButton::pressRequested, this, &ReadyPage::leaveRequested);
    row->addWidget(m_title);
    row->addWidget(m_group);
    row->addWidget(m_level);
    row->addStretch();
    row->addWidget(m_groupWindow);
    row->addWidget(leave);
    return head;
}

ReadyPage::LinkRow ReadyPage::makeLink(QWidget* parent, const QString& words, std::optional<Role> role)
{
    LinkRow row;
    row.box = new QWidget(parent);
    auto* line = new QHBoxLayout(row.box);
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(Space::small);
    auto* label = plainLabel(row.box, nullptr, words);
    label->setWordWrap(false);
    label->setMinimumWidth(170);
    line->addWidget(label);
    row.link = new QLineEdit(row.box);
    row.link->setReadOnly(true);
    row.link->setProperty(look::kRoleProperty, "desk");
    row.link->setAccessibleName(words);
    label->setBuddy(row.link);
    line->addWidget(row.link, 1);
    row.copy = new BigButton(tr("Copy"), BigButton::Rank::plain, BigButton::Size::desk, row.box);
    row.copy->setAccessibleName(tr("Copy: %1").arg(words));
    connect(row.copy, &BigButton::pressRequested, this, [this, link = row.link] { emit copyRequested(link->text()); });
    line->addWidget(row.copy);
    if (role) {
        row.make = new BigButton(tr("Make a link"), BigButton::Rank::plain, BigButton::Size::desk, row.box);
        row.make->setAccessibleName(tr("Make a link: %1").arg(words));
        connect(row.make, &BigButton::pressRequested, this, [this, role = *role] { emit inviteRequested(role); });
        line->addWidget(row.make);
        line->addStretch();
    }
    return row;
}

void ReadyPage::setLink(const LinkRow& row, const QString& link)
{
    if (row.link->text() != link) {
        row.link->setText(link);
        row.link->setCursorPosition(0);
    }
    row.link->setVisible(!link.isEmpty() || !row.make);
    row.copy->setVisible(!link.isEmpty());
    if (row.make)
        row.make->setVisible(link.isEmpty());
}

QWidget* ReadyPage::makeWayIn()
{
    m_wayIn = new QFrame(this);
    m_wayIn->setProperty(look::kRoleProperty, "sheet");
    auto* column = new QVBoxLayout(m_wayIn);
    column->setContentsMargins(Space::margin, Space::gap, Space::margin, Space::gap);
    column->setSpacing(Space::hair);
    auto* top = new QGridLayout;
    top->setHorizontalSpacing(2 * Space::wide);
    top->setVerticalSpacing(0);
    top->setColumnStretch(1, 1);
    auto* codeHead = plainLabel(m_wayIn, "second", tr("Code for newcomers"));
    m_code = plainLabel(m_wayIn);
    m_code->setWordWrap(false);
    m_code->setFont(look::fontOfPixels(kCodePixels, look::Weight::bold));
    m_code->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    m_wordsHead = plainLabel(m_wayIn, "second", tr("They read these words out at the door"));
    m_words = plainLabel(m_wayIn);
    m_words->setFont(Look::current().font(look::Type::title, look::Weight::bold));
    top->addWidget(codeHead, 0, 0);
    top->addWidget(m_code, 1, 0);
    top->addWidget(m_wordsHead, 0, 1);
    top->addWidget(m_words, 1, 1);
    column->addLayout(top);
    m_link = makeLink(m_wayIn, tr("Link to join"), std::nullopt);
    column->addWidget(m_link.box);
    column->addSpacing(Space::gap);
    column->addWidget(plainLabel(m_wayIn, "second", tr("For those who help you; each link works once")));
    m_helper = makeLink(m_wayIn, tr("A helper"), Role::moderator);
    m_standIn = makeLink(m_wayIn, tr("A stand-in"), Role::standIn);
    m_leader = makeLink(m_wayIn, tr("Another leader"), Role::leader);
    for (const LinkRow* row : {&m_helper, &m_standIn, &m_leader})
        column->addWidget(row->box);
    column->addStretch();
    return m_wayIn;
}

QWidget* ReadyPage::makePeople()
{
    auto* side = new QWidget(this);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::gap);
    m_calls = new CallList(side);
    connect(m_calls, &CallList::takeRequested, this, &ReadyPage::callTakeRequested);
    connect(m_calls, &CallList::doneRequested, this, &ReadyPage::callDoneRequested);
    column->addWidget(m_calls);
    m_here = plainLabel(side, "heading");
    column->addWidget(m_here);
    auto* scroll = new QScrollArea(side);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    m_door = new DoorList;
    auto* inside = new QWidget(scroll);
    auto* insideColumn = new QVBoxLayout(inside);
    insideColumn->setContentsMargins(0, 0, Space::small, 0);
    insideColumn->addWidget(m_door);
    insideColumn->addStretch();
    scroll->setWidget(inside);
    connect(m_door, &DoorList::letInRequested, this, &ReadyPage::letInRequested);
    connect(m_door, &DoorList::turnAwayRequested, this, &ReadyPage::turnAwayRequested);
    column->addWidget(scroll, 1);
    return side;
}

QWidget* ReadyPage::makeFoot()
{
    auto* foot = new QWidget(this);
    auto* row = new QHBoxLayout(foot);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(Space::gap);
    auto* caution = new QFrame(foot);
    caution->setProperty(look::kRoleProperty, "quiet");
    auto* inCaution = new QVBoxLayout(caution);
    inCaution->setContentsMargins(Space::wide - 4, Space::small, Space::wide - 4, Space::small);
    inCaution->addWidget(plainLabel(
        caution, "note",
        tr("Say it at the start: stop if it hurts, if you feel dizzy or short of breath, or if your voice turns "
           "hoarse. "
           "At water pauses everybody follows their own drinking and swallowing plan. This is a practice aid, not for "
           "diagnosis or treatment decisions; your clinical judgement and local rules come first.")));
    row->addWidget(caution, 1);
    m_clock = plainLabel(foot, "second");
    m_clock->setWordWrap(false);
    row->addWidget(m_clock);
    m_take = new BigButton(tr("Take the place"), BigButton::Rank::plain, BigButton::Size::touch, foot);
    m_take->setKeyHint(QStringLiteral("T"));
    connect(m_take, &BigButton::pressRequested, this, &ReadyPage::takePlaceRequested);
    row->addWidget(m_take);
    m_start = new BigButton(tr("Start the class"), BigButton::Rank::main, BigButton::Size::touch, foot);
    connect(m_start, &BigButton::pressRequested, this, &ReadyPage::startRequested);
    row->addWidget(m_start);
    return foot;
}

void ReadyPage::setState(const LeadView& view)
{
    const bool open = view.stage == Stage::ready;
    m_title->setText(open ? view.title : view.groupName);
    m_group->setText(open ? view.groupName : QString());
    m_level->setVisible(!view.level.words.isEmpty());
    m_level->setState(view.level);
    m_groupWindow->setVisible(open);
    m_groupWindow->setText(view.groupWindowShown ? tr("Hide the group's window") : tr("Group's window"));
    m_notice->setState(view.notice);
    m_wayIn->setVisible(open && view.role == Role::leader);
    m_code->setText(view.way.code);
    m_words->setVisible(!view.way.words.isEmpty());
    m_words->setText(view.way.words);
    m_wordsHead->setVisible(!view.way.words.isEmpty());
    setLink(m_link, view.way.link);
    setLink(m_helper, view.way.helperLink);
    setLink(m_standIn, view.way.standInLink);
    setLink(m_leader, view.way.leaderLink);
    m_calls->setState(view.calls);
    m_here->setText(open ? view.here : tr("No class is open yet. It appears here by itself."));
    m_door->setVisible(open && view.role == Role::leader);
    m_door->setState(view.door);
    m_clock->setText(open && view.hold == Hold::mine ? view.clock : QString());
    m_take->setVisible(open && view.mayTake);
    m_start->setVisible(open && view.hold == Hold::mine);
}

} // namespace vh::lead
