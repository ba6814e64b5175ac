#include "app/lead/ready_page.h"

#include "app/lead/page_parts.h"
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
constexpr int kCodePixels = 48;
}

ReadyPage::ReadyPage(QWidget* parent) : QWidget(parent)
{
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(Space::margin, Space::gap, Space::margin, Space::gap);
    page->setSpacing(Space::small);
    page->addWidget(makeHead());
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
    auto* names = new QVBoxLayout;
    names->setSpacing(0);
    m_title = new OneLine(look::Type::title, OneLine::Ink::main, head);
    m_title->setBold();
    m_title->setShorten(OneLine::Shorten::middle);
    m_group = new OneLine(look::Type::note, OneLine::Ink::second, head);
    m_group->setShorten(OneLine::Shorten::middle);
    names->addWidget(m_title);
    names->addWidget(m_group);
    row->addLayout(names, 1);
    m_level = new LevelBar(head);
    m_level->keepRoomFor(OwnVoice::allWords());
    row->addWidget(m_level);
    const auto button = [&](const QString& words, const QString& key, auto request) {
        auto* made = new BigButton(words, BigButton::Rank::plain, BigButton::Size::desk, head);
        made->setKeyHint(key);
        made->setHintGivesWay();
        connect(made, &BigButton::pressRequested, this, request);
        row->addWidget(made);
        return made;
    };
    m_check = button(tr("Your sound"), {}, &ReadyPage::soundCheckRequested);
    m_move = button(tr("Other display"), QStringLiteral("\u21E7D"), &ReadyPage::groupWindowMoveRequested);
    m_fill = button(tr("Fill display"), QStringLiteral("\u21E7F"), &ReadyPage::groupWindowFillRequested);
    m_groupWindow = button(tr("Group's window"), QStringLiteral("F"), &ReadyPage::groupWindowRequested);
    button(tr("Leave"), {}, &ReadyPage::leaveRequested);
    m_move->hide(); // until the window is shown
    m_fill->hide();
    return head;
}

ReadyPage::LinkRow ReadyPage::makeLink(QWidget* parent)
{
    LinkRow row;
    row.box = new QWidget(parent);
    auto* line = new QHBoxLayout(row.box);
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(Space::small);
    row.words = plainLabel(row.box);
    row.words->setWordWrap(false);
    line->addWidget(row.words);
    row.link = new QLineEdit(row.box);
    row.link->setReadOnly(true);
    row.link->setProperty(look::kRoleProperty, "desk");
    row.words->setBuddy(row.link);
    row.link->setAccessibleName(tr("Link"));
    line->addWidget(row.link, 1);
    row.copy = new BigButton(tr("Copy"), BigButton::Rank::plain, BigButton::Size::desk, row.box);
    connect(row.copy, &BigButton::pressRequested, this, [this, link = row.link] { emit copyRequested(link->text()); });
    line->addWidget(row.copy);
    return row;
}

void ReadyPage::setLink(const LinkRow& row, const QString& words, const QString& link)
{
    row.words->setText(words);
    row.link->setAccessibleName(words);
    row.copy->setAccessibleName(tr("Copy: %1").arg(words));
    if (row.link->text() != link) {
        row.link->setText(link);
        row.link->setCursorPosition(0);
    }
    row.box->setVisible(!link.isEmpty());
}

/// Links that work once: a press makes one, and shows it.
QWidget* ReadyPage::makeHelpers(QWidget* parent)
{
    auto* box = new QWidget(parent);
    auto* column = new QVBoxLayout(box);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(plainLabel(box, "second", tr("Make a link that works once, for")));
    auto* row = new QHBoxLayout;
    row->setSpacing(0);
    const auto button = [&](const QString& words, Role role) {
        auto* made = new BigButton(words, BigButton::Rank::plain, BigButton::Size::desk, box);
        made->setAccessibleName(tr("Make a link that works once, for: %1").arg(words));
        connect(made, &BigButton::pressRequested, this, [this, role] {
            m_askedFor = role;
            emit inviteRequested(role);
        });
        row->addWidget(made);
    };
    button(tr("a helper"), Role::moderator);
    button(tr("a stand-in"), Role::standIn);
    button(tr("another leader"), Role::leader);
    row->addStretch();
    column->addLayout(row);
    return box;
}

