#pragma once
// The left side of the helper's desk: what is to read, and what can be done with it. Keys act only while the list has
// the focus (WCAG 2.2, 2.1.4). GUI thread.
#include "app/widgets/card_list.h"

class QLabel;

namespace vh
{
class BigButton;
}

namespace vh::help
{

class WordsColumn : public QWidget
{
    Q_OBJECT
public:
    explicit WordsColumn(QWidget* parent = nullptr);
    void setState(const std::vector<CardList::Card>& toRead);
    [[nodiscard]] CardList& list() { return *m_toRead; }

signals:
    void showRequested(quint64 item);
    void setAsideRequested(quint64 item);

private:
    QWidget* makeButtons();
    void decide(int digit, quint64 item);

    QLabel* m_head;
    CardList* m_toRead;
    BigButton* m_show;
    BigButton* m_aside;
};

} // namespace vh::help
