#pragma once
// The sheet on which a leader changes what is planned, as a value: which one is open, the proposal that stands on it,
// how a correction fares. A proposal stays as it was shown until one of its steps has begun. Changes nothing itself:
// presses and corrections go out by LeadControl. Any one thread.
#include "app/lead/changes_view.h"
#include "common/live/trim.h"

namespace vh::lead
{

class ClassChanges
{
public:
    using Sheet = ChangesView::Sheet;
    /// The class as it stands; both must outlive the call.
    struct Now {
        const ClassScript& script;
        const ClassState& state;
        Instant time;
    };

    void showSteps(StepAt wanted);
    void showTrim(const Now& now);
    void showText(StepAt at);
    void close() { m_sheet = Sheet::none; }
    /// The class has gone on, or has another script: a proposal that no longer holds is worked out anew.
    void follow(const Now& now);

    [[nodiscard]] Sheet sheet() const { return m_sheet; }
    /// The step whose text is shown.
    [[nodiscard]] StepAt textOf() const { return m_at; }
    void setFault(const QString& words) { m_fault = words; }
    void setSending(bool sending) { m_sending = sending; }
    [[nodiscard]] bool isSending() const { return m_sending; }

    /// What is to be left out once she agrees: of the steps that come, these and no others.
    [[nodiscard]] LeftOut agreed(const ClassState& state) const;
    [[nodiscard]] const Trim& proposal() const { return m_trim; }

    [[nodiscard]] ChangesView view(const Now& now, bool mayCorrect, bool hasFile) const;

private:
    void open(Sheet sheet);

    Sheet m_sheet = Sheet::none;
    int m_opened = 0;
    StepAt m_at;
    Trim m_trim;
    QString m_fault;
    bool m_sending = false;
};

/// Of the steps that are left out, those that have not been passed.
[[nodiscard]] LeftOut leftOutToCome(const ClassState& state);

} // namespace vh::lead
