#pragma once
// The middle of the helper's desk: what everybody sees, and a line to everybody. GUI thread.
#include "app/widgets/card_list.h"

class QLineEdit;

namespace vh::help
{

class BoardColumn : public QWidget
{
    Q_OBJECT
public:
    explicit BoardColumn(QWidget* parent = nullptr);
    void setState(const std::vector<CardList::Card>& board) { m_board->setState(board); }

signals:
    void noticeRequested(const QString& text);

private:
    void say();

    CardList* m_board;
    QLineEdit* m_say;
};

} // namespace vh::help
