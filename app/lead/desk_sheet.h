#pragma once
// The sheet of the desk: what it has passed on to the leader, whole; whether the board is open and whether the desk
// sees levels, in plain words and with one press each; and the log of what was done there. Stands over the people,
// before class and in class; after class in place of the summary. Up and Down move it, Esc closes it. GUI thread.
#include "app/lead/desk_news_view.h"

#include <QFrame>

#include <functional>

class QLabel;
class QScrollArea;
class QStackedLayout;
class QVBoxLayout;

namespace vh
{
class BigButton;
class CardList;
} // namespace vh

namespace vh::lead
{

class OneLine;

class DeskSheet : public QFrame
{
    Q_OBJECT
public:
    explicit DeskSheet(QWidget* parent);
    /// Shows and hides itself; takes the keyboard when it opens.
    void setState(const DeskNewsView& view);

signals:
    void deskRequested(const vh::lead::DeskRequest& request);
    /// It has closed while it had the keyboard.
    void closed();

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    class Line;
    /// A choice of hers: how it is now and what that means, and the press that changes it.
    struct Choice {
        QLabel* words = nullptr;
        BigButton* press = nullptr;
    };
    QWidget* makeDesk();
    QWidget* makeActs();
    Choice makeChoice(QVBoxLayout* column, const std::function<void()>& change);
    void addRule(QVBoxLayout* column);
    void setLines(const DeskNewsView& view);
    void setChoices(const DeskNewsView& view);
    void setActs(const DeskNewsView& view);
    void ask(DeskRequest::Kind kind, quint64 item = 0);

    DeskNewsView m_shown;
    OneLine* m_title;
    QStackedLayout* m_pages;
    QScrollArea* m_desk;
    QLabel* m_nothing;
    QVBoxLayout* m_lines;
    std::vector<Line*> m_rows;
    Choice m_board;
    Choice m_levels;
    QWidget* m_acts;
    QLabel* m_noActs;
    CardList* m_list;
};

} // namespace vh::lead
