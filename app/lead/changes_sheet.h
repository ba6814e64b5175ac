#pragma once
// The sheet over the hall on which the leader changes what is planned: the steps to jump to, what to leave out, the
// text of one step. The script stays where it is, beside it. Esc closes it. Part of ClassPage. GUI thread.
#include "app/lead/changes_view.h"

#include <QFrame>

class QStackedLayout;

namespace vh::lead
{

class JumpList;
class OneLine;
class StepEditor;
class TrimBox;

class ChangesSheet : public QFrame
{
    Q_OBJECT
public:
    explicit ChangesSheet(QWidget* parent);
    /// Shows and hides itself; takes the keyboard when it opens.
    void setState(const ChangesView& view);
    /// In the list of steps, while that is shown.
    [[nodiscard]] std::optional<StepAt> chosen() const;

signals:
    void changeRequested(const vh::lead::ChangeRequest& request);
    /// It has closed while it had the keyboard.
    void closed();

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    void takeFocus();

    ChangesView::Sheet m_sheet = ChangesView::Sheet::none;
    int m_opened = 0;
    OneLine* m_title;
    QStackedLayout* m_pages;
    JumpList* m_steps;
    TrimBox* m_trim;
    StepEditor* m_text;
};

} // namespace vh::lead
