#include "app/join/call_page.h"

#include "app/join/ask_page.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"

#include <QAccessible>
#include <QFrame>
#include <QHBoxLayout>
#include <QLabel>
#include <QVBoxLayout>

namespace vh::join
{

namespace
{
constexpr int kColumn = 1000;
} // namespace

CallPage::CallPage(QWidget* parent)
    : QWidget(parent), m_heading(plainLabel({}, "question", this)), m_words(plainLabel({}, "words", this)),
      m_where(plainLabel({}, "words", this)), m_ring(plainLabel({}, "words", this)),
      m_emergency(plainLabel({}, "words", this)),
      m_back(new BigButton({}, BigButton::Rank::main, BigButton::Size::touch, this)),
      m_takeBack(new BigButton({}, BigButton::Rank::plain, BigButton::Size::touch, this)),
      m_again(new BigButton({}, BigButton::Rank::plain, BigButton::Size::touch, this))
{
    using look::Space;
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(Space::margin, Space::gap, Space::margin, Space::gap);
    auto* content = new QWidget(this);
    content->setMaximumWidth(kColumn);
    row->addStretch(1);
    row->addWidget(content, 1000);
    row->addStretch(1);
    auto* column = new QVBoxLayout(content);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::gap);
    column->addStretch(2);
    for (QLabel* label : {m_heading, m_words, m_where})
        column->addWidget(label);
    column->addSpacing(Space::gap);
    auto* sheet = new QFrame(content);
    sheet->setProperty(look::kRoleProperty, "sheet");
    auto* inside = new QVBoxLayout(sheet);
    inside->setContentsMargins(Space::wide, Space::gap, Space::wide, Space::gap);
    inside->setSpacing(Space::small);
    inside->addWidget(m_ring);
    inside->addWidget(m_emergency);
    column->addWidget(sheet);
    column->addSpacing(Space::wide);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(Space::wide);
    buttons->addWidget(m_back);
    buttons->addWidget(m_takeBack);
    buttons->addWidget(m_again);
    buttons->addStretch(1);
    column->addLayout(buttons);
    column->addStretch(3);
    m_takeBack->setSign(look::Sign::undo);
    m_again->setSign(look::Sign::help);
    connect(m_back, &BigButton::pressRequested, this, &CallPage::backRequested);
    connect(m_takeBack, &BigButton::pressRequested, this, &CallPage::takeBackRequested);
    connect(m_again, &BigButton::pressRequested, this, &CallPage::againRequested);
    setFocusPolicy(Qt::TabFocus); // at first the keyboard stands on nothing that acts
}

void CallPage::setState(const CallView& view)
{
    const bool other = view.heading != m_heading->text();
    m_heading->setText(view.heading);
    m_words->setText(view.words);
    m_where->setText(view.where);
    m_where->setVisible(!view.where.isEmpty());
    m_ring->setText(view.ring);
    m_emergency->setText(view.emergency);
    m_back->setText(view.back);
    const bool hadFocus = m_takeBack->hasFocus() || m_again->hasFocus();
    m_takeBack->setText(view.takeBack);
    m_takeBack->setVisible(!view.takeBack.isEmpty());
    m_again->setText(view.again);
    m_again->setVisible(!view.again.isEmpty());
    if (hadFocus && !m_takeBack->hasFocus() && !m_again->hasFocus())
        setFocus();
    if (!other)
        return;
    setAccessibleName(view.heading);
    QAccessibleEvent alert(this, QAccessible::Alert); // somebody has it: read out without being asked for
    QAccessible::updateAccessibility(&alert);
}

} // namespace vh::join
