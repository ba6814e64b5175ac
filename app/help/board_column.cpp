#include "app/help/board_column.h"

#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QLineEdit>
#include <QVBoxLayout>

namespace vh::help
{

using look::Space;

BoardColumn::BoardColumn(QWidget* parent)
    : QWidget(parent), m_board(new CardList(CardList::Choice::newest, tr("On the board"), this)),
      m_say(new QLineEdit(this))
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::small);
    column->addWidget(plainLabel(this, "second", tr("On the board")));
    column->addWidget(m_board, 1);
    m_say->setPlaceholderText(tr("Say to everybody\u2026"));
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

} // namespace vh::help
