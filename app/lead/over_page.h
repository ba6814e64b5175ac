#pragma once
// How the class went, in a few plain lines; no ranking, nobody's name. In their place, on a press, what was done at the
// desk. Part of LeadRoom. GUI thread.
#include "app/lead/lead_view.h"

class QLabel;
class QStackedLayout;

namespace vh
{
class BigButton;
}

namespace vh::lead
{

class ClinicianStrip;
class DeskSheet;

class OverPage : public QWidget
{
    Q_OBJECT
public:
    explicit OverPage(QWidget* parent);
    void setState(const LeadView& view);

signals:
    void callTakeRequested(quint64 call);
    void callDoneRequested(quint64 call, const QString& outcome);
    void deskRequested(const vh::lead::DeskRequest& request);
    void anotherClassRequested();
    void leaveRequested();

protected:
    void showEvent(QShowEvent* event) override;

private:
    QLabel* m_title;
    NoticeLine* m_notice;
    CallList* m_calls;
    ClinicianStrip* m_clinician;
    QStackedLayout* m_pages;
    QWidget* m_summary;
    DeskSheet* m_deskSheet;
    QLabel* m_headline;
    QLabel* m_lines;
    BigButton* m_acts;
    BigButton* m_another;
};

} // namespace vh::lead
