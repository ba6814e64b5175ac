#pragma once
// The hall: everybody's seat with its voice column. To 60 seats straight rows with names; above that blocks, and a name
// under the pointer or the keyboard focus, or when zoomed in. Seats stand where their place says and never move; a
// place without anybody stays an empty seat. Arrows move the focus, Enter or a click asks for the seat, + and - zoom a
// hall in blocks. Each seat is a child for screen readers: name and standing. GUI thread.
#include "app/widgets/hall_layout.h"
#include "app/widgets/seat_pictures.h"
#include "app/widgets/seat_table.h"

#include <QImage>
#include <QWidget>

namespace vh
{

class HallView : public QWidget
{
    Q_OBJECT
public:
    struct State {
        std::vector<SeatRow> seats; ///< each with its place
        int places = 0;             ///< seats in the hall, empty ones included
        friend bool operator==(const State&, const State&) = default;
    };

    explicit HallView(QWidget* parent = nullptr);
    ~HallView() override;
    void setState(const State& state);

    [[nodiscard]] const HallLayout& layoutNow() const { return m_layout; }
    /// Where a seat stands in this widget; may lie outside when zoomed in.
    [[nodiscard]] QRect rectOf(int place) const { return m_layout.rectOf(place).translated(m_origin - m_scroll); }
    /// Null: an empty seat.
    [[nodiscard]] const SeatRow* rowAt(int place) const;
    /// "Ruth: easy to hear", "Ruth: easy to hear, heard by all".
    [[nodiscard]] static QString wordsOf(const SeatRow& row);
    /// The place with the keyboard's focus; -1: none yet.
    [[nodiscard]] int focusPlace() const { return m_focus; }
    void setFocusPlace(int place);
    void requestPlace(int place);
    [[nodiscard]] int zoom() const { return m_zoom; }
    void setZoom(int zoom);

    [[nodiscard]] QSize sizeHint() const override { return {560, 320}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {240, 120}; }

signals:
    void seatRequested(int seat);

protected:
    bool event(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;

private:
    void layOut();
    void takePlaces();
    void takePictures();
    void paintName(QPainter& painter, int place) const;
    [[nodiscard]] QRect nameRect(int place) const;
    void paintHeard(QPainter& painter, const SeatRow& row) const;
    void paintCaption(QPainter& painter) const;
    void moveFocus(QPoint step);
    void scrollTo(int place);
    void setHover(int place);
    void tellFocus();
    [[nodiscard]] int captionHeight() const;
    [[nodiscard]] QSize roomForSeats() const;
    [[nodiscard]] QRect columnOf(int place) const;
    [[nodiscard]] int firstTaken() const;

    State m_state;
    std::vector<int> m_rowOf; ///< by place: index into m_state.seats, -1: empty
    HallLayout m_layout;
    QPoint m_origin; ///< of the content, before scrolling
    QPoint m_scroll;
    int m_zoom = 0;
    int m_focus = -1;
    int m_hover = -1;

    SeatPictures m_pictures;
    QImage m_canvas;                         ///< names and columns, as they were last drawn
    std::vector<SeatPictures::Key> m_shown;  ///< by place: the column on the canvas
    std::vector<SeatPictures::Key> m_wanted; ///< by place
    bool m_stale = true;                     ///< the canvas is to be drawn anew
};

} // namespace vh
