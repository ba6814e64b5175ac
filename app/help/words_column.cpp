#include "app/help/words_column.h"

#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QVBoxLayout>

namespace vh::help
{

using look::Space;

namespace
{
constexpr int kToBoard = 1;
constexpr int kSetAside = 2;
} // namespace

WordsColumn::WordsColumn(QWidget* parent)
    : QWidget(parent), m_head(plainLabel(this, "second")),
      m_toRead(new CardList(CardList::Choice::one, tr("To read"), this))
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::small);
    column->addWidget(m_head);
    column->addWidget(m_toRead, 1);
    column->addWidget(makeButtons());
    connect(m_toRead, &CardList::digitPressed, this, &WordsColumn::decide);
    connect(m_toRead, &CardList::currentRowChanged, this, [this](int row) {
        m_show->setEnabled(row >= 0);
        m_aside->setEnabled(row >= 0);
    });
}

QWidget* WordsColumn::makeButtons()
{
    auto* buttons = new QWidget(this);
    auto* row = new QHBoxLayout(buttons);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(Space::small);
    m_show = new BigButton(tr("To the board"), BigButton::Rank::main, BigButton::Size::desk, buttons);
    m_show->setKeyHint(QStringLiteral("1"));
    m_aside = new BigButton(tr("Set aside"), BigButton::Rank::plain, BigButton::Size::desk, buttons);
    m_aside->setKeyHint(QStringLiteral("2"));
    for (BigButton* button : {m_show, m_aside}) {
        button->setFocusPolicy(Qt::TabFocus); // a click leaves the keys with the list
        button->setEnabled(false);
        row->addWidget(button);
    }
    row->addStretch();
    connect(m_show, &BigButton::pressRequested, this, [this] { decide(kToBoard, m_toRead->chosen()); });
    connect(m_aside, &BigButton::pressRequested, this, [this] { decide(kSetAside, m_toRead->chosen()); });
    return buttons;
}

void WordsColumn::decide(int digit, quint64 item)
{
    if (item == 0 || (digit != kToBoard && digit != kSetAside))
        return;
    m_toRead->leave(item);
    if (digit == kToBoard)
        emit showRequested(item);
    else
        emit setAsideRequested(item);
}

void WordsColumn::setState(const std::vector<CardList::Card>& toRead)
{
    m_head->setText(toRead.empty() ? tr("Nothing to read") : tr("To read: %1").arg(toRead.size()));
    const bool first = m_toRead->count() == 0 && !toRead.empty();
    m_toRead->setState(toRead);
    if (first)
        m_toRead->setCurrentRow(0);
}

} // namespace vh::help
