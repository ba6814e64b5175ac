#pragma once
// The leader's pictures for the group's window, one at a time, in a quiet row: one press shows it to all, the same one
// takes it away again. Hides itself where none waits. GUI thread.
#include <QFrame>
#include <QImage>

class QLabel;

namespace vh
{
class BigButton;
}

namespace vh::pictures
{

class PictureBox;

struct WindowStripView {
    quint64 item = 0; ///< 0: none waits
    QImage picture;   ///< in small; null: not here yet
    QString caption;  ///< "Ruth: my beans"
    int more = 0;     ///< that wait besides
    bool shown = false;
};

class WindowStrip : public QFrame
{
    Q_OBJECT
public:
    explicit WindowStrip(QWidget* parent);
    void setState(const WindowStripView& view);
    /// What the key does, also while the strip does not have the keyboard.
    void press();

signals:
    void showRequested(quint64 item, bool on);
    /// She is through with it.
    void doneRequested(quint64 item);

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void fitCaption();

    WindowStripView m_view;
    PictureBox* m_picture;
    QLabel* m_caption;
    QLabel* m_more;
    BigButton* m_show;
    BigButton* m_done;
};

} // namespace vh::pictures
