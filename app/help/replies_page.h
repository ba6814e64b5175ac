#pragma once
// A volunteer's ready-made answers: nine numbered lines. What stands in a line is kept; an emptied one is gone.
// GUI thread.
#include "app/help/ready_replies.h"

#include <QWidget>

#include <array>

class QLineEdit;

namespace vh::help
{

class RepliesPage : public QWidget
{
    Q_OBJECT
public:
    explicit RepliesPage(QWidget* parent = nullptr);
    void open(const QStringList& replies);

signals:
    /// Closed, with what stands there now.
    void doneRequested(const QStringList& replies);

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    void done();
    std::array<QLineEdit*, kReadyReplies> m_lines{};
};

} // namespace vh::help
