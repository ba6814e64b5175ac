#pragma once
// The class as a participant sees it: the sheet with cue and text, the meter, one plain line, and a row of large
// controls that never moves. GUI thread.
#include "app/join/join_view.h"

#include <QWidget>

class QLabel;
class QLayout;

namespace vh
{
class BigButton;
}

namespace vh::join
{

class ClassPage : public QWidget
{
    Q_OBJECT
public:
    explicit ClassPage(QWidget* parent = nullptr);
    void setState(const ClassView& view);

signals:
    void helpRequested();
    void writeRequested();
    void agreementsRequested();
    void privateRequested();
    void leaveRequested();

protected:
    void changeEvent(QEvent* event) override;

private:
    QLayout* controls();
    void fixNotice();

    QLabel* m_title;
    ScriptRail* m_rail;
    QLabel* m_others;
    ClassSheet* m_sheet;
    VoiceMeter* m_meter;
    NoticeLine* m_notice;
    QLabel* m_helpWords;
    QLabel* m_sharing;
    BigButton* m_private = nullptr;
    std::optional<ClassSheet::State> m_shown;
    QImage m_calm; ///< of a water pause
};

} // namespace vh::join
