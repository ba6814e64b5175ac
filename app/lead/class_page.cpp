#include "app/lead/class_page.h"

#include "app/lead/page_parts.h"
#include "app/lead/script_column.h"
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QHeaderView>
#include <QKeyEvent>
#include <QShortcut>
#include <QVBoxLayout>

#include <algorithm>

namespace vh::lead
{

using look::Look;
using look::Space;

namespace
{
constexpr int kNameWidth = 108;
constexpr int kLevelWidth = 104;
} // namespace

ClassPage::ClassPage(QWidget* parent) : QWidget(parent)
{
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(Space::wide, Space::small, Space::wide, Space::small);
    page->setSpacing(Space::small);
    page->addWidget(makeHead());
    m_notice = new NoticeLine(this);
    page->addWidget(m_notice);
    auto* columns = new QHBoxLayout;
    columns->setSpacing(Space::wide);
    auto* left = new QVBoxLayout;
    left->setSpacing(Space::small);
    m_column = new ScriptColumn(this);
    left->addWidget(m_column, 1);
    left->addWidget(makeKeys());
    columns->addLayout(left, 3);
    columns->addWidget(makePeople(), 2);
    page->addLayout(columns, 1);
    m_rail = new ScriptRail(ScriptRail::Form::full, this);
    page->addWidget(m_rail);
    m_keyboard = new DeepSign(this);
    makeShortcuts();
}

BigButton* ClassPage::makeKey(const QString& words, const QString& hint, QWidget* parent)
{
    auto* button = new BigButton(words, BigButton::Rank::plain, BigButton::Size::desk, parent);
    button->setKeyHint(hint);
    button->setFocusPolicy(Qt::TabFocus);
    return button;
}

QWidget* ClassPage::makeHead()
{
    auto* head = new QWidget(this);
    auto* row = new QHBoxLayout(head);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(Space::gap);
    const auto oneLine = [head](const char* role) {
        auto* label = plainLabel(head, role);
        label->setWordWrap(false);
        return label;
    };
    m_title = new OneLine(look::Type::title, OneLine::Ink::main, head);
    m_title->setBold();
    m_title->setSizePolicy(QSizePolicy::Maximum, QSizePolicy::Fixed); // gives way first
    m_code = new OneLine(look::Type::body, OneLine::Ink::second, head);
    m_code->setSizePolicy(QSizePolicy::Maximum, QSizePolicy::Fixed);
    m_level = new LevelBar(head);
    m_doorCount = oneLine(nullptr);
    m_clock = oneLine(nullptr);
    m_groupWindow = makeKey(tr("Group's window"), "F", head);
    connect(m_groupWindow, &BigButton::pressRequested, this, &ClassPage::groupWindowRequested);
    m_end = makeKey(tr("End for everybody?"), "", head);
    m_end->setMinimumWidth(m_end->sizeHint().width()); // so it stays where it is when it asks once more
    connect(m_end, &BigButton::pressRequested, this, &ClassPage::endRequested);
    row->addWidget(m_title);
    row->addWidget(m_code);
    row->addWidget(m_level);
    row->addStretch(1);
    row->addWidget(m_doorCount);
    row->addWidget(m_clock);
    row->addWidget(m_groupWindow);
    row->addWidget(m_end);
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
    m_holder = plainLabel(m_following);
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

QWidget* ClassPage::makePeople()
{
    m_people = new QWidget(this);
    auto* column = new QVBoxLayout(m_people);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::small);
    m_calls = new CallList(m_people);
    connect(m_calls, &CallList::takeRequested, this, &ClassPage::callTakeRequested);
    connect(m_calls, &CallList::doneRequested, this, &ClassPage::callDoneRequested);
    column->addWidget(m_calls);
    m_door = new DoorList(m_people);
    m_door->hide();
    connect(m_door, &DoorList::letInRequested, this, &ClassPage::letInRequested);
    connect(m_door, &DoorList::turnAwayRequested, this, &ClassPage::turnAwayRequested);
    column->addWidget(m_door);
    m_readable = plainLabel(m_people);
    column->addWidget(m_readable);
    auto* counts = new QHBoxLayout;
    counts->setSpacing(Space::gap);
    for (QLabel** label : {&m_easy, &m_littleMore, &m_plenty}) {
        *label = plainLabel(m_people);
        (*label)->setWordWrap(false);
        (*label)->setFont(Look::current().font(look::Type::body, look::Weight::bold));
        counts->addWidget(*label);
    }
    counts->addStretch();
    column->addLayout(counts);
    m_seats = new SeatTable(m_people);
    m_seats->setFocusPolicy(Qt::TabFocus);
    m_seats->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_seats->setColumnWidth(SeatTableModel::nameColumn, kNameWidth);
    m_seats->setColumnWidth(SeatTableModel::levelColumn, kLevelWidth);
    m_seats->setColumnHidden(SeatTableModel::noteColumn, true); // nothing is noted yet
    m_seats->horizontalHeader()->setStretchLastSection(false);
    m_seats->horizontalHeader()->setSectionResizeMode(SeatTableModel::standingColumn, QHeaderView::Stretch);
    column->addWidget(m_seats, 1);
    return m_people;
}

void ClassPage::makeShortcuts()
{
    // Those that no text field needs; the rest comes up from whatever has the focus (keyPressEvent).
    const auto key = [this](Qt::Key code, auto act) {
        auto* shortcut = new QShortcut(QKeySequence(code), this);
        shortcut->setAutoRepeat(false);
        shortcut->setContext(Qt::WindowShortcut);
        connect(shortcut, &QShortcut::activated, this, act);
    };
    key(Qt::Key_PageDown, [this] { request(CommandKind::goOn); });
    key(Qt::Key_PageUp, [this] { request(CommandKind::back); });
    key(Qt::Key_O, [this] { request(CommandKind::onceMore); });
    key(Qt::Key_W, [this] { waitOrResume(); });
    key(Qt::Key_S, [this] { request(CommandKind::skip); });
    key(Qt::Key_T, [this] {
        if (m_following->isVisibleTo(this))
            emit takePlaceRequested();
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
    const bool elsewhere = m_holds && isVisible() && !isActiveWindow();
    if (elsewhere) {
        m_keyboard->setText(tr("The keyboard is elsewhere. Click here to lead."));
        const QPoint at = m_keys->parentWidget()->mapTo(this, QPoint());
        m_keyboard->setGeometry(QRect(at, m_keys->parentWidget()->size()));
        m_keyboard->raise();
    }
    m_keyboard->setVisible(elsewhere);
}

void ClassPage::setCounts(const LeadView& view)
{
    const look::Palette& colours = Look::current().palette();
    const auto show = [](QLabel* label, const QString& words, const QColor& ink) {
        label->setText(words);
        label->setVisible(!words.isEmpty());
        QPalette palette = label->palette();
        if (palette.color(QPalette::WindowText) != ink) {
            palette.setColor(QPalette::WindowText, ink);
            label->setPalette(palette);
        }
    };
    const SeatCounts& counts = view.counts;
    show(m_readable, tr("%1 of %2 readable").arg(counts.readable()).arg(counts.here), colours.ink);
    show(m_easy, tr("%1 easy to hear").arg(counts.easy), colours.easy);
    show(m_littleMore, counts.littleMore > 0 ? tr("%1 a little more").arg(counts.littleMore) : QString(),
         colours.littleMore);
    show(m_plenty, counts.plenty > 0 ? tr("%1 plenty").arg(counts.plenty) : QString(), colours.plenty);
}

void ClassPage::setState(const LeadView& view)
{
    m_waits = view.waits;
    m_holds = view.hold == Hold::mine;
    m_title->setText(view.title);
    m_code->setText(view.way.code.isEmpty() ? QString() : tr("code %1").arg(view.way.code));
    m_code->setVisible(!view.way.code.isEmpty());
    m_level->setState(view.level);
    m_level->setVisible(!view.level.words.isEmpty());
    const auto waiting = view.door.rows.size();
    m_doorCount->setText(waiting == 1 ? tr("1 at the door") : tr("%1 at the door").arg(waiting));
    m_doorCount->setVisible(waiting > 0);
    m_clock->setText(view.clock);
    m_groupWindow->setText(view.groupWindowShown ? tr("Hide the window") : tr("Group's window"));
    m_end->setText(view.endArmed ? tr("End for everybody?") : tr("End"));
    m_end->setVisible(m_holds);
    m_notice->setState(view.notice);

    m_column->setState(view.column);
    m_wait->setText(view.waits ? tr("Resume") : tr("Wait"));
    m_keys->setVisible(m_holds);
    m_following->setVisible(!m_holds);
    if (view.hold == Hold::anotherSilent)
        m_holder->setText(view.waits ? tr("The homes have been told. The clock waits.")
                                     : tr("The homes have been told. The class goes on by the clock."));
    else
        m_holder->setText(tr("%1 leads.").arg(view.holder));
    m_take->setVisible(view.mayTake);

    m_people->setVisible(view.role == Role::leader);
    m_calls->setState(view.calls);
    DoorList::State first = view.door; // one after the other, and calls for help before them: the table keeps its room
    first.rows.resize(std::min<std::size_t>(first.rows.size(), 1));
    m_door->setState(first);
    m_door->setVisible(waiting > 0 && view.calls.rows.size() < 2);
    setCounts(view);
    m_seats->setState(view.seats);
    m_rail->setState(view.rail);
    tellKeyboard();
}

} // namespace vh::lead
