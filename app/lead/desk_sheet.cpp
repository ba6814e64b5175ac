#include "app/lead/desk_sheet.h"

#include "app/lead/desk_tray.h"
#include "app/lead/page_parts.h"
#include "app/widgets/big_button.h"
#include "app/widgets/card_list.h"
#include "app/widgets/plain_label.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QPainter>
#include <QScrollArea>
#include <QScrollBar>
#include <QStackedLayout>

namespace vh::lead
{

using look::Space;
using Sheet = DeskNewsView::Sheet;
using Kind = DeskRequest::Kind;

namespace
{
constexpr int kScrollStep = 60;
constexpr int kLeastHeight = 48; ///< beside calls that take nearly all of the room
} // namespace

/// What somebody wrote, whole, and the press that takes it.
class DeskSheet::Line : public QWidget
{
public:
    Line(QWidget* parent, const std::function<void(quint64)>& take) : QWidget(parent)
    {
        auto* row = new QHBoxLayout(this);
        row->setContentsMargins(Space::gap + Space::small, Space::small, Space::small, Space::small);
        row->setSpacing(Space::small);
        auto* text = new QVBoxLayout;
        text->setSpacing(0);
        m_head = plainLabel(this);
        m_head->setFont(look::Look::current().font(look::Type::body, look::Weight::bold));
        m_words = plainLabel(this);
        m_words->setTextInteractionFlags(Qt::TextSelectableByMouse);
        text->addWidget(m_head);
        text->addWidget(m_words);
        text->addStretch(1);
        row->addLayout(text, 1);
        m_take = new BigButton(DeskSheet::tr("Taken"), BigButton::Rank::plain, BigButton::Size::desk, this);
        m_take->setHintGivesWay();
        m_take->setFocusPolicy(Qt::TabFocus);
        connect(m_take, &BigButton::pressRequested, this, [this, take] { take(m_line.item); });
        row->addWidget(m_take, 0, Qt::AlignTop);
    }

    void setState(const DeskLine& line, const QString& head, const QString& key, bool heavy)
    {
        setVisible(line.item != 0);
        m_heavy = heavy;
        m_line = line;
        m_head->setText(head);
        m_words->setText(line.text);
        m_take->setKeyHint(key);
        m_take->setAccessibleName(DeskSheet::tr("Taken: %1").arg(head));
        m_take->setRank(heavy && !line.taking ? BigButton::Rank::main : BigButton::Rank::plain);
        update();
    }

protected:
    void paintEvent(QPaintEvent*) override
    {
        QPainter painter(this);
        painter.setRenderHint(QPainter::Antialiasing);
        if (m_heavy)
            paintHeavySheet(painter, QRectF(rect()));
        else
            look::paintSheet(painter, QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5),
                             look::Look::current().palette().quiet);
    }

private:
    DeskLine m_line;
    bool m_heavy = false;
    QLabel* m_head;
    QLabel* m_words;
    BigButton* m_take;
};

DeskSheet::DeskSheet(QWidget* parent) : QFrame(parent)
{
    setProperty(look::kRoleProperty, "sheet");
    setFocusPolicy(Qt::StrongFocus);
    hide();
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(Space::wide, Space::small, Space::wide, Space::gap);
    column->setSpacing(Space::small);
    auto* head = new QHBoxLayout;
    head->setSpacing(Space::gap);
    m_title = new OneLine(look::Type::title, OneLine::Ink::main, this);
    m_title->setBold();
    head->addWidget(m_title, 1);
    auto* close = new BigButton(tr("Close"), BigButton::Rank::plain, BigButton::Size::desk, this);
    close->setKeyHint(tr("Esc"));
    close->setHintGivesWay();
    connect(close, &BigButton::pressRequested, this, [this] { ask(Kind::close); });
    head->addWidget(close);
    column->addLayout(head);
    m_pages = new QStackedLayout;
    m_pages->addWidget(makeDesk());
    m_acts = makeActs();
    m_pages->addWidget(m_acts);
    column->addLayout(m_pages, 1);
}

QWidget* DeskSheet::makeDesk()
{
    m_desk = new QScrollArea(this);
    m_desk->setWidgetResizable(true);
    m_desk->setFrameShape(QFrame::NoFrame);
    m_desk->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_desk->setFocusPolicy(Qt::NoFocus);
    m_desk->setMinimumHeight(kLeastHeight);
    auto* inside = new QWidget(m_desk);
    auto* column = new QVBoxLayout(inside);
    column->setContentsMargins(0, 0, Space::small, 0);
    column->setSpacing(Space::small);
    m_nothing = plainLabel(inside, nullptr, tr("The desk has nothing for you just now."));
    column->addWidget(m_nothing);
    m_lines = new QVBoxLayout;
    m_lines->setSpacing(Space::small);
    column->addLayout(m_lines);
    addRule(column);
    m_board = makeChoice(column, [this] { ask(m_shown.boardOpen ? Kind::holdBoard : Kind::openBoard); });
    m_levels = makeChoice(column, [this] { ask(m_shown.levels ? Kind::hideLevels : Kind::showLevels); });
    addRule(column);
    auto* acts = new BigButton(tr("What was done at the desk"), BigButton::Rank::plain, BigButton::Size::desk, inside);
    connect(acts, &BigButton::pressRequested, this, [this] { ask(Kind::showActs); });
    column->addWidget(acts, 0, Qt::AlignLeft);
    column->addStretch(1);
    m_desk->setWidget(inside);
    return m_desk;
}

