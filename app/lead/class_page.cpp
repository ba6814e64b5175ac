#include "app/lead/class_page.h"

#include "app/lead/changes_sheet.h"
#include "app/lead/class_head.h"
#include "app/lead/desk_sheet.h"
#include "app/lead/desk_tray.h"
#include "app/lead/group_window.h"
#include "app/lead/hall_side.h"
#include "app/lead/page_parts.h"
#include "app/lead/script_column.h"
#include "app/pictures/window_strip.h"
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QApplication>
#include <QKeyEvent>
#include <QShortcut>
#include <QVBoxLayout>

#include <algorithm>

namespace vh::lead
{

using look::Space;

namespace
{

/// The window that has the keyboard, if it is one of ours that may have it: this one, one that stands before it, or the
/// group's, which gives it back.
bool keyboardIsOurs(const QWidget& page)
{
    const QWidget* active = QApplication::activeWindow();
    if (!active)
        return false;
    if (qobject_cast<const GroupWindow*>(active) || QApplication::activePopupWidget())
        return true;
    for (const QWidget* each = active; each; each = each->parentWidget())
        if (each == page.window())
            return true;
    return false;
}

} // namespace

ClassPage::ClassPage(QWidget* parent) : QWidget(parent)
{
    auto* page = new QVBoxLayout(this);
    m_head = makeHead();
    page->addWidget(m_head);
    auto* columns = new QHBoxLayout;
    columns->setSpacing(Space::gap + Space::hair);
    auto* left = new QVBoxLayout;
    left->setSpacing(Space::small);
    m_calls = new CallList(this); // a stand-in's: a leader has them over the hall
    connect(m_calls, &CallList::takeRequested, this, &ClassPage::callTakeRequested);
    connect(m_calls, &CallList::doneRequested, this, &ClassPage::callDoneRequested);
    left->addWidget(m_calls);
    m_column = new ScriptColumn(this);
    left->addWidget(m_column, 1);
    left->addWidget(makeKeys());
    columns->addLayout(left, 4);
    makePeople();
    columns->addWidget(m_people, 3);
    m_aside = new QWidget(this);
    m_aside->hide();
    columns->addWidget(m_aside, 3);
    page->addLayout(columns, 1);
    makeDesk();
    auto* foot = new QHBoxLayout;
    foot->setSpacing(Space::gap);
    foot->addWidget(m_tray, 1);
    foot->addWidget(m_pictures);
    page->addLayout(foot);
    m_rail = new ScriptRail(ScriptRail::Form::full, this);
    page->addWidget(m_rail);
    makeChanges();
    m_keyboard = new DeepSign(this);
    makeShortcuts();
    fitSpaces();
}

BigButton* ClassPage::makeKey(const QString& words, const QString& hint, QWidget* parent)
{
    auto* button = new BigButton(words, BigButton::Rank::plain, BigButton::Size::desk, parent);
    button->setKeyHint(hint);
    button->setHintGivesWay();
    button->setFocusPolicy(Qt::TabFocus);
    return button;
}

ClassHead* ClassPage::makeHead()
{
    auto* head = new ClassHead(this);
    connect(head, &ClassHead::muteRequested, this, &ClassPage::muteRequested);
    connect(head, &ClassHead::bellRequested, this, &ClassPage::bellRequested);
    connect(head, &ClassHead::recordingRequested, this, &ClassPage::recordingRequested);
    connect(head, &ClassHead::coverRequested, this, &ClassPage::coverRequested);
    connect(head, &ClassHead::groupWindowRequested, this, &ClassPage::groupWindowRequested);
    connect(head, &ClassHead::endRequested, this, &ClassPage::endRequested);
    return head;
}

QWidget* ClassPage::makeKeys()
{
    auto* both = new QWidget(this);
    auto* stack = new QVBoxLayout(both);
    stack->setContentsMargins(0, 0, 0, 0);
    stack->setSpacing(0);
    m_keys = new QWidget(both);
    auto* keys = new QHBoxLayout(m_keys);
    keys->setContentsMargins(0, 0, 0, 0);
    keys->setSpacing(Space::small);
    auto* back = makeKey(tr("Back"), QStringLiteral("\u2190"), m_keys);
    auto* onceMore = makeKey(tr("Once more"), "O", m_keys);
    m_wait = makeKey(tr("Wait"), "W", m_keys);
    auto* skip = makeKey(tr("Skip"), "S", m_keys);
    m_goOn = new BigButton(tr("Go on"), BigButton::Rank::main, BigButton::Size::touch, m_keys);
    m_goOn->setFocusPolicy(Qt::TabFocus);
    m_goOn->setKeyHint(tr("Space"));
    m_goOn->setHintGivesWay();
    connect(back, &BigButton::pressRequested, this, [this] { request(CommandKind::back); });
    connect(onceMore, &BigButton::pressRequested, this, [this] { request(CommandKind::onceMore); });
    connect(m_wait, &BigButton::pressRequested, this, &ClassPage::waitOrResume);
    connect(skip, &BigButton::pressRequested, this, [this] { request(CommandKind::skip); });
    connect(m_goOn, &BigButton::pressRequested, this, [this] { request(CommandKind::goOn); });
    for (BigButton* key : {back, onceMore, m_wait, skip})
        keys->addWidget(key);
    keys->addStretch(1);
    keys->addWidget(m_goOn);
    stack->addWidget(m_keys);
    m_following = new QWidget(both);
    auto* following = new QHBoxLayout(m_following);
    following->setContentsMargins(0, 0, 0, 0);
    m_holder = plainLabel(m_following, "note");
    m_take = new BigButton(tr("Take the place"), BigButton::Rank::main, BigButton::Size::touch, m_following);
    m_take->setKeyHint(QStringLiteral("T"));
    connect(m_take, &BigButton::pressRequested, this, &ClassPage::takePlaceRequested);
    following->addWidget(m_holder, 1);
    auto* leave = new BigButton(tr("Leave"), BigButton::Rank::plain, BigButton::Size::touch, m_following);
    leave->setFocusPolicy(Qt::TabFocus);
    connect(leave, &BigButton::pressRequested, this, &ClassPage::leaveRequested);
    following->addWidget(leave);
    following->addWidget(m_take);
    stack->addWidget(m_following);
    both->setFixedHeight(std::max(m_keys->sizeHint().height(), m_following->sizeHint().height()));
    return both;
}

void ClassPage::makePeople()
{
    m_people = new HallSide(this);
    connect(m_people, &HallSide::seatRequested, this, &ClassPage::seatRequested);
    connect(m_people, &HallSide::seatCloseRequested, this, &ClassPage::seatCloseRequested);
    connect(m_people, &HallSide::tableRequested, this, &ClassPage::tableRequested);
    connect(m_people, &HallSide::worthWordRequested, this, &ClassPage::worthWordRequested);
    connect(m_people, &HallSide::ownWordRequested, this, &ClassPage::ownWordRequested);
    connect(m_people, &HallSide::bandRequested, this, &ClassPage::bandRequested);
    connect(m_people, &HallSide::inviteRequested, this, &ClassPage::inviteRequested);
    connect(m_people, &HallSide::guestEndRequested, this, &ClassPage::guestEndRequested);
    connect(m_people, &HallSide::callTakeRequested, this, &ClassPage::callTakeRequested);
    connect(m_people, &HallSide::callDoneRequested, this, &ClassPage::callDoneRequested);
    connect(m_people, &HallSide::lookRequested, this, &ClassPage::lookRequested);
    connect(m_people, &HallSide::lineDoneRequested, this, &ClassPage::lineDoneRequested);
    connect(m_people, &HallSide::letInRequested, this, &ClassPage::letInRequested);
    connect(m_people, &HallSide::turnAwayRequested, this, &ClassPage::turnAwayRequested);
}

/// Over the hall; the rail and the foot of the script lead to it, too.
void ClassPage::makeChanges()
{
    m_changes = new ChangesSheet(this);
    connect(m_changes, &ChangesSheet::changeRequested, this, &ClassPage::changeRequested);
    connect(m_changes, &ChangesSheet::closed, this, [this] { setFocus(); });
    connect(m_people, &HallSide::freeHeightChanged, this, &ClassPage::placeSheets);
    connect(m_column, &ScriptColumn::stepsRequested, this, [this] { ask(ChangeRequest::Kind::showSteps); });
    connect(m_rail, &ScriptRail::partPressed, this, [this](int part) {
        emit changeRequested({ChangeRequest::Kind::showSection, StepAt{static_cast<std::uint16_t>(part), 0}, {}});
    });
}

/// The tray has its place always; the sheet stands where that for changes does, one at a time.
void ClassPage::makeDesk()
{
    m_tray = new DeskTray(this);
    connect(m_tray, &DeskTray::takeRequested, this, [this](quint64 item) {
        emit deskRequested({DeskRequest::Kind::take, item});
    });
    m_pictures = new pictures::WindowStrip(this);
    connect(m_pictures, &pictures::WindowStrip::showRequested, this, &ClassPage::pictureShowRequested);
    connect(m_pictures, &pictures::WindowStrip::doneRequested, this, &ClassPage::pictureDoneRequested);
    m_desk = new DeskSheet(this);
    connect(m_desk, &DeskSheet::deskRequested, this, &ClassPage::deskRequested);
    connect(m_desk, &DeskSheet::closed, this, [this] { setFocus(); });
    connect(m_people, &HallSide::clinicianTakeRequested, this, [this](quint64 item) {
        emit deskRequested({DeskRequest::Kind::take, item});
    });
}

void ClassPage::ask(ChangeRequest::Kind kind)
{
    emit changeRequested({kind, {}, {}});
}

/// Where the people are, but for what cannot wait at their foot. Where there are none the script makes room.
void ClassPage::placeSheets()
{
    const QWidget* side = m_hasPeople ? static_cast<QWidget*>(m_people) : m_aside;
    QRect where = side->geometry();
    if (m_hasPeople)
        where.setHeight(m_people->freeHeight());
    m_changes->setGeometry(where);
    m_desk->setGeometry(where);
}

/// In the largest type the room between things goes to the things.
void ClassPage::fitSpaces()
{
    const bool tight = look::Look::current().textSize() == look::TextSize::largest;
    const int space = tight ? Space::hair : Space::small;
    layout()->setContentsMargins(Space::wide - 8, space, Space::wide - 8, space);
    layout()->setSpacing(space);
}

void ClassPage::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange)
        fitSpaces();
}

