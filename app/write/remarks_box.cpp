#include "app/write/remarks_box.h"

#include "app/write/page_parts.h"

#include <QVBoxLayout>

namespace vh::write
{

using look::Space;

RemarksBox::RemarksBox(QWidget* parent)
    : QWidget(parent), m_words(plainLabel(this)),
      m_cards(new CardList(CardList::Choice::one, tr("What there is to say"), this))
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::hair);
    column->addWidget(m_words);
    m_cards->setMinimumHeight(Space::control);
    column->addWidget(m_cards, 1);
    m_next = buttonOf(Press::nextRemark, KeyAt::beside, this);
    m_mend = buttonOf(Press::mend, KeyAt::beside, this);
    m_mendAll = buttonOf(Press::mendAll, KeyAt::beside, this);
    auto* row = new QHBoxLayout;
    row->setSpacing(Space::hair);
    for (BigButton* each : {m_next, m_mend, m_mendAll})
        row->addWidget(each);
    row->addStretch(1);
    column->addLayout(row);
    column->addStretch(0);
    connect(m_next, &BigButton::pressRequested, this, [this] { emit pressed(Press::nextRemark); });
    connect(m_mend, &BigButton::pressRequested, this, [this] { emit pressed(Press::mend); });
    connect(m_mendAll, &BigButton::pressRequested, this, [this] { emit pressed(Press::mendAll); });
    const auto goThere = [this](QListWidgetItem*) { emit remarkRequested(chosen()); };
    connect(m_cards, &QListWidget::itemClicked, this, goThere);
    connect(m_cards, &QListWidget::itemActivated, this, goThere);
}

void RemarksBox::setState(const EditorView& view)
{
    m_words->setText(view.remarksWords);
    std::vector<CardList::Card> cards;
    for (const RemarkRow& row : view.remarks)
        cards.push_back({cards.size() + 1, row.where, row.mend, row.why, false});
    m_cards->setState(cards);
    for (QWidget* each : {static_cast<QWidget*>(m_cards), static_cast<QWidget*>(m_next), static_cast<QWidget*>(m_mend),
                          static_cast<QWidget*>(m_mendAll)})
        each->setVisible(!cards.empty());
    m_mend->setEnabled(view.canMend);
    m_mendAll->setEnabled(view.canMend);
}

void RemarksBox::choose(int remark)
{
    if (remark >= 0 && remark < m_cards->count())
        m_cards->setCurrentRow(remark);
}

} // namespace vh::write
