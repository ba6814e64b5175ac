#pragma once
// The group's window: only what the group sees of a step, for a second screen or for sharing. It never takes the
// keyboard, so the keys stay with the leader. GUI thread.
#include "app/widgets/class_sheet.h"

namespace vh::lead
{

class GroupWindow : public QWidget
{
    Q_OBJECT
public:
    explicit GroupWindow(QWidget* parent = nullptr);
    void setState(const ClassSheet::State& state, const QString& title);

signals:
    /// Closed by its own frame.
    void hideRequested();

protected:
    void closeEvent(QCloseEvent* event) override;

private:
    ClassSheet* m_sheet;
};

} // namespace vh::lead
