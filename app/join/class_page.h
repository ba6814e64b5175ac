#pragma once
// The class as a participant sees it: the sheet with cue and text, the meter, what is going on in plain lines, and a
// row of large controls that never moves. To leave stands alone in a corner, far from what a hand may mean. GUI thread.
#include "app/join/join_view.h"
#include "app/widgets/notice_panel.h"

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
    void helloRequested();
    void writeRequested();
    void choicesRequested();
    void privateRequested();
    void leaveRequested();
    void noticeRequested(vh::join::NoticeAction action);

protected:
    void changeEvent(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    QLayout* head();
    QLayout* controls();
    void showControls(const ClassView& view);
    void fitControls();
    void fitTitle();

    QLabel* m_title;
    QString m_wholeTitle;
    ScriptRail* m_rail;
    VoiceLine* m_voice;
    QLabel* m_others;
    QLabel* m_leads;
    ClassSheet* m_sheet;
    VoiceMeter* m_meter;
    NoticePanel* m_notices;
    NoticeAction m_action = NoticeAction::none;
    BigButton* m_leave;
    BigButton* m_help;
    BigButton* m_hello;
    BigButton* m_write;
    BigButton* m_choices;
    BigButton* m_private;
    QLabel* m_sharing; ///< how it is, beside what changes it
    QStringList m_helpWords;
    QStringList m_sharingWords;
    bool m_isPrivate = false;
    std::optional<ClassSheet::State> m_shown;
    QImage m_calm; ///< of a water pause
};

} // namespace vh::join
