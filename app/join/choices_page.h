#pragma once
// All that a person chose, on one screen: each row a question in a few words and its answers, the one in force filled
// and ticked. One press changes it; another takes it back. The controls stay the same ones while the answers change, so
// that a trembling press counts once. GUI thread.
#include "app/join/join_view.h"

#include <QWidget>

class QGridLayout;
class QLabel;
class QScrollArea;

namespace vh
{
class BigButton;
}

namespace vh::join
{

class ChoicesPage : public QWidget
{
    Q_OBJECT
public:
    explicit ChoicesPage(QWidget* parent = nullptr);
    void setState(const ChoicesView& view);

signals:
    void pickRequested(int row, int answer);
    void undoRequested();
    void moreRequested();
    void backRequested();

private:
    void build();
    QWidget* rowOf(int row, int wide);
    void showAnswers();
    [[nodiscard]] bool isSameRows(const ChoicesView& view) const;

    ChoicesView m_view;
    QLabel* m_heading;
    NoticeLine* m_words;
    QScrollArea* m_area; ///< for large text on a small screen
    std::vector<std::vector<BigButton*>> m_answers;
    BigButton* m_back;
    BigButton* m_undo;
    BigButton* m_more;
};

} // namespace vh::join
