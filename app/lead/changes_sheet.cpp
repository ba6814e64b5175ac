#include "app/lead/changes_sheet.h"

#include "app/lead/jump_list.h"
#include "app/lead/page_parts.h"
#include "app/lead/step_editor.h"
#include "app/lead/trim_box.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QStackedLayout>

namespace vh::lead
{

using look::Space;
using Sheet = ChangesView::Sheet;

ChangesSheet::ChangesSheet(QWidget* parent) : QFrame(parent)
{
    setProperty(look::kRoleProperty, "sheet");
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
    connect(close, &BigButton::pressRequested, this, [this] { emit changeRequested({}); });
    head->addWidget(close);
    column->addLayout(head);
    m_pages = new QStackedLayout;
    m_steps = new JumpList(this);
    m_trim = new TrimBox(this);
    m_text = new StepEditor(this);
    for (QWidget* page : {static_cast<QWidget*>(m_steps), static_cast<QWidget*>(m_trim), static_cast<QWidget*>(m_text)})
        m_pages->addWidget(page);
    column->addLayout(m_pages, 1);
    connect(m_steps, &JumpList::changeRequested, this, &ChangesSheet::changeRequested);
    connect(m_trim, &TrimBox::changeRequested, this, &ChangesSheet::changeRequested);
    connect(m_text, &StepEditor::changeRequested, this, &ChangesSheet::changeRequested);
}

void ChangesSheet::setState(const ChangesView& view)
{
    const bool fresh = view.sheet != Sheet::none && (view.opened != m_opened || view.sheet != m_sheet);
    const bool closes = view.sheet == Sheet::none && m_sheet != Sheet::none;
    m_sheet = view.sheet;
    switch (view.sheet) {
    case Sheet::none:
        break;
    case Sheet::steps:
        m_title->setText(tr("Steps of the class"));
        m_steps->setState(view, fresh);
        m_pages->setCurrentWidget(m_steps);
        break;
    case Sheet::trim:
        m_title->setText(tr("End on time"));
        m_trim->setState(view.trim);
        m_pages->setCurrentWidget(m_trim);
        break;
    case Sheet::text:
        m_title->setText(tr("Correct a step"));
        m_text->setState(view.text, fresh);
        m_pages->setCurrentWidget(m_text);
        break;
    }
    if (closes) {
        const QWidget* focus = window()->focusWidget();
        const bool inside = focus && (focus == this || isAncestorOf(focus));
        hide();
        if (inside)
            emit closed();
    }
    if (fresh) {
        m_opened = view.opened;
        show();
        raise();
        takeFocus();
    }
}

std::optional<StepAt> ChangesSheet::chosen() const
{
    return m_sheet == Sheet::steps ? m_steps->chosen() : std::nullopt;
}

void ChangesSheet::takeFocus()
{
    if (m_sheet == Sheet::steps)
        m_steps->takeFocus();
    else if (m_sheet == Sheet::trim)
        m_trim->setFocus();
    else
        m_text->takeFocus();
}

void ChangesSheet::keyPressEvent(QKeyEvent* event)
{
    if (event->key() != Qt::Key_Escape)
        return QFrame::keyPressEvent(event); // the class's keys
    event->accept();
    if (!event->isAutoRepeat())
        emit changeRequested({});
}

} // namespace vh::lead