void ClassPage::makeShortcuts()
{
    // Those that no text field needs; the rest comes up from whatever has the focus (keyPressEvent).
    const auto key = [this](const QKeySequence& code, auto act) {
        auto* shortcut = new QShortcut(code, this);
        shortcut->setAutoRepeat(false);
        shortcut->setContext(Qt::WindowShortcut);
        connect(shortcut, &QShortcut::activated, this, act);
    };
    key(Qt::Key_PageDown, [this] { request(CommandKind::goOn); });
    key(Qt::Key_PageUp, [this] { request(CommandKind::back); });
    key(Qt::Key_O, [this] { request(CommandKind::onceMore); });
    key(Qt::Key_W, [this] { waitOrResume(); });
    key(Qt::Key_S, [this] { request(CommandKind::skip); });
    key(Qt::Key_J, [this] { ask(ChangeRequest::Kind::showSteps); });
    key(Qt::Key_X, [this] { ask(ChangeRequest::Kind::moreTime); });
    key(Qt::Key_I, [this] { ask(ChangeRequest::Kind::showTrim); });
    key(Qt::Key_E, [this] { emit changeRequested({ChangeRequest::Kind::showText, m_changes->chosen(), {}}); });
    key(Qt::Key_P, [this] { m_pictures->press(); });
    key(Qt::SHIFT | Qt::Key_P, [this] { m_pictures->putAway(); });
    key(Qt::Key_T, [this] {
        if (m_following->isVisibleTo(this))
            emit takePlaceRequested();
    });
    key(Qt::Key_L, [this] {
        if (m_hasPeople)
            emit tableRequested();
    });
    key(Qt::Key_C, [this] {
        if (m_hasPeople)
            emit coverRequested();
    });
    key(Qt::Key_V, [this] {
        if (m_hasGuest)
            emit guestEndRequested();
        else if (m_hasPeople)
            emit inviteRequested();
    });
    key(Qt::Key_D, [this] {
        if (m_hasPeople)
            emit deskRequested({DeskRequest::Kind::showDesk});
    });
    key(Qt::Key_N, [this] { m_people->pressClinician(); });
    for (std::size_t place = 0; place < DeskNewsView::kPlaces; ++place)
        key(static_cast<Qt::Key>(Qt::Key_0 + DeskTray::kFirstKey + static_cast<int>(place)),
            [this, place] { m_tray->pressPlace(place); });
    for (int number = 1; number <= 6; ++number)
        key(static_cast<Qt::Key>(Qt::Key_0 + number), [this, number] {
            if (m_hasPeople)
                m_people->pressNumber(number);
        });
}

