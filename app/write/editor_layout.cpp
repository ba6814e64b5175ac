// EditorPage: what it is made of, and its keys.
#include "app/write/editor_page.h"
#include "app/write/flow_row.h"
#include "app/write/page_parts.h"
#include "app/write/picture_side.h"
#include "app/write/remarks_box.h"
#include "app/write/sheet_preview.h"
#include "app/write/step_list.h"
#include "app/write/turns_side.h"
#include "app/write/whole_sides.h"
#include "app/write/words_side.h"

#include <QScrollArea>
#include <QShortcut>
#include <QStackedLayout>
#include <QVBoxLayout>

namespace vh::write
{

using look::Space;

namespace
{

constexpr int kListWidth = 282;
constexpr int kRightWidth = 432;

/// Where there is more than the window is high (large text), it scrolls.
QWidget* scrolling(QWidget* inside, const QString& name, QWidget* parent)
{
    auto* area = new QScrollArea(parent);
    area->setWidget(inside);
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setFocusPolicy(Qt::NoFocus);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    area->setAccessibleName(name);
    return area;
}

} // namespace

BigButton* EditorPage::button(Press which, QLayout* row, KeyAt keyAt)
{
    BigButton* made = buttonOf(which, keyAt, this);
    connect(made, &BigButton::pressRequested, this, [this, which] { press(which); });
    m_buttons.insert(static_cast<int>(which), made);
    row->addWidget(made);
    return made;
}

QWidget* EditorPage::makeDesk()
{
    auto* desk = new QWidget(this);
    auto* page = new QVBoxLayout(desk);
    page->setContentsMargins(Space::margin, Space::small, Space::margin, Space::gap);
    page->setSpacing(Space::small);
    page->addLayout(makeHead());
    m_rail = new ScriptRail(ScriptRail::Form::full, this);
    m_rail->installEventFilter(this);
    page->addWidget(m_rail);
    page->addLayout(makeActions());
    auto* columns = new QHBoxLayout;
    columns->setSpacing(Space::wide);
    m_list = new StepList(this);
    m_list->setFixedWidth(kListWidth);
    columns->addWidget(m_list);
    columns->addWidget(makeFields(), 1);
    columns->addWidget(makeRight());
    page->addLayout(columns, 1);
    connect(m_list, &StepList::spotRequested, this, &EditorPage::spotRequested);
    connect(m_list, &StepList::editRequested, this, [this] { toFields(); });
    return desk;
}

QLayout* EditorPage::makeHead()
{
    auto* head = new QHBoxLayout;
    head->setSpacing(Space::small);
    auto* left = new QVBoxLayout;
    left->setSpacing(0);
    m_title = plainLabel(this, "title");
    m_title->setWordWrap(false);
    m_title->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
    m_times = plainLabel(this, "note");
    m_times->setWordWrap(false);
    left->addStretch(1);
    left->addWidget(m_title);
    left->addWidget(m_times);
    left->addStretch(1);
    head->addLayout(left, 1);
    for (const Press each : {Press::undo, Press::redo, Press::save, Press::rehearse, Press::handout, Press::leave})
        button(each, head, KeyAt::below);
    m_buttons[static_cast<int>(Press::save)]->setRank(BigButton::Rank::main);
    return head;
}

QLayout* EditorPage::makeActions()
{
    auto* row = new FlowRow(Space::small);
    for (const Press each :
         {Press::toWrite, Press::newStep, Press::newPart, Press::copy, Press::up, Press::down, Press::remove})
        button(each, row, KeyAt::below);
    return row;
}

QWidget* EditorPage::makeFields()
{
    auto* fields = new QWidget(this);
    m_fields = new QStackedLayout(fields);
    m_whole = new ClassSide(this);
    m_part = new PartSide(this);
    m_step = new QWidget(this);
    auto* column = new QVBoxLayout(m_step);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::hair);
    auto* sides = new QHBoxLayout;
    sides->setSpacing(Space::hair);
    for (const Press each : {Press::words, Press::turns, Press::picture})
        button(each, sides, KeyAt::beside);
    m_buttons[static_cast<int>(Press::words)]->setRank(BigButton::Rank::main);
    sides->addStretch(1);
    column->addLayout(sides);
    column->addWidget(makeSides(m_step), 1);
    for (QWidget* each : {static_cast<QWidget*>(m_whole), static_cast<QWidget*>(m_part), m_step})
        m_fields->addWidget(each);

