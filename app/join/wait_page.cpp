#include "app/join/wait_page.h"

#include "app/join/ask_page.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"

#include <QLabel>
#include <QVBoxLayout>

namespace vh::join
{

WaitPage::WaitPage(QWidget* parent)
    : QWidget(parent), m_heading(plainLabel({}, "heading", this)), m_words(plainLabel({}, "", this)),
      m_keyWords(plainLabel({}, "heading", this)),
      m_button(new BigButton({}, BigButton::Rank::plain, BigButton::Size::touch, this))
{
    using look::Space;
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(Space::margin * 4, Space::margin, Space::margin * 4, Space::margin);
    column->setSpacing(Space::wide);
    column->addStretch(2);
    for (QLabel* label : {m_heading, m_words, m_keyWords}) {
        label->setAlignment(Qt::AlignHCenter | Qt::AlignVCenter);
        column->addWidget(label);
    }
    column->addWidget(m_button, 0, Qt::AlignHCenter);
    column->addStretch(3);
    connect(m_button, &BigButton::pressRequested, this, &WaitPage::buttonRequested);
}

void WaitPage::setState(const WaitView& view)
{
    m_heading->setText(view.heading);
    m_words->setText(view.words);
    m_keyWords->setText(view.keyWords.join("   "));
    m_keyWords->setVisible(!view.keyWords.isEmpty());
    m_button->setText(view.button);
    m_button->setVisible(!view.button.isEmpty());
    setAccessibleName(view.heading);
}

} // namespace vh::join
