#pragma once
// The group's words on whom people are to ring when nobody is there to help: read, changed and kept by the leader. What
// is being written is not touched by what comes from the relay. GUI thread.
#include <QWidget>

class QLineEdit;

namespace vh
{
class BigButton;
}

namespace vh::lead
{

class WhomToRing : public QWidget
{
    Q_OBJECT
public:
    explicit WhomToRing(QWidget* parent);
    /// As the relay has it.
    void setText(const QString& text);

signals:
    void keepRequested(const QString& text);

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    void keep();
    void showState();

    QString m_kept;
    QLineEdit* m_text;
    BigButton* m_keep;
};

} // namespace vh::lead
