#include "app/join/answer_page.h"

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
constexpr int kColumn = 1100;
constexpr int kControl = 320;
constexpr FitLimits kAnswer{28, 15, 40, look::Weight::regular};
} // namespace

AnswerPage::AnswerPage(QWidget* parent)
    : SpokenWidget(QAccessible::AlertMessage, parent), m_heading(plainLabel({}, "question", this)),
      m_about(plainLabel({}, "second", this)), m_text(new FittedText(this)),
      m_putAway(new BigButton({}, BigButton::Rank::main, BigButton::Size::touch, this)),
      m_writeBack(new BigButton({}, BigButton::Rank::plain, BigButton::Size::touch, this))
{
    auto* content = new QWidget(this);
    content->setMaximumWidth(kColumn);
    auto* column = new QVBoxLayout(content);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::wide);
    column->addWidget(m_heading);
    column->addWidget(m_about);
    auto* sheet = new QFrame(content);
    sheet->setProperty(look::kRoleProperty, "sheet");
    auto* inside = new QVBoxLayout(sheet);
    inside->setContentsMargins(Space::wide, Space::wide, Space::wide, Space::wide);
    inside->addWidget(m_text);
    column->addWidget(sheet, 1);
    auto* controls = new QHBoxLayout;
    controls->setSpacing(Space::margin);
    for (BigButton* each : {m_putAway, m_writeBack}) {
        each->setMinimumSize(kControl, Space::touch + Space::gap);
        controls->addWidget(each);
    }
    controls->addStretch(1);
    column->addLayout(controls);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(Space::margin, Space::margin, Space::margin, Space::margin);
    row->addStretch(1);
    row->addWidget(content, 1000); // as wide as it may be, in the middle
    row->addStretch(1);
    connect(m_putAway, &BigButton::pressRequested, this, [this] { emit putAwayRequested(false); });
    connect(m_writeBack, &BigButton::pressRequested, this, [this] { emit putAwayRequested(true); });
    setFocusPolicy(Qt::TabFocus); // on no control at first: nobody puts it away by chance
}

void AnswerPage::setState(const AnswerView& view)
{
    if (view == m_view)
        return;
    m_view = view;
    m_heading->setText(view.heading);
    m_about->setText(view.about);
    m_about->setVisible(!view.about.isEmpty());
    FittedText::State text;
    text.text = view.text.toStdString();
    text.limits = kAnswer;
    m_text->setState(text);
    m_putAway->setText(view.putAway);
    m_writeBack->setText(view.writeBack);
    m_writeBack->setVisible(!view.writeBack.isEmpty());
    if (isVisible())
        announce();
}

void AnswerPage::announce()
{
    alert(QStringLiteral("%1: %2").arg(m_view.heading, m_view.text));
}

void AnswerPage::showEvent(QShowEvent* event)
{
    SpokenWidget::showEvent(event);
    announce();
}

void AnswerPage::hideEvent(QHideEvent* event)
{
    SpokenWidget::hideEvent(event);
    say({}); // the same answer, when it is there again, is said again
}

} // namespace vh::join
