#include "app/lead/over_page.h"

#include "app/widgets/big_button.h"
#include "app/widgets/hall_ornament.h"
#include "app/widgets/plain_label.h"

#include <QVBoxLayout>

namespace vh::lead
{

using look::Space;

OverPage::OverPage(QWidget* parent) : QWidget(parent)
{
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(Space::margin, Space::gap, Space::margin, Space::wide);
    page->setSpacing(Space::gap);
    m_title = plainLabel(this, "title");
    page->addWidget(m_title);
    m_notice = new NoticeLine(this);
    page->addWidget(m_notice);
    m_calls = new CallList(this);
    connect(m_calls, &CallList::takeRequested, this, &OverPage::callTakeRequested);
    connect(m_calls, &CallList::doneRequested, this, &OverPage::callDoneRequested);
    page->addWidget(m_calls);
    auto* sheet = new QFrame(this);
    sheet->setProperty(look::kRoleProperty, "sheet");
    auto* column = new QVBoxLayout(sheet);
    column->setContentsMargins(2 * Space::wide, Space::wide, 2 * Space::wide, Space::gap);
    column->setSpacing(Space::gap);
    m_headline = plainLabel(sheet, "heading");
    m_lines = plainLabel(sheet);
    m_lines->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    column->addWidget(m_headline);
    column->addWidget(m_lines);
    column->addWidget(new HallOrnament(sheet), 1);
    page->addWidget(sheet, 1);
    auto* row = new QHBoxLayout;
    row->setSpacing(Space::gap);
    row->addStretch();
    auto* leave = new BigButton(tr("Leave"), BigButton::Rank::plain, BigButton::Size::touch, this);
    m_another = new BigButton(tr("Another class"), BigButton::Rank::main, BigButton::Size::touch, this);
    connect(leave, &BigButton::pressRequested, this, &OverPage::leaveRequested);
    connect(m_another, &BigButton::pressRequested, this, &OverPage::anotherClassRequested);
    row->addWidget(leave);
    row->addWidget(m_another);
    page->addLayout(row);
    setFocusPolicy(Qt::StrongFocus);
}

void OverPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    setFocus();
}

void OverPage::setState(const LeadView& view)
{
    m_title->setText(view.title);
    m_notice->setState(view.notice);
    m_calls->setState(view.calls);
    m_headline->setText(view.summary.headline);
    m_lines->setText(view.summary.lines.join(QStringLiteral("\n\n")));
    m_another->setVisible(view.role == Role::leader);
}

} // namespace vh::lead
