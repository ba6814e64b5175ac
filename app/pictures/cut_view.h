#pragma once
// A picture with the frame of what is kept of it. One edge is marked: arrow keys along its way move it in steps (with
// Shift in small ones), an arrow across marks the edge on that side, Space marks the next; a mouse moves edges and
// corners. It keeps nothing: each move is asked for, and shown when it is told. GUI thread.
#include "app/pictures/edit.h"
#include "app/widgets/spoken_widget.h"

namespace vh::pictures
{

class CutView : public SpokenWidget
{
    Q_OBJECT
public:
    struct State {
        QImage picture; ///< the whole one, turned; null: not there yet
        QRectF frame{0, 0, 1, 1};
        bool cutting = false; ///< the frame can be moved; else only what is in it is shown
        QString description;
        QString words; ///< while there is no picture
    };

    explicit CutView(QWidget* parent);
    void setState(const State& state);
    [[nodiscard]] Edge marked() const { return m_marked; }
    [[nodiscard]] QSize sizeHint() const override { return {720, 520}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {240, 180}; }

    static constexpr double kStep = 0.02;
    static constexpr double kSmallStep = 0.005;

signals:
    void frameRequested(const QRectF& frame);

protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;

private:
    [[nodiscard]] QRectF picturePlace() const;
    [[nodiscard]] QRectF framePlace() const;
    void paintFrame(QPainter& painter, const QRectF& whole) const;
    bool pressArrow(int key, double step);
    void mark(Edge edge);
    void sayAll();

    State m_state;
    Edge m_marked = Edge::left;
    std::vector<Edge> m_held; ///< by the mouse
    QPixmap m_scaled;
    qint64 m_scaledOf = 0;
};

} // namespace vh::pictures
