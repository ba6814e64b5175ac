#include "app/write/library_page.h"

#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"
#include "app/write/class_look_panel.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
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

LibraryPage::LibraryPage(QWidget* parent) : QWidget(parent)
{
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(Space::margin, Space::gap, Space::margin, Space::gap + 4);
    page->setSpacing(Space::small);
    page->addLayout(makeHead());
    auto* said = new QHBoxLayout;
    m_notice = new NoticeLine(this);
    said->addWidget(m_notice, 1);
    m_putBack = desk(tr("Put it back"), this, tr("Ctrl+Z"));
    m_putBack->setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
    connect(m_putBack, &BigButton::pressRequested, this, &LibraryPage::putBackRequested);
    said->addWidget(m_putBack);
    auto* columns = new QHBoxLayout;
    columns->setSpacing(Space::wide);
    columns->addWidget(makeFind(), 9);
    columns->addWidget(makeChosen(), 13);
    page->addLayout(columns, 1);
    page->addLayout(said);
    makeKeys();
    setTabOrder(m_find, m_list);
}

QLayout* LibraryPage::makeHead()
{
    auto* row = new QHBoxLayout;
    row->setSpacing(Space::gap);
    m_title = plainLabel(this, "title");
    row->addWidget(m_title, 1);
    m_group = desk({}, this);
    m_days = desk(tr("The days"), this);
    m_new = desk(tr("New class"), this, tr("Ctrl+N"));
    m_back = desk({}, this, tr("Ctrl+W"));
    connect(m_group, &BigButton::pressRequested, this, &LibraryPage::groupRequested);
    connect(m_days, &BigButton::pressRequested, this, &LibraryPage::daysRequested);
    connect(m_new, &BigButton::pressRequested, this, &LibraryPage::newRequested);
    connect(m_back, &BigButton::pressRequested, this, &LibraryPage::backRequested);
    for (BigButton* each : {m_group, m_days, m_new, m_back})
        row->addWidget(each);
    return row;
}

QWidget* LibraryPage::makeFind()
{
    auto* side = new QWidget(this);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::small);
    auto* line = new QHBoxLayout;
    m_find = new QLineEdit(side);
    m_find->setProperty(look::kRoleProperty, "desk");
    m_find->setPlaceholderText(tr("Theme, title, anything said"));
    m_find->setAccessibleName(tr("Find a class by theme, title or anything said in it"));
    m_find->installEventFilter(this);
    connect(m_find, &QLineEdit::textEdited, this, &LibraryPage::searchRequested);
    line->addWidget(m_find, 1);
    m_count = plainLabel(side, "note");
    m_count->setWordWrap(false);
    line->addWidget(m_count);
    column->addLayout(line);
    m_list = new RowList(tr("Classes"), side);
    connect(m_list, &RowList::rowRequested, this, &LibraryPage::rowRequested);
    connect(m_list, &RowList::enterRequested, this, &LibraryPage::press);
    column->addWidget(m_list, 1);
    return side;
}

QWidget* LibraryPage::makeChosen()
{
    auto* side = new QWidget(this);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::small);
    m_look = new ClassLookPanel(side);
    connect(m_look, &ClassLookPanel::titleRequested, this, &LibraryPage::titleRequested);
    connect(m_look, &ClassLookPanel::titleGivenUp, this, &LibraryPage::renameGivenUp);
    column->addWidget(m_look, 1);
    m_copy = desk(tr("Copy"), side);
    m_rename = desk(tr("Another title"), side, tr("F2"));
    m_aside = desk(tr("Put aside"), side);
    m_plan = desk(tr("Plan for a day"), side, tr("Ctrl+D"));
    m_handout = desk(tr("Handout"), side, tr("Ctrl+P"));
    m_rehearse = desk(tr("Rehearse"), side, tr("F5"));
    m_write = new BigButton({}, BigButton::Rank::main, BigButton::Size::desk, side);
    connect(m_copy, &BigButton::pressRequested, this, &LibraryPage::copyRequested);
    connect(m_rename, &BigButton::pressRequested, this, &LibraryPage::renameRequested);
    connect(m_aside, &BigButton::pressRequested, this, &LibraryPage::putAsideRequested);
    connect(m_plan, &BigButton::pressRequested, this, &LibraryPage::planRequested);
    connect(m_handout, &BigButton::pressRequested, this, &LibraryPage::handoutRequested);
    connect(m_rehearse, &BigButton::pressRequested, this, &LibraryPage::rehearseRequested);
    connect(m_write, &BigButton::pressRequested, this, &LibraryPage::press);
    auto* quiet = new QHBoxLayout;
    auto* row = new QHBoxLayout;
    for (auto* each : {quiet, row})
        each->setSpacing(Space::gap);
    for (BigButton* each : {m_copy, m_rename, m_aside})
        quiet->addWidget(each);
    quiet->addStretch(1);
    for (BigButton* each : {m_plan, m_handout, m_rehearse})
        row->addWidget(each);
    row->addStretch(1);
    row->addWidget(m_write);
    column->addLayout(quiet);
    column->addLayout(row);
    return side;
}

