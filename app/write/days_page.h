#pragma once
// The group's days: four weeks of weekdays in words, one after the other, and the chosen day beside them. A class is
// planned with Enter, moved by a day with Alt+Up and Alt+Down, taken off with Delete, and Ctrl+Z undoes; Ctrl+Page Up
// and Ctrl+Page Down go on by weeks. Where a day is wanted for a class, Enter gives it and Esc gives it up. Becomes the
// DaysView it is given. GUI thread.
#include "app/write/days_view.h"

class QFrame;
class QLabel;

namespace vh
{
class BigButton;
}

namespace vh::write
{

class DaysPage : public QWidget
{
    Q_OBJECT
public:
    explicit DaysPage(QWidget* parent = nullptr);
    void setState(const DaysView& view);
    void begin();

signals:
    void rowRequested(int row);
    void turnRequested(int weeks);
    void weekendsRequested(bool shown);
    /// The chosen day: a class is wanted for it; or, where one is being placed, it is to be that day.
    void planRequested();
    void placeRequested();
    void moveRequested(int days);
    void takeOffRequested();
    void lookRequested();
    void undoRequested();
    void groupRequested();
    void backRequested();

private:
    QLayout* makeHead();
    QWidget* makeWeeks();
    QWidget* makeDay();
    void makeKeys();
    void press();

    DaysView m_shown;
    QLabel* m_title;
    BigButton* m_group;
    BigButton* m_back;
    BigButton* m_earlier;
    BigButton* m_later;
    BigButton* m_weekends;
    RowList* m_list;
    QLabel* m_day;
    QLabel* m_class;
    QLabel* m_lines;
    QFrame* m_usedBox;
    QLabel* m_used;
    BigButton* m_before;
    BigButton* m_after;
    BigButton* m_off;
    BigButton* m_look;
    BigButton* m_plan;
    NoticeLine* m_notice;
    BigButton* m_undo;
};

} // namespace vh::write
