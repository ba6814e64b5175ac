#pragma once
// The middle of the helper's desk: what is going up and what is with others, what everybody sees, and a line to
// everybody. Each can be taken back. GUI thread.
#include "app/help/word_list.h"

class QLabel;
class QLineEdit;

namespace vh::help
{

struct DeskView;

class BoardColumn : public QWidget
{
    Q_OBJECT
public:
    explicit BoardColumn(QWidget* parent = nullptr);
    void setState(const DeskView& view);
    [[nodiscard]] WordList& inHand() { return *m_inHand; }
    [[nodiscard]] WordList& board() { return *m_board; }

signals:
    void noticeRequested(const QString& text);

private:
    void say();

    WordList* m_inHand;
    QLabel* m_head;
    WordList* m_board;
    QLineEdit* m_say;
};

} // namespace vh::help