void LibraryPage::makeKeys()
{
    const auto key = [this](const QKeySequence& keys, QWidget* where, BigButton* button) {
        auto* shortcut = new QShortcut(keys, where);
        shortcut->setContext(Qt::WidgetWithChildrenShortcut);
        shortcut->setAutoRepeat(false);
        connect(shortcut, &QShortcut::activated, this, [button] {
            if (button->isVisible() && button->isEnabled())
                emit button->pressRequested();
        });
    };
    key(Qt::CTRL | Qt::Key_N, this, m_new);
    key(Qt::Key_F5, this, m_rehearse);
    key(Qt::CTRL | Qt::Key_P, this, m_handout);
    key(Qt::CTRL | Qt::Key_D, this, m_plan);
    key(Qt::CTRL | Qt::Key_W, this, m_back);
    key(Qt::Key_F2, this, m_rename);
    key(QKeySequence::Copy, m_list, m_copy);
    key(Qt::Key_Delete, m_list, m_aside);
    key(QKeySequence::Undo, m_list, m_putBack);
}

/// What the main press means: it writes the class, or takes it for the day.
void LibraryPage::press()
{
    if (!m_write->isEnabled())
        return;
    if (m_shown.renaming)
        emit titleRequested(m_look->title());
    else if (m_shown.forDay.isEmpty())
        emit writeRequested();
    else
        emit planRequested();
}

bool LibraryPage::eventFilter(QObject* watched, QEvent* event)
{
    const auto* key = static_cast<QKeyEvent*>(event);
    if (event->type() == QEvent::ShortcutOverride && key->matches(QKeySequence::Undo) && m_find->text().isEmpty()) {
        if (m_putBack->isVisible())
            emit putBackRequested();
        return true;
    }
    if (event->type() == QEvent::KeyPress) {
        if (m_list->moveBy(key->key()))
            return true;
        if (key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter) {
            if (!key->isAutoRepeat())
                press();
            return true;
        }
        if (key->key() == Qt::Key_Escape) {
            if (!m_find->text().isEmpty())
                emit searchRequested({});
            else if (!m_shown.forDay.isEmpty())
                emit backRequested();
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

void LibraryPage::begin()
{
    m_find->setFocus();
    m_find->selectAll();
}

void LibraryPage::setState(const LibraryView& view)
{
    m_shown = view;
    const bool forDay = !view.forDay.isEmpty();
    m_title->setText(forDay ? tr("Which class for %1?").arg(view.forDay) : tr("Your classes"));
    m_group->setVisible(!view.group.isEmpty() && !forDay);
    m_group->setText(view.group);
    m_group->setAccessibleDescription(tr("Whose days these are. A press goes on to your next group."));
    m_days->setVisible(!forDay);
    m_back->setText(forDay ? tr("Back to the days") : tr("Leave"));
    m_notice->setState(view.notice);
    m_putBack->setVisible(view.canPutBack);
    if (m_find->text() != view.query)
        m_find->setText(view.query);
    m_count->setText(view.count);
    m_list->setState(view.rows);
    m_look->setState(view.look, view.renaming);
    const bool some = !view.look.path.isEmpty();
    for (BigButton* each : {m_copy, m_rename, m_aside, m_plan, m_handout, m_rehearse})
        each->setVisible(some && !forDay && !view.renaming);
    m_aside->setEnabled(view.look.own); // where they stand, so that nothing moves from class to class
    m_rename->setEnabled(view.look.own && view.look.readable);
    for (BigButton* each : {m_copy, m_plan, m_handout, m_rehearse})
        each->setEnabled(view.look.readable);
    m_write->setVisible(some);
    m_write->setEnabled(forDay ? view.look.readable : view.look.writable);
    m_write->setText(view.renaming ? tr("Keep this title") : forDay ? tr("Plan it for this day") : tr("Write"));
    m_write->setAccessibleDescription(forDay || view.renaming ? QString()
                                      : view.look.own
                                          ? tr("Opens it in the editor")
                                          : tr("Opens a copy of your own in the editor; this one stays as it is"));
}

} // namespace vh::write
