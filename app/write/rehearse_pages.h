#pragma once
// Before a rehearsal, and after it. Before: what it is, how long the class is, and the press that starts the clock.
// After: planned against actual for each section, and what was learned of her pace. Parts of Rehearsal. GUI thread.
#include "app/widgets/notice_line.h"
#include "app/widgets/script_rail.h"
#include "app/write/rehearse_words.h"

#include <QWidget>

class QGridLayout;
class QLabel;
class QScrollArea;

namespace vh
{
class BigButton;
}

namespace vh::write
{

class BeforePage : public QWidget
{
    Q_OBJECT
public:
    struct State {
        QString title;
        QString length; ///< "21 minutes at your pace"
        ScriptRail::State rail;
        NoticeLine::State notice;
    };
    explicit BeforePage(QWidget* parent);
    void setState(const State& state);

signals:
    void startRequested();
    void leaveRequested();

protected:
    void showEvent(QShowEvent* event) override;

private:
    QLabel* m_title;
    QLabel* m_length;
    ScriptRail* m_rail;
    NoticeLine* m_notice;
    BigButton* m_start;
};

class AfterPage : public QWidget
{
    Q_OBJECT
public:
    explicit AfterPage(QWidget* parent);
    void setState(const QString& title, const RehearsalResult& result);

signals:
    void againRequested();
    void leaveRequested();

protected:
    void showEvent(QShowEvent* event) override;

private:
    void addCell(const QString& text, int row, int column, bool head);

    QLabel* m_title;
    QLabel* m_headline;
    QScrollArea* m_scroll;
    QWidget* m_table;
    QGridLayout* m_grid;
    QLabel* m_pace;
    BigButton* m_leave;
};

} // namespace vh::write