QWidget* ReadyPage::makeWayIn()
{
    m_wayIn = new QFrame(this);
    m_wayIn->setProperty(look::kRoleProperty, "sheet");
    auto* column = new QVBoxLayout(m_wayIn);
    column->setContentsMargins(Space::margin, Space::small, Space::margin, Space::small);
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
    m_wordsHead = plainLabel(m_wayIn, "second", tr("To read out at the door"));
    m_words = plainLabel(m_wayIn);
    m_words->setFont(Look::current().font(look::Type::title, look::Weight::bold));
    top->addWidget(codeHead, 0, 0);
    top->addWidget(m_code, 1, 0);
    top->addWidget(m_wordsHead, 0, 1);
    top->addWidget(m_words, 1, 1);
    column->addLayout(top);
    m_link = makeLink(m_wayIn);
    column->addWidget(m_link.box);
    column->addStretch();
    column->addWidget(makeHelpers(m_wayIn));
    m_oneTime = makeLink(m_wayIn);
    column->addWidget(m_oneTime.box);
    column->addStretch();
    m_papers = new BigButton(wordsOf(PapersView::offered), BigButton::Rank::plain, BigButton::Size::desk, m_wayIn);
    connect(m_papers, &BigButton::pressRequested, this, &ReadyPage::papersRequested);
    column->addWidget(m_papers, 0, Qt::AlignLeft);
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
    auto* left = new QVBoxLayout;
    m_notice = new NoticeLine(foot);
    left->addWidget(m_notice);
    auto* caution = new QFrame(foot);
    m_caution = caution;
    caution->setProperty(look::kRoleProperty, "quiet");
    auto* inCaution = new QVBoxLayout(caution);
    inCaution->setContentsMargins(Space::wide - 4, Space::small, Space::wide - 4, Space::small);
    inCaution->addWidget(plainLabel(
        caution, "note",
        tr("Say it at the start: stop if it hurts, if you feel dizzy or short of breath, or if your voice turns "
           "hoarse. "
           "At water pauses everybody follows their own drinking and swallowing plan. This is a practice aid, not for "
           "diagnosis or treatment decisions; your clinical judgement and local rules come first.")));
    left->addWidget(caution);
    row->addLayout(left, 1);
    m_take = new BigButton(tr("Take the place"), BigButton::Rank::plain, BigButton::Size::touch, foot);
    m_take->setKeyHint(QStringLiteral("T"));
    connect(m_take, &BigButton::pressRequested, this, &ReadyPage::takePlaceRequested);
    row->addWidget(m_take);
    auto* presses = new QVBoxLayout;
    presses->setSpacing(0);
    m_mute = new BigButton(tr("Speak to them now"), BigButton::Rank::plain, BigButton::Size::desk, foot);
    m_mute->setKeyHint(QStringLiteral("M"));
    connect(m_mute, &BigButton::pressRequested, this, &ReadyPage::muteRequested);
    presses->addWidget(m_mute);
    m_start = new BigButton(tr("Start the class"), BigButton::Rank::main, BigButton::Size::touch, foot);
    connect(m_start, &BigButton::pressRequested, this, &ReadyPage::startRequested);
    presses->addWidget(m_start);
    row->addLayout(presses);
    return foot;
}

void ReadyPage::setState(const LeadView& view)
{
    const bool open = view.stage == Stage::ready;
    m_title->setText(open ? view.title : view.groupName);
    const bool clock = open && view.hold == Hold::mine && !view.clock.isEmpty();
    if (clock)
        m_group->setTexts({QStringLiteral("%1 \u00B7 %2").arg(view.groupName, view.clock.front()), view.clock.front(),
                           view.clock.back()});
    else
        m_group->setText(open ? view.groupName : QString());
    m_level->setVisible(!view.level.words.isEmpty());
    m_level->setState(view.level);
    m_groupWindow->setVisible(open);
    m_groupWindow->setText(view.groupWindowShown ? tr("Hide window") : tr("Group's window"));
    m_fill->setVisible(open && view.groupWindowShown);
    m_fill->setText(view.groupWindowFills ? tr("Small again") : tr("Fill display"));
    m_move->setVisible(open && view.groupWindowShown && view.otherDisplay);
    m_check->setVisible(!view.groupWindowShown);
    m_notice->setState(view.notice);
    m_notice->setVisible(!view.notice.words.isEmpty()); // where the caution stands: nothing above moves
    m_caution->setVisible(view.notice.words.isEmpty());
    m_wayIn->setVisible(open && view.role == Role::leader);
    m_code->setText(view.way.code);
    m_papers->setVisible(view.papers != PapersView::none);
    m_papers->setText(wordsOf(view.papers));
    m_words->setVisible(!view.way.words.isEmpty());
    m_words->setText(view.way.words);
    m_wordsHead->setVisible(!view.way.words.isEmpty());
    setLink(m_link, tr("The same as a link"), view.way.link);
    const bool helper = m_askedFor == Role::moderator;
    const bool standIn = m_askedFor == Role::standIn;
    setLink(m_oneTime,
            helper    ? tr("A helper")
            : standIn ? tr("A stand-in")
                      : tr("A leader"),
            helper    ? view.way.helperLink
            : standIn ? view.way.standInLink
                      : view.way.leaderLink);
    m_calls->setState(view.calls);
    m_here->setText(open ? view.here : tr("No class is open yet. It appears here by itself."));
    m_door->setVisible(open && view.role == Role::leader);
    m_door->setState(view.door);
    m_take->setVisible(open && view.mayTake);
    const bool speaks = view.voice.mouth == OwnVoice::Mouth::open;
    m_mute->setVisible(open && view.voice.offered);
    m_mute->setText(speaks ? tr("Go silent") : tr("Speak to them now"));
    m_mute->setAccessibleName(speaks ? tr("Go silent, so that nobody hears you")
                                     : tr("Let those who are here hear you already"));
    m_start->setVisible(open && view.hold == Hold::mine);
}

} // namespace vh::lead
