#include "app/write/class_look_panel.h"

#include "app/widgets/plain_label.h"
#include "common/script/limits.h"

#include <QGridLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QScrollArea>
#include <QScrollBar>
#include <QStackedLayout>
#include <QVBoxLayout>

namespace vh::write
{

using look::Space;

ClassLookPanel::ClassLookPanel(QWidget* parent) : QFrame(parent)
{
    setProperty(look::kRoleProperty, "sheet");
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(Space::wide, Space::gap + 4, Space::wide, Space::gap);
    column->setSpacing(Space::small);
    column->addWidget(makeHead());
    m_about = plainLabel(this, "second");
    column->addWidget(m_about);
    m_rail = new ScriptRail(ScriptRail::Form::full, this);
    column->addWidget(m_rail);
    m_scroll = new QScrollArea(this);
    m_scroll->setWidgetResizable(true);
    m_scroll->setFrameShape(QFrame::NoFrame);
    m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_scroll->setAccessibleName(tr("What is in it"));
    m_body = new QWidget(m_scroll);
    auto* body = new QVBoxLayout(m_body);
    body->setContentsMargins(0, Space::hair, Space::gap, 0);
    m_usedBox = new QFrame(m_body);
    m_usedBox->setProperty(look::kRoleProperty, "quiet");
    auto* used = new QVBoxLayout(m_usedBox);
    used->setContentsMargins(Space::gap + 4, Space::small, Space::gap + 4, Space::small);
    m_used = plainLabel(m_usedBox, "note");
    used->addWidget(m_used);
    body->setSpacing(Space::small);
    body->addWidget(m_usedBox);
    m_lines = new QGridLayout;
    m_lines->setColumnStretch(0, 1);
    m_lines->setHorizontalSpacing(Space::wide);
    m_lines->setVerticalSpacing(0);
    body->addLayout(m_lines);
    body->addStretch();
    m_scroll->setWidget(m_body);
    column->addWidget(m_scroll, 1);
}

/// The title; or the field in which it is changed.
QWidget* ClassLookPanel::makeHead()
{
    auto* head = new QWidget(this);
    head->setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Maximum);
    m_head = new QStackedLayout(head);
    m_title = plainLabel(head, "heading");
    m_head->addWidget(m_title);
    m_edit = new QLineEdit(head);
    m_edit->setProperty(look::kRoleProperty, "desk");
    m_edit->setAccessibleName(tr("Title of the class"));
    m_edit->setMaxLength(static_cast<int>(limits::kMaxTitle));
    m_edit->installEventFilter(this);
    connect(m_edit, &QLineEdit::returnPressed, this, [this] { emit titleRequested(m_edit->text()); });
    m_head->addWidget(m_edit);
    return head;
}

QString ClassLookPanel::title() const
{
    return m_edit->text();
}

bool ClassLookPanel::eventFilter(QObject* watched, QEvent* event)
{
    if (event->type() == QEvent::ShortcutOverride && static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape)
        event->accept(); // for here, not for the page
    if (event->type() == QEvent::KeyPress && static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape) {
        emit titleGivenUp();
        return true;
    }
    return QFrame::eventFilter(watched, event);
}

void ClassLookPanel::setState(const ClassLook& look, bool renaming)
{
    if (renaming != (m_head->currentWidget() == m_edit)) {
        if (renaming) {
            m_edit->setText(look.title);
            m_edit->selectAll();
        }
        m_head->setCurrentWidget(renaming ? static_cast<QWidget*>(m_edit) : m_title);
        if (renaming)
            m_edit->setFocus();
    }
    if (look == m_shown)
        return;
    const bool another = look.path != m_shown.path;
    m_shown = look;
    m_title->setText(look.title);
    m_about->setText(look.mistakes.empty()
                         ? look.about
                         : tr("This file is no class yet. What is to be mended in it, with any program for text:"));
    m_about->setVisible(!m_about->text().isEmpty());
    m_usedBox->setVisible(!look.used.isEmpty());
    m_used->setText(look.used.join(QLatin1Char('\n')));
    m_rail->setVisible(!look.rail.parts.empty());
    m_rail->setState(look.rail);
    setLines(look);
    if (another)
        m_scroll->verticalScrollBar()->setValue(0);
}

void ClassLookPanel::setLines(const ClassLook& look)
{
    while (QLayoutItem* item = m_lines->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    int row = 0;
    const auto put = [&](const QString& head, const QString& beside, const QString& below) {
        m_lines->addWidget(plainLabel(m_body, nullptr, head), row, 0);
        auto* right = plainLabel(m_body, "second", beside);
        right->setWordWrap(false);
        right->setAlignment(Qt::AlignRight | Qt::AlignTop);
        m_lines->addWidget(right, row++, 1);
        auto* line = plainLabel(m_body, "note", below);
        line->setContentsMargins(0, 0, 0, Space::small);
        m_lines->addWidget(line, row++, 0, 1, 2);
    };
    for (const ClassLook::Part& part : look.parts)
        put(part.title, part.length, part.firstLine);
    for (const ClassLook::Mistake& mistake : look.mistakes)
        put(mistake.where, {}, mistake.words);
}

} // namespace vh::write
