#include "app/help/board_column.h"

#include "app/help/desk_view.h"
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QLineEdit>
#include <QVBoxLayout>

namespace vh::help
{

using look::Space;

BoardColumn::BoardColumn(QWidget* parent)
    : QWidget(parent), m_inHand(new WordList(WordList::Shows::newest, tr("Going up, or with others"),
                                             tr("What is on its way to the board, or with the leader or a clinician, "
                                                "stands here."),
                                             this)),
      m_head(plainLabel(this, "second")),
      m_board(new WordList(WordList::Shows::newest, tr("On the board"), tr("The board is empty."), this)),
      m_say(new QLineEdit(this))
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::small);
    column->addWidget(plainLabel(this, "second", tr("Going up, or with others")));
    column->addWidget(m_inHand, 2); // always as high: nothing below it moves when something is in it
    column->addWidget(m_head);
    column->addWidget(m_board, 3);
    for (WordList* list : {m_inHand, m_board})
        list->setMinimumHeight(70);
    m_say->setPlaceholderText(tr("To everybody\u2026"));
    m_say->setAccessibleName(tr("Say to everybody"));
    m_say->setMaxLength(500);
    m_say->setProperty(look::kRoleProperty, "desk");
    auto* send = new BigButton(tr("Say"), BigButton::Rank::plain, BigButton::Size::desk, this);
    connect(send, &BigButton::pressRequested, this, &BoardColumn::say);
    connect(m_say, &QLineEdit::returnPressed, this, &BoardColumn::say);
    auto* row = new QHBoxLayout;
    row->setSpacing(Space::small);
    row->addWidget(m_say, 1);
    row->addWidget(send);
    column->addLayout(row);
}

void BoardColumn::say()
{
    const QString text = m_say->text().trimmed();
    if (text.isEmpty())
        return;
    m_say->clear();
    emit noticeRequested(text);
}

void BoardColumn::setState(const DeskView& view)
{
    m_head->setText(view.boardWords);
    m_inHand->setWords(view.lists.inHand);
    m_board->setWords(view.lists.board);
}

} // namespace vh::help
