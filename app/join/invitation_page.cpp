#include "app/join/invitation_page.h"

#include "app/join/ask_page.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QVBoxLayout>

namespace vh::join
{

using look::Space;

namespace
{
constexpr int kColumn = 960;
constexpr int kAnswer = 440; ///< both alike
} // namespace

InvitationPage::InvitationPage(QWidget* parent)
    : SpokenWidget(QAccessible::AlertMessage, parent), m_question(plainLabel({}, "question", this)),
      m_words(plainLabel({}, "words", this)),
      m_yes(new BigButton({}, BigButton::Rank::plain, BigButton::Size::touch, this)),
      m_no(new BigButton({}, BigButton::Rank::plain, BigButton::Size::touch, this))
{
    auto* content = new QWidget(this);
    content->setMaximumWidth(kColumn);
    auto* column = new QVBoxLayout(content);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::wide);
    column->addStretch(2);
    column->addWidget(m_question);
    column->addWidget(m_words);
    column->addSpacing(Space::wide);
    auto* answers = new QHBoxLayout;
    answers->setSpacing(Space::margin);
    for (BigButton* each : {m_yes, m_no}) {
        each->setMinimumSize(kAnswer, Space::touch + Space::wide);
        answers->addWidget(each);
    }
    answers->addStretch(1);
    column->addLayout(answers);
    column->addStretch(3);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(Space::margin, Space::gap, Space::margin, Space::gap);
    row->addStretch(1);
    row->addWidget(content, 1000); // as wide as it may be, in the middle
    row->addStretch(1);
    connect(m_yes, &BigButton::pressRequested, this, [this] { emit answered(true); });
    connect(m_no, &BigButton::pressRequested, this, [this] { emit answered(false); });
    setFocusPolicy(Qt::TabFocus);
}

void InvitationPage::setState(const InvitationView& view)
{
    if (view == m_view)
        return;
    m_view = view;
    m_question->setText(view.question);
    m_words->setText(view.words);
    m_yes->setText(view.yes);
    m_no->setText(view.no);
    if (isVisible())
        alert(view.question);
}

void InvitationPage::showEvent(QShowEvent* event)
{
    SpokenWidget::showEvent(event);
    alert(m_view.question);
}

void InvitationPage::hideEvent(QHideEvent* event)
{
    SpokenWidget::hideEvent(event);
    say({}); // the same question on another day is said again
}

} // namespace vh::join