void ClassPage::keyPressEvent(QKeyEvent* event)
{
    const bool goOn = event->key() == Qt::Key_Space || event->key() == Qt::Key_Return ||
                      event->key() == Qt::Key_Enter || event->key() == Qt::Key_Right;
    if (!goOn && event->key() != Qt::Key_Left)
        return QWidget::keyPressEvent(event);
    event->accept();
    if (!event->isAutoRepeat())
        request(goOn ? CommandKind::goOn : CommandKind::back);
}

void ClassPage::request(CommandKind command)
{
    emit commandRequested(command);
}

void ClassPage::waitOrResume()
{
    request(m_waits ? CommandKind::resume : CommandKind::wait);
}

void ClassPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    setFocusPolicy(Qt::StrongFocus);
    setFocus();
    tellKeyboard();
}

void ClassPage::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    placeSheets();
    tellKeyboard();
}

bool ClassPage::event(QEvent* event)
{
    const bool done = QWidget::event(event);
    if (event->type() == QEvent::WindowActivate || event->type() == QEvent::WindowDeactivate)
        tellKeyboard();
    return done;
}

void ClassPage::tellKeyboard()
{
    const bool elsewhere = m_holds && isVisible() && !keyboardIsOurs(*this);
    if (elsewhere) {
        m_keyboard->setText(tr("The keyboard is elsewhere. Click here to lead."));
        m_keyboard->setGeometry(rect());
        const QWidget* keys = m_keys->parentWidget();
        m_keyboard->setBand(QRect(keys->mapTo(this, QPoint()), keys->size()));
        m_keyboard->raise();
    }
    m_keyboard->setVisible(elsewhere);
}

