#pragma once
// Worth a word: at most three lines under the hall, each with the key that sends its private word, and what came of the
// last one. Always as high, so that the hall above never moves. Part of HallSide. GUI thread.
#include "app/lead/hall_view_state.h"
#include "app/widgets/spoken_widget.h"

class QAbstractButton;

namespace vh::lead
{

class WorthBox : public QWidget
{
    Q_OBJECT
public:
    explicit WorthBox(QWidget* parent);
    void setState(const std::vector<WorthLineState>& lines, const QString& sent);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return {200, sizeHint().height()}; }

signals:
    /// Which line's word is to be sent; from 0.
    void wordRequested(int line);

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    class Line;
    class Status;
    void place();
    std::vector<Line*> m_lines;
    Status* m_status;
};

} // namespace vh::lead
