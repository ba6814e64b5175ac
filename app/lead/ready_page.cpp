#include "app/lead/ready_page.h"

#include "app/lead/clinician_strip.h"
#include "app/lead/desk_sheet.h"
#include "app/lead/desk_tray.h"
#include "app/lead/page_parts.h"
#include "app/lead/way_in_sheet.h"
#include "app/lead/whom_to_ring.h"
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QEvent>
#include <QFrame>
#include <QLabel>
#include <QScrollArea>
#include <QShortcut>
#include <QVBoxLayout>

#include <algorithm>

namespace vh::lead
{

using look::Space;

ReadyPage::ReadyPage(QWidget* parent) : QWidget(parent)
{
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(Space::margin, Space::gap, Space::margin, Space::gap);
    page->setSpacing(Space::small);
    page->addWidget(makeHead());
    auto* columns = new QHBoxLayout;
    columns->setSpacing(Space::wide);
    m_wayIn = new WayInSheet(this);
    connect(m_wayIn, &WayInSheet::copyRequested, this, &ReadyPage::copyRequested);
    connect(m_wayIn, &WayInSheet::inviteRequested, this, &ReadyPage::inviteRequested);
    connect(m_wayIn, &WayInSheet::papersRequested, this, &ReadyPage::papersRequested);
    columns->addWidget(m_wayIn, 3);
    m_side = makePeople();
    columns->addWidget(m_side, 2);
    page->addLayout(columns, 1);
    page->addWidget(makeFoot());
    makeDesk();
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

QWidget* ReadyPage::makePeople()
{
    auto* side = new QWidget(this);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::small);
    m_calls = new CallList(side);
    connect(m_calls, &CallList::takeRequested, this, &ReadyPage::callTakeRequested);
    connect(m_calls, &CallList::doneRequested, this, &ReadyPage::callDoneRequested);
    column->addWidget(m_calls);
    m_clinician = new ClinicianStrip(side);
    m_clinician->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    connect(m_clinician, &ClinicianStrip::takeRequested, this,
            [this](quint64 item) { askDesk(DeskRequest::Kind::take, item); });
    column->addWidget(m_clinician);
    m_here = plainLabel(side, "heading");
    column->addWidget(m_here);
    m_desk = new BigButton(tr("The desk"), BigButton::Rank::plain, BigButton::Size::desk, side);
    m_desk->setKeyHint(QStringLiteral("D"));
    m_desk->setHintGivesWay();
    connect(m_desk, &BigButton::pressRequested, this, [this] { askDesk(DeskRequest::Kind::showDesk); });
    column->addWidget(m_desk, 0, Qt::AlignLeft);
    auto* scroll = new QScrollArea(side);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setMinimumHeight(Space::control); // in the largest type, under what needs a clinician
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
    m_whomToRing = new WhomToRing(side);
    connect(m_whomToRing, &WhomToRing::keepRequested, this, &ReadyPage::whomToRingRequested);
    column->addWidget(m_whomToRing);
    return side;
}

/// Her choices for the board and the desk, and what waits there, over the people's side.
void ReadyPage::makeDesk()
{
    m_side->setFocusProxy(this);
    m_side->installEventFilter(this);
    m_deskSheet = new DeskSheet(this);
    connect(m_deskSheet, &DeskSheet::deskRequested, this, &ReadyPage::deskRequested);
    connect(m_deskSheet, &DeskSheet::closed, this, [this] { setFocus(); });
    const auto key = [this](int code, auto act) {
        auto* shortcut = new QShortcut(QKeySequence(code), this);
        shortcut->setAutoRepeat(false);
        connect(shortcut, &QShortcut::activated, this, act);
    };
    key(Qt::Key_D, [this] {
        if (m_desk->isVisible())
            askDesk(DeskRequest::Kind::showDesk);
    });
    key(Qt::Key_N, [this] { m_clinician->press(); });
    for (std::size_t place = 0; place < DeskNewsView::kPlaces; ++place)
        key(Qt::Key_0 + DeskTray::kFirstKey + static_cast<int>(place), [this, place] {
            if (m_news.sheet == DeskNewsView::Sheet::desk && m_news.places[place].item != 0)
                askDesk(DeskRequest::Kind::take, m_news.places[place].item);
        });
}

void ReadyPage::askDesk(DeskRequest::Kind kind, quint64 item)
{
    emit deskRequested({kind, item});
}

bool ReadyPage::eventFilter(QObject* watched, QEvent* event)
{
    if (watched == m_side && (event->type() == QEvent::Resize || event->type() == QEvent::Move))
        m_deskSheet->setGeometry(m_side->geometry());
    return QWidget::eventFilter(watched, event);
}

void ReadyPage::setDesk(const LeadView& view)
{
    m_news = view.desk;
    const bool leads = view.stage == Stage::ready && view.role == Role::leader;
    m_desk->setVisible(leads);
    m_clinician->setState(leads ? m_news.clinician : std::vector<DeskLine>{});
    const auto asked = std::ranges::count_if(m_news.places, [](const DeskLine& line) { return line.item != 0; });
    m_desk->setText(asked == 0 ? tr("The desk") : tr("The desk: %1").arg(asked));
    m_desk->setAccessibleName(asked == 0 ? tr("The desk") : tr("The desk, questions: %1").arg(asked));
    m_deskSheet->setState(leads ? m_news : DeskNewsView{});
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
    m_wayIn->setState(view.way, view.papers);
    m_calls->setState(view.calls);
    m_here->setText(open ? view.here : tr("No class is open yet. It appears here by itself."));
    m_door->setVisible(open && view.role == Role::leader);
    m_door->setState(view.door);
    setDesk(view);
    m_whomToRing->setVisible(open && view.role == Role::leader);
    m_whomToRing->setText(view.whomToRing);
    m_take->setVisible(open && view.mayTake);
    const bool speaks = view.voice.mouth == OwnVoice::Mouth::open;
    m_mute->setVisible(open && view.voice.offered);
    m_mute->setText(speaks ? tr("Go silent") : tr("Speak to them now"));
    m_mute->setAccessibleName(speaks ? tr("Go silent, so that nobody hears you")
                                     : tr("Let those who are here hear you already"));
    m_start->setVisible(open && view.hold == Hold::mine);
}

} // namespace vh::lead
