#pragma once
// The text of one step of the class that is being led, to be corrected: a wrong word, a mark. What is typed stays as
// long as the sheet is open, whatever the class does. Ctrl+Enter sends it to the homes; the clicker still leads the
// class. Part of ChangesSheet. GUI thread.
#include "app/lead/changes_view.h"

#include <QWidget>

class QLabel;
class QPlainTextEdit;

namespace vh
{
class BigButton;
}

namespace vh::lead
{

class StepEditor : public QWidget
{
    Q_OBJECT
public:
    explicit StepEditor(QWidget* parent);
    /// `fresh`: it has just been opened, and holds the text as the class has it.
    void setState(const TextView& view, bool fresh);
    void takeFocus();

signals:
    void changeRequested(const vh::lead::ChangeRequest& request);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void send();
    void tellSend();

    TextView m_shown;
    QLabel* m_where;
    QPlainTextEdit* m_text;
    QLabel* m_hint; ///< or, in its place, why it did not go
    BigButton* m_send;
    BigButton* m_file;
};

} // namespace vh::lead