void ClassPage::setState(const LeadView& view)
{
    m_waits = view.waits;
    m_holds = view.hold == Hold::mine;
    m_hasPeople = view.role == Role::leader;
    m_head->setState(view);
    m_column->setState(view.column);
    m_column->setNotice(view.notice);
    m_wait->setText(view.waits ? tr("Resume") : tr("Wait"));
    m_keys->setVisible(m_holds);
    m_following->setVisible(!m_holds);
    if (view.hold == Hold::anotherSilent)
        m_holder->setText(view.waits ? tr("The clock waits.") : tr("The clock goes on."));
    else
        m_holder->setText(tr("%1 leads.").arg(view.holder));
    m_take->setVisible(view.mayTake);
    m_people->setVisible(m_hasPeople);
    m_people->setState(view);
    m_calls->setState(m_hasPeople ? CallList::State{} : view.calls);
    m_hasGuest = !view.hall.guest.words.isEmpty();
    m_rail->setState(view.rail);
    const bool aside = !m_hasPeople && view.changes.sheet != ChangesView::Sheet::none;
    if (aside != m_aside->isVisibleTo(this)) {
        m_aside->setVisible(aside);
        layout()->activate();
    }
    placeSheets();
    m_changes->setState(view.changes);
    m_tray->setVisible(m_hasPeople);
    m_tray->setState(view.desk.places);
    m_pictures->setState(m_hasPeople ? view.waiting : pictures::WindowStripView{});
    m_desk->setState(view.desk);
    tellKeyboard();
}

} // namespace vh::lead
