#include "app/write/days_page.h"

#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QFrame>
#include <QHBoxLayout>
#include <QScrollArea>
#include <QShortcut>
#include <QVBoxLayout>

namespace vh::write
{

using look::Space;

namespace
{

BigButton* desk(const QString& words, QWidget* parent, const QString& key = {})
{
    auto* button = new BigButton(words, BigButton::Rank::plain, BigButton::Size::desk, parent);
    if (!key.isEmpty()) {
        button->setKeyHint(key);
        button->setHintGivesWay();
    }
    return button;
}

} // namespace

DaysPage::DaysPage(QWidget* parent) : QWidget(parent)
{
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(Space::margin, Space::gap, Space::margin, Space::gap + 4);
    page->setSpacing(Space::small);
    page->addLayout(makeHead());
    auto* columns = new QHBoxLayout;
    columns->setSpacing(Space::wide);
    columns->addWidget(makeWeeks(), 13);
    columns->addWidget(makeDay(), 9);
    page->addLayout(columns, 1);
    auto* said = new QHBoxLayout;
    m_notice = new NoticeLine(this);
    said->addWidget(m_notice, 1);
    m_undo = desk(tr("Undo"), this, tr("Ctrl+Z"));
    m_undo->setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
    connect(m_undo, &BigButton::pressRequested, this, &DaysPage::undoRequested);
    said->addWidget(m_undo);
    page->addLayout(said);
    makeKeys();
}

QLayout* DaysPage::makeHead()
{
    auto* row = new QHBoxLayout;
    row->setSpacing(Space::gap);
    m_title = plainLabel(this, "title");
    row->addWidget(m_title, 1);
    m_group = desk({}, this);
    connect(m_group, &BigButton::pressRequested, this, &DaysPage::groupRequested);
    row->addWidget(m_group);
    m_back = desk({}, this, tr("Esc"));
    connect(m_back, &BigButton::pressRequested, this, &DaysPage::backRequested);
    row->addWidget(m_back);
    return row;
}

QWidget* DaysPage::makeWeeks()
{
    auto* side = new QWidget(this);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::small);
    auto* row = new QHBoxLayout;
    row->setSpacing(Space::gap);
    m_weekends = desk(tr("Show weekends"), side);
    m_earlier = desk(tr("A week earlier"), side);
    m_later = desk(tr("A week later"), side);
    connect(m_weekends, &BigButton::pressRequested, this, [this] { emit weekendsRequested(!m_shown.weekends); });
    connect(m_earlier, &BigButton::pressRequested, this, [this] { emit turnRequested(-1); });
    connect(m_later, &BigButton::pressRequested, this, [this] { emit turnRequested(1); });
    for (BigButton* each : {m_earlier, m_later})
        row->addWidget(each);
    row->addStretch(1);
    row->addWidget(m_weekends);
    column->addLayout(row);
    m_list = new RowList(tr("Days"), side);
    connect(m_list, &RowList::rowRequested, this, &DaysPage::rowRequested);
    connect(m_list, &RowList::enterRequested, this, &DaysPage::press);
    column->addWidget(m_list, 1);
    return side;
}

