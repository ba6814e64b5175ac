#include "app/join/wait_page.h"

#include "app/join/ask_page.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "app/widgets/hall_ornament.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QVBoxLayout>

namespace vh::join
{

namespace
{
constexpr int kColumn = 1100;
} // namespace

WaitPage::WaitPage(QWidget* parent)
    : QWidget(parent), m_heading(plainLabel({}, "question", this)), m_words(plainLabel({}, "words", this)),
      m_keyWords(new QWidget(this)), m_keyRow(new QHBoxLayout(m_keyWords)),
      m_button(new BigButton({}, BigButton::Rank::plain, BigButton::Size::touch, this)),
      m_handout(new BigButton({}, BigButton::Rank::plain, BigButton::Size::touch, this)),
      m_help(new BigButton(tr("I need help"), BigButton::Rank::plain, BigButton::Size::touch, this))
{
    using look::Space;
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(Space::margin, Space::margin, Space::margin, Space::margin);
    auto* content = new QWidget(this);
    content->setMaximumWidth(kColumn);
    row->addStretch(1);
    row->addWidget(content, 1000);
    row->addStretch(1);
    auto* column = new QVBoxLayout(content);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::wide);
    column->addStretch(2);
    for (QLabel* label : {m_heading, m_words}) {
        label->setAlignment(Qt::AlignHCenter | Qt::AlignVCenter);
        column->addWidget(label);
    }
    m_keyRow->setContentsMargins(0, 0, 0, 0);
    m_keyRow->setSpacing(Space::gap);
    column->addWidget(m_keyWords, 0, Qt::AlignHCenter);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(Space::wide);
    buttons->addStretch(1);
    buttons->addWidget(m_help);
    buttons->addWidget(m_handout);
    buttons->addWidget(m_button);
    buttons->addStretch(1);
    column->addLayout(buttons);
    column->addWidget(new HallOrnament(content), 3);
    m_handout->setSign(look::Sign::paper);
    m_help->setSign(look::Sign::help);
    m_help->hide();
    setTabOrder(m_handout, m_button);
    setTabOrder(m_button, m_help); // last: nobody calls for help by chance
    connect(m_help, &BigButton::pressRequested, this, &WaitPage::helpRequested);
    connect(m_button, &BigButton::pressRequested, this, &WaitPage::buttonRequested);
    connect(m_handout, &BigButton::pressRequested, this, &WaitPage::handoutRequested);
}

void WaitPage::setState(const WaitView& view)
{
    m_heading->setText(view.heading);
    m_words->setText(view.words);
    showKeyWords(view.keyWords);
    m_button->setText(view.button);
    m_button->setVisible(!view.button.isEmpty());
    m_handout->setText(view.handout);
    m_handout->setVisible(!view.handout.isEmpty());
    m_help->setCaption(view.help);
    m_help->setVisible(!view.help.isEmpty());
    setAccessibleName(view.heading);
}

/// Each word on a sheet of its own: they are read one by one.
void WaitPage::showKeyWords(const QStringList& words)
{
    m_keyWords->setVisible(!words.isEmpty());
    if (words == m_shownWords)
        return;
    m_shownWords = words;
    while (QLayoutItem* item = m_keyRow->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    for (const QString& word : words) {
        auto* frame = new QFrame(m_keyWords);
        frame->setProperty(look::kRoleProperty, "sheet");
        auto* inside = new QHBoxLayout(frame);
        inside->setContentsMargins(look::Space::wide, look::Space::gap, look::Space::wide, look::Space::gap);
        auto* label = plainLabel(word, "question", frame);
        label->setWordWrap(false);
        inside->addWidget(label);
        m_keyRow->addWidget(frame);
    }
}

} // namespace vh::join
