#include "app/lead/hall_side.h"

#include "app/lead/cover_sheet.h"
#include "app/lead/door_strip.h"
#include "app/lead/page_parts.h"
#include "app/lead/seat_panel.h"
#include "app/lead/worth_box.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "app/widgets/hall_view.h"

#include <QEvent>
#include <QHeaderView>
#include <QStackedLayout>
#include <QVBoxLayout>

#include <algorithm>

namespace vh::lead
{

using look::Look;
using look::Space;

namespace
{
/// Calls for help that stand over the hall at once; the rest is counted.
constexpr std::size_t kCallsShown = 2;

/// One lost line about which something can be done; the seats show them all.
LostList::State urgentLines(const LostList::State& all)
{
    LostList::State urgent;
    for (const LostList::Row& row : all.rows)
        if (urgent.rows.empty() && (row.mine || row.press == LostList::Press::look))
            urgent.rows.push_back(row);
    return urgent;
}
} // namespace

HallSide::HallSide(QWidget* parent) : QWidget(parent), m_pages(new QStackedLayout(this))
{
    m_pages->addWidget(makePeople());
    m_panel = new SeatPanel(this);
    connect(m_panel, &SeatPanel::closeRequested, this, &HallSide::seatCloseRequested);
    connect(m_panel, &SeatPanel::wordRequested, this, &HallSide::ownWordRequested);
    connect(m_panel, &SeatPanel::bandRequested, this, &HallSide::bandRequested);
    connect(m_panel, &SeatPanel::inviteRequested, this, &HallSide::inviteRequested);
    connect(m_panel, &SeatPanel::guestEndRequested, this, &HallSide::guestEndRequested);
    m_pages->addWidget(m_panel);
    m_cover = new CoverSheet(this);
    m_pages->addWidget(m_cover);

    m_urgent = new QWidget(this);
    m_urgent->setObjectName("room"); // the ground of a window: nothing below shows through
    m_urgent->setAttribute(Qt::WA_StyledBackground);
    auto* urgent = new QVBoxLayout(m_urgent);
    urgent->setContentsMargins(0, Space::small, 0, 0);
    urgent->setSpacing(Space::hair);
    m_calls = new CallList(m_urgent);
    connect(m_calls, &CallList::takeRequested, this, &HallSide::callTakeRequested);
    connect(m_calls, &CallList::doneRequested, this, &HallSide::callDoneRequested);
    urgent->addWidget(m_calls);
    m_lostLines = new LostList(m_urgent);
    connect(m_lostLines, &LostList::lookRequested, this, &HallSide::lookRequested);
    connect(m_lostLines, &LostList::doneRequested, this, &HallSide::lineDoneRequested);
    urgent->addWidget(m_lostLines);
    m_door = new DoorStrip(m_urgent);
    connect(m_door, &DoorStrip::letInRequested, this, &HallSide::letInRequested);
    connect(m_door, &DoorStrip::turnAwayRequested, this, &HallSide::turnAwayRequested);
    urgent->addWidget(m_door);
    urgent->addStretch(1);
    m_urgent->hide();
}

QWidget* HallSide::makePeople()
{
    m_people = new QWidget(this);
    auto* column = new QVBoxLayout(m_people);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::small);
    auto* head = new QHBoxLayout;
    head->setSpacing(Space::small);
    auto* heads = new QWidget(m_people);
    m_heads = new QStackedLayout(heads);
    m_counts = new WordFlow(heads);
    m_heads->addWidget(m_counts);
    m_guest = makeGuest();
    m_heads->addWidget(m_guest);
    head->addWidget(heads, 1);
    m_table = new BigButton(tr("Table"), BigButton::Rank::plain, BigButton::Size::desk, m_people);
    m_table->setKeyHint(QStringLiteral("L"));
    m_table->setFocusPolicy(Qt::TabFocus);
    connect(m_table, &BigButton::pressRequested, this, &HallSide::tableRequested);
    head->addWidget(m_table);
    column->addLayout(head);
    auto* twins = new QWidget(m_people);
    m_twins = new QStackedLayout(twins);
    m_hall = new HallView;
    connect(m_hall, &HallView::seatRequested, this, &HallSide::seatRequested);
    m_twins->addWidget(m_hall);
    m_seats = new SeatTable;
    m_seats->setFocusPolicy(Qt::TabFocus);
    m_seats->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_seats->setColumnHidden(SeatTableModel::noteColumn, true); // nothing is noted yet
    connect(m_seats, &SeatTable::seatRequested, this, &HallSide::seatRequested);
    m_twins->addWidget(m_seats);
    column->addWidget(twins, 1);
    m_worth = new WorthBox(m_people);
    connect(m_worth, &WorthBox::wordRequested, this, &HallSide::worthWordRequested);
    column->addWidget(m_worth);
    return m_people;
}

/// Where the counts stood: while somebody speaks to all, nobody else is asked to.
QWidget* HallSide::makeGuest()
{
    auto* guest = new QWidget(m_people);
    auto* row = new QHBoxLayout(guest);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(Space::small);
    m_guestWords = new OneLine(look::Type::title, OneLine::Ink::main, guest);
    m_guestWords->setBold();
    m_guestWords->setShorten(OneLine::Shorten::middle);
    row->addWidget(m_guestWords, 1);
    m_guestPress = new BigButton(tr("Not any more"), BigButton::Rank::main, BigButton::Size::desk, guest);
    m_guestPress->setKeyHint(QStringLiteral("V"));
    m_guestPress->setHintGivesWay();
    m_guestPress->setFocusPolicy(Qt::TabFocus);
    connect(m_guestPress, &BigButton::pressRequested, this, &HallSide::guestEndRequested);
    row->addWidget(m_guestPress);
    return guest;
}

