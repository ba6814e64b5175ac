#pragma once
// How the class went, in a few plain lines; no ranking, nobody's name. Part of LeadRoom. GUI thread.
#include "app/lead/lead_view.h"

class QLabel;

namespace vh
{
class BigButton;
}

namespace vh::lead
{

class OverPage : public QWidget
{
    Q_OBJECT
public:
    explicit OverPage(QWidget* parent);
    void setState(const LeadView& view);

signals:
    void callTakeRequested(quint64 call);
    void callDoneRequested(quint64 call, const QString& outcome);
    void anotherClassRequested();
    void leaveRequested();

protected:
    void showEvent(QShowEvent* event) override;

private:
    QLabel* m_title;
    NoticeLine* m_notice;
    CallList* m_calls;
    QLabel* m_headline;
    QLabel* m_lines;
    BigButton* m_another;
};

} // namespace vh::lead
