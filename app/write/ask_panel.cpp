#include "app/write/ask_panel.h"

#include "app/write/page_parts.h"

#include <QVBoxLayout>

namespace vh::write
{

using look::Space;

namespace
{
constexpr int kWide = 760;
}

AskPanel::AskPanel(QWidget* parent) : QWidget(parent)
{
    auto* sheet = new QFrame(this);
    sheet->setProperty(look::kRoleProperty, "sheet");
    sheet->setFixedWidth(kWide);
    auto* column = new QVBoxLayout(sheet);
    column->setContentsMargins(Space::margin, Space::wide, Space::margin, Space::wide);
    column->setSpacing(Space::gap);
    m_title = plainLabel(sheet, "heading");
    m_words = plainLabel(sheet);
    column->addWidget(m_title);
    column->addWidget(m_words);
    column->addSpacing(Space::gap);
    m_answers = new QVBoxLayout;
    m_answers->setSpacing(Space::gap);
    column->addLayout(m_answers);
    auto* page = new QVBoxLayout(this);
    page->addStretch(2);
    auto* row = new QHBoxLayout; // no alignment: its height would be reckoned for the whole width
    row->addStretch(1);
    row->addWidget(sheet);
    row->addStretch(1);
    page->addLayout(row);
    page->addStretch(3);
}

void AskPanel::setState(const AskView& view)
{
    m_title->setText(view.title);
    m_words->setText(view.words);
    if (view.question == m_shown)
        return;
    m_shown = view.question;
    while (QLayoutItem* item = m_answers->takeAt(0)) {
        item->widget()->hide();
        item->widget()->deleteLater();
        delete item;
    }
    for (const auto& [answer, words] : view.answers) {
        const bool first = m_answers->count() == 0;
        auto* button =
            new BigButton(words, first ? BigButton::Rank::main : BigButton::Rank::plain, BigButton::Size::touch, this);
        connect(button, &BigButton::pressRequested, this, [this, what = answer] { emit answered(what); });
        m_answers->addWidget(button, 0, Qt::AlignLeft);
        if (first)
            button->setFocus(Qt::OtherFocusReason);
    }
}

} // namespace vh::write