    connect(m_whole, &ClassSide::titleTyped, this, &EditorPage::titleTyped);
    connect(m_whole, &ClassSide::themeTyped, this, &EditorPage::themeTyped);
    connect(m_whole, &ClassSide::languageTyped, this, &EditorPage::languageTyped);
    connect(m_whole, &ClassSide::minutesTyped, this, &EditorPage::minutesTyped);
    connect(m_part, &PartSide::titleTyped, this, &EditorPage::partTitleTyped);
    connect(m_part, &PartSide::kindChosen, this, &EditorPage::partKindChosen);
    return fields;
}

QWidget* EditorPage::makeSides(QWidget* parent)
{
    auto* sides = new QWidget(parent);
    m_sides = new QStackedLayout(sides);
    m_words = new WordsSide(sides);
    m_turns = new TurnsSide(sides);
    m_picture = new PictureSide(sides);
    m_sides->addWidget(scrolling(m_words, tr("Words"), sides));
    m_sides->addWidget(scrolling(m_turns, tr("Turns"), sides));
    m_sides->addWidget(scrolling(m_picture, tr("Picture"), sides));
    connect(m_words, &WordsSide::textTyped, this, &EditorPage::textTyped);
    connect(m_words, &WordsSide::textDone, this, &EditorPage::textDone);
    connect(m_words, &WordsSide::linesPasted, this, &EditorPage::linesPasted);
    connect(m_words, &WordsSide::noteTyped, this, &EditorPage::noteTyped);
    connect(m_words, &WordsSide::markRequested, this, &EditorPage::markRequested);
    connect(m_words, &WordsSide::pressed, this, &EditorPage::press);
    connect(m_turns, &TurnsSide::editRequested, this, &EditorPage::roundEditRequested);
    connect(m_turns, &TurnsSide::secondsRequested, this, &EditorPage::secondsRequested);
    connect(m_turns, &TurnsSide::dearnessChosen, this, &EditorPage::dearnessChosen);
    connect(m_picture, &PictureSide::descriptionTyped, this, &EditorPage::descriptionTyped);
    connect(m_picture, &PictureSide::pressed, this, &EditorPage::press);
    return sides;
}

QWidget* EditorPage::makeRight()
{
    auto* right = new QWidget(this);
    right->setFixedWidth(kRightWidth);
    auto* column = new QVBoxLayout(right);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::small);
    m_sheet = new SheetPreview(right);
    column->addWidget(m_sheet);
    auto* how = new QHBoxLayout;
    how->setSpacing(Space::hair);
    for (const Press each : {Press::whoseTurn, Press::largest})
        button(each, how, KeyAt::beside);
    how->addStretch(1);
    column->addLayout(how);
    m_kept = new NoticeLine(right, look::Type::note);
    m_kept->setTight(true);
    column->addWidget(m_kept);
    m_remarks = new RemarksBox(right);
    column->addWidget(m_remarks, 1);
    connect(m_remarks, &RemarksBox::pressed, this, &EditorPage::press);
    connect(m_remarks, &RemarksBox::remarkRequested, this, &EditorPage::remarkRequested);
    return right;
}

void EditorPage::makeShortcuts()
{
    for (int i = 0; i < kPresses; ++i) {
        const auto which = static_cast<Press>(i);
        const Keyed keyed = keyedOf(which);
        if (keyed.keys.isEmpty())
            continue;
        QList<QKeySequence> keys{keyed.keys};
        if (which == Press::split)
            keys << QKeySequence(Qt::CTRL | Qt::Key_Enter);
        if (which == Press::redo)
            keys << QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_Z);
        for (const QKeySequence& each : keys) {
            auto* shortcut = new QShortcut(each, this);
            shortcut->setAutoRepeat(which == Press::undo || which == Press::redo || which == Press::before ||
                                    which == Press::after);
            connect(shortcut, &QShortcut::activated, this, [this, which] { press(which); });
        }
    }
}

} // namespace vh::write