QWidget* DeskSheet::makeActs()
{
    auto* page = new QWidget(this);
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(0, 0, 0, 0);
    m_noActs = plainLabel(page);
    column->addWidget(m_noActs);
    m_list = new CardList(CardList::Choice::none, tr("What was done at the desk"), page);
    m_list->setMinimumHeight(kLeastHeight);
    column->addWidget(m_list, 1);
    return page;
}

void DeskSheet::addRule(QVBoxLayout* column)
{
    auto* rule = new QFrame(this);
    rule->setProperty(look::kRoleProperty, "rule");
    rule->setFixedHeight(1);
    column->addWidget(rule);
}

DeskSheet::Choice DeskSheet::makeChoice(QVBoxLayout* column, const std::function<void()>& change)
{
    Choice choice;
    auto* row = new QHBoxLayout;
    row->setSpacing(Space::gap);
    choice.words = plainLabel(this, "note");
    row->addWidget(choice.words, 1);
    choice.press = new BigButton({}, BigButton::Rank::plain, BigButton::Size::desk, this);
    connect(choice.press, &BigButton::pressRequested, this, change);
    row->addWidget(choice.press, 0, Qt::AlignTop);
    column->addLayout(row);
    return choice;
}

void DeskSheet::ask(DeskRequest::Kind kind, quint64 item)
{
    emit deskRequested({kind, item});
}

void DeskSheet::setLines(const DeskNewsView& view)
{
    std::size_t used = 0;
    const auto put = [&](const DeskLine& line, const QString& head, const QString& key, bool heavy) {
        if (used == m_rows.size()) {
            auto* made = new Line(m_desk->widget(), [this](quint64 item) { ask(Kind::take, item); });
            m_lines->addWidget(made);
            m_rows.push_back(made);
        }
        m_rows[used++]->setState(line, head, key, heavy);
    };
    for (const DeskLine& line : view.clinician)
        put(line, tr("%1 needs a clinician").arg(line.name), used == 0 ? QStringLiteral("N") : QString(), true);
    for (std::size_t i = 0; i < view.places.size(); ++i)
        if (view.places[i].item != 0)
            put(view.places[i], tr("%1 asks").arg(view.places[i].name),
                QString::number(DeskTray::kFirstKey + static_cast<int>(i)), false);
    m_nothing->setVisible(used == 0);
    while (used < m_rows.size())
        m_rows[used++]->setState({}, {}, {}, false);
}

void DeskSheet::setChoices(const DeskNewsView& view)
{
    const auto set = [](const Choice& choice, const QString& words, const QString& press) {
        choice.words->setText(words);
        choice.press->setText(press);
        choice.press->setAccessibleDescription(words);
    };
    if (view.boardOpen)
        set(m_board,
            tr("The board is open, in and out of class, until you change it: what people write is on every screen at "
               "once, unread. The desk can take it off again."),
            tr("Read first"));
    else
        set(m_board, tr("What people write is read at the desk before it is on the board."), tr("Open the board"));
    if (view.levels)
        set(m_levels,
            tr("Until this class is over, the desk sees the level of those who agreed to that. This is written in the "
               "log."),
            tr("Hide levels"));
    else
        set(m_levels,
            tr("The desk sees nobody's level. You can let it see, in this class, the level of those who agreed to "
               "that."),
            tr("Let it see levels"));
    m_levels.words->setVisible(view.levelsOffered);
    m_levels.press->setVisible(view.levelsOffered);
}

void DeskSheet::setActs(const DeskNewsView& view)
{
    std::vector<CardList::Card> cards;
    cards.reserve(view.acts.size());
    for (const ActLine& act : view.acts)
        cards.push_back({cards.size() + 1, act.words, act.time, act.detail, false});
    m_list->setState(cards);
    m_list->setVisible(!cards.empty());
    m_noActs->setVisible(cards.empty());
    m_noActs->setText(view.actsCame ? tr("Nothing was done at the desk in this class.") : tr("On its way\u2026"));
}

void DeskSheet::setState(const DeskNewsView& view)
{
    const bool fresh = view.sheet != Sheet::none && (view.opened != m_shown.opened || m_shown.sheet == Sheet::none);
    const bool urgent = view.clinician.size() > m_shown.clinician.size();
    const bool closes = view.sheet == Sheet::none && m_shown.sheet != Sheet::none;
    if (view == m_shown)
        return;
    m_shown = view;
    if (view.sheet == Sheet::desk) {
        m_title->setText(tr("The desk"));
        setLines(view);
        setChoices(view);
        m_pages->setCurrentWidget(m_desk);
    } else if (view.sheet == Sheet::acts) {
        m_title->setText(tr("What was done at the desk"));
        setActs(view);
        m_pages->setCurrentWidget(m_acts);
    }
    if (closes) {
        const QWidget* focus = window()->focusWidget();
        const bool inside = focus && (focus == this || isAncestorOf(focus));
        hide();
        if (inside)
            emit closed();
    }
    if (fresh || urgent)
        m_desk->verticalScrollBar()->setValue(0);
    if (fresh) {
        show();
        raise();
        setFocus();
    }
}

void DeskSheet::keyPressEvent(QKeyEvent* event)
{
    const bool acts = m_shown.sheet == Sheet::acts;
    QScrollBar* bar = acts ? m_list->verticalScrollBar() : m_desk->verticalScrollBar();
    if (event->key() == Qt::Key_Escape) {
        event->accept();
        if (!event->isAutoRepeat())
            ask(Kind::close);
    } else if (event->key() == Qt::Key_Down || event->key() == Qt::Key_Up) {
        event->accept();
        bar->setValue(bar->value() + (event->key() == Qt::Key_Down ? kScrollStep : -kScrollStep));
    } else {
        QFrame::keyPressEvent(event); // the class's keys
    }
}

} // namespace vh::lead
