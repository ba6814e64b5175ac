#pragma once
// The leader's pictures for the group's window, one at a time, in one quiet line: one press shows it to all, the same
// one takes it away again. Hides itself where none waits. GUI thread.
#include <QAbstractButton>
#include <QImage>

namespace vh::pictures
{

struct WindowStripView {
    quint64 item = 0; ///< 0: none waits
    QImage picture;   ///< in small; null: not here yet
    QString name;     ///< whose; may be empty
    QString text;     ///< its caption; may be empty
    int more = 0;     ///< that wait besides
    bool shown = false;
};

class WindowStrip : public QAbstractButton
{
    Q_OBJECT
public:
    explicit WindowStrip(QWidget* parent);
    void setState(const WindowStripView& view);
    /// What its key does, also while the strip does not have the keyboard.
    void press();
    /// She does not want this one; its key with Shift.
    void putAway();
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return {200, sizeHint().height()}; }

signals:
    void showRequested(quint64 item, bool on);
    void doneRequested(quint64 item);

protected:
    void paintEvent(QPaintEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void paintWords(QPainter& painter, QRect room) const;

    WindowStripView m_view;
};

} // namespace vh::pictures