void HallSide::setGuest(const GuestState& guest)
{
    const bool shown = !guest.words.isEmpty();
    if (shown) {
        m_guestWords->setTexts(guest.words);
        m_guestPress->setText(guest.press);
        m_guestPress->setAccessibleName(QStringLiteral("%1: %2").arg(guest.words.front(), guest.press));
    }
    QWidget* head = shown ? m_guest : static_cast<QWidget*>(m_counts);
    if (m_heads->currentWidget() == head)
        return;
    const bool inside = m_guestPress->hasFocus();
    m_heads->setCurrentWidget(head);
    if (inside)
        parentWidget()->setFocus(); // the class's keys
    QAccessibleEvent alert(m_guestWords, QAccessible::Alert);
    QAccessible::updateAccessibility(&alert);
}

void HallSide::pressNumber(int key)
{
    if (m_panelOpen)
        m_panel->pressWord(key - 1);
    else if (m_pages->currentWidget() == m_people)
        emit worthWordRequested(key - 1);
}

void HallSide::focusPeople()
{
    QWidget* people = m_twins->currentWidget();
    people->setFocus();
}

void HallSide::setCounts(const HallState& hall)
{
    const look::Palette& colours = Look::current().palette();
    using look::Weight;
    std::vector<WordFlow::Item> items;
    if (!hall.group.isEmpty())
        items.push_back({hall.group, colours.ink, Weight::bold, true});
    items.push_back({tr("%1 of %2 readable:").arg(hall.counts.readable()).arg(hall.counts.here), colours.ink,
                     Weight::regular, false});
    items.push_back({tr("%1 easy to hear").arg(hall.counts.easy), colours.easy, Weight::bold, false});
    if (hall.counts.littleMore > 0)
        items.push_back({tr("%1 a little more").arg(hall.counts.littleMore), colours.littleMore, Weight::bold, false});
    if (hall.counts.plenty > 0)
        items.push_back({tr("%1 plenty").arg(hall.counts.plenty), colours.plenty, Weight::bold, false});
    const bool large = hall.places > HallLayout::kMostNamed;
    const bool largest = Look::current().textSize() == look::TextSize::largest;
    m_counts->setLines(large ? (largest ? 4 : 3) : 2);
    m_counts->setItems(items);
}

void HallSide::setState(const LeadView& view)
{
    const HallState& hall = view.hall;
    const bool opened = hall.panel && !m_panelOpen;
    const bool closed = !hall.panel && m_panelOpen;
    m_panelOpen = hall.panel.has_value();
    if (hall.covered) {
        m_cover->setWords(view.coverWords);
        m_hall->setState({});
        m_seats->setState({});
        m_worth->setState({}, {});
    } else {
        setCounts(hall);
        setGuest(hall.guest);
        m_table->setText(hall.asTable ? tr("Hall") : tr("Table"));
        if (hall.asTable)
            m_seats->setState(hall.seats);
        else
            m_hall->setState({hall.seats, hall.places});
        m_worth->setState(hall.worth, hall.sent);
        if (hall.panel)
            m_panel->setState(*hall.panel);
    }
    QWidget* twin = hall.asTable ? static_cast<QWidget*>(m_seats) : m_hall;
    const bool hadFocus = m_twins->currentWidget()->hasFocus();
    if (!hall.covered && m_twins->currentWidget() != twin) {
        m_twins->setCurrentWidget(twin);
        if (hadFocus)
            twin->setFocus();
    }
    QWidget* page = hall.covered ? static_cast<QWidget*>(m_cover)
                    : hall.panel ? static_cast<QWidget*>(m_panel)
                                 : m_people;
    const QWidget* focus = window()->focusWidget();
    const bool inside = focus && isAncestorOf(focus);
    if (m_pages->currentWidget() != page) {
        m_pages->setCurrentWidget(page);
        if (inside && !opened && !closed)
            parentWidget()->setFocus(); // the class's keys, not whatever control comes next
    }
    if (opened)
        m_panel->setFocus();
    else if (closed)
        hall.covered ? parentWidget()->setFocus() : focusPeople();
    CallList::State calls = view.calls;
    if (calls.rows.size() > kCallsShown) {
        calls.more = tr("And %1 more").arg(calls.rows.size() - kCallsShown);
        calls.rows.resize(kCallsShown);
    }
    m_calls->setState(calls);
    const LostList::State lost = calls.rows.empty() ? urgentLines(view.lostLines) : LostList::State{};
    m_lostLines->setState(lost);
    m_door->setState(calls.rows.size() + lost.rows.size() < kCallsShown ? view.door : DoorList::State{});
    m_urgent->setVisible(!view.calls.rows.empty() || !lost.rows.empty() || m_door->isVisibleTo(m_urgent));
    placeUrgent();
}

void HallSide::placeUrgent()
{
    if (!m_urgent->isVisibleTo(this))
        return emit freeHeightChanged();
    const int needed =
        m_urgent->hasHeightForWidth() ? m_urgent->heightForWidth(width()) : m_urgent->sizeHint().height();
    const int least = m_worth->sizeHint().height() + Space::small; // all of worth a word, not half of it
    const int tall = std::min(std::max({needed, m_urgent->minimumSizeHint().height(), least}), height());
    m_urgent->setGeometry(0, height() - tall, width(), tall);
    m_urgent->raise();
    emit freeHeightChanged();
}

int HallSide::freeHeight() const
{
    return m_urgent->isVisibleTo(this) ? m_urgent->y() - Space::small : height();
}

bool HallSide::event(QEvent* event)
{
    const bool done = QWidget::event(event);
    if (event->type() == QEvent::LayoutRequest)
        placeUrgent();
    return done;
}

void HallSide::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    placeUrgent();
}

} // namespace vh::lead