QWidget* DaysPage::makeDay()
{
    auto* sheet = new QFrame(this);
    sheet->setProperty(look::kRoleProperty, "sheet");
    auto* column = new QVBoxLayout(sheet);
    column->setContentsMargins(Space::wide, Space::gap + 4, Space::wide, Space::gap + 4);
    column->setSpacing(Space::small);
    auto* scroll = new QScrollArea(sheet); // words that are too many never push the presses away
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setAccessibleName(tr("The chosen day"));
    auto* body = new QWidget(scroll);
    auto* words = new QVBoxLayout(body);
    words->setContentsMargins(0, 0, Space::hair, 0);
    words->setSpacing(Space::small);
    m_day = plainLabel(body, "second");
    m_class = plainLabel(body, "heading");
    m_lines = plainLabel(body);
    words->addWidget(m_day);
    words->addWidget(m_class);
    words->addWidget(m_lines);
    m_usedBox = new QFrame(body);
    m_usedBox->setProperty(look::kRoleProperty, "quiet");
    auto* used = new QVBoxLayout(m_usedBox);
    used->setContentsMargins(Space::gap + 4, Space::small, Space::gap + 4, Space::small);
    m_used = plainLabel(m_usedBox, "note");
    used->addWidget(m_used);
    words->addWidget(m_usedBox);
    words->addStretch(1);
    scroll->setWidget(body);
    column->addWidget(scroll, 1);
    m_before = desk(tr("A day earlier"), sheet, tr("Alt+\u2191"));
    m_after = desk(tr("A day later"), sheet, tr("Alt+\u2193"));
    m_off = desk(tr("Take off"), sheet, tr("Del"));
    m_look = desk(tr("Look at it"), sheet);
    m_plan = new BigButton({}, BigButton::Rank::main, BigButton::Size::desk, sheet);
    connect(m_before, &BigButton::pressRequested, this, [this] { emit moveRequested(-1); });
    connect(m_after, &BigButton::pressRequested, this, [this] { emit moveRequested(1); });
    connect(m_off, &BigButton::pressRequested, this, &DaysPage::takeOffRequested);
    connect(m_look, &BigButton::pressRequested, this, &DaysPage::lookRequested);
    connect(m_plan, &BigButton::pressRequested, this, &DaysPage::press);
    for (const auto& pair : {std::pair{m_before, m_after}, std::pair{m_off, m_look}}) {
        auto* row = new QHBoxLayout;
        row->setSpacing(Space::gap);
        row->addWidget(pair.first, 1);
        row->addWidget(pair.second, 1);
        column->addLayout(row);
    }
    column->addWidget(m_plan);
    return sheet;
}

void DaysPage::makeKeys()
{
    const auto key = [this](const QKeySequence& keys, BigButton* button) {
        auto* shortcut = new QShortcut(keys, this);
        shortcut->setContext(Qt::WidgetWithChildrenShortcut);
        connect(shortcut, &QShortcut::activated, this, [button] {
            if (button->isVisible() && button->isEnabled())
                emit button->pressRequested();
        });
    };
    key(Qt::ALT | Qt::Key_Up, m_before);
    key(Qt::ALT | Qt::Key_Down, m_after);
    key(Qt::CTRL | Qt::Key_PageUp, m_earlier);
    key(Qt::CTRL | Qt::Key_PageDown, m_later);
    key(Qt::Key_Delete, m_off);
    key(QKeySequence::Undo, m_undo);
    key(Qt::Key_Escape, m_back);
}

void DaysPage::press()
{
    if (!m_plan->isEnabled())
        return;
    if (m_shown.placing.isEmpty())
        emit planRequested();
    else
        emit placeRequested();
}

void DaysPage::begin()
{
    m_list->setFocus();
}

void DaysPage::setState(const DaysView& view)
{
    m_shown = view;
    const bool placing = !view.placing.isEmpty();
    m_title->setText(placing ? tr("On which day: %1?").arg(view.placing) : tr("The days of your group"));
    m_group->setVisible(!view.group.isEmpty() && !placing);
    m_group->setText(view.group);
    m_group->setAccessibleDescription(tr("Whose days these are. A press goes on to your next group."));
    m_back->setText(placing ? tr("Not now") : tr("Your classes"));
    m_weekends->setText(view.weekends ? tr("Hide weekends") : tr("Show weekends"));
    m_list->setState(view.rows);
    m_day->setText(view.look.day);
    m_class->setText(view.look.title);
    m_lines->setText(view.look.lines.join(QLatin1Char('\n')));
    m_lines->setVisible(!view.look.lines.isEmpty());
    m_used->setText(view.look.used.join(QLatin1Char('\n')));
    m_usedBox->setVisible(!view.look.used.isEmpty());
    for (BigButton* each : {m_before, m_after, m_off})
        each->setVisible(view.look.planned && !placing);
    m_look->setVisible(view.look.known && !placing);
    m_plan->setText(placing ? tr("On this day") : view.look.planned ? tr("Plan another class") : tr("Plan a class"));
    m_plan->setEnabled(view.look.open);
    m_notice->setState(view.notice);
    m_undo->setVisible(view.canUndo && !placing);
}

} // namespace vh::write
