#pragma once
// The rounds of a step, one line each, their turns as boxes in proportion to time; one turn is chosen. With the
// keyboard on it: arrows choose; L R W Y make the turn Listen, Ready, With me, You; + and - lengthen and shorten it,
// digits and Enter set its seconds; Ins and Del add and drop a turn; N adds a round, Shift+Del drops it; V with more
// voice; T times all by the text. GUI thread.
#include "app/widgets/spoken_widget.h"
#include "app/write/round_edits.h"

namespace vh::write
{

class RoundScore : public SpokenWidget
{
    Q_OBJECT
public:
    explicit RoundScore(QWidget* parent = nullptr);
    void setState(const std::vector<Round>& rounds);
    [[nodiscard]] TurnSpot chosen() const { return m_at; }
    void choose(TurnSpot at);
    /// The key that does it.
    [[nodiscard]] static QString keyOf(RoundEdit edit);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return {240, sizeHint().height()}; }
    /// Where a turn stands, in this widget.
    [[nodiscard]] QRectF boxOf(TurnSpot at) const;

signals:
    void editRequested(vh::write::RoundEdit edit);
    void secondsRequested(double seconds);

protected:
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] bool typeSeconds(const QKeyEvent& event);
    [[nodiscard]] QFont inkFont() const;
    [[nodiscard]] double rowHeight() const;
    [[nodiscard]] double nameWidth() const;
    void paintTurn(QPainter& painter, TurnSpot at, const Turn& turn) const;
    void tell();

    std::vector<Round> m_rounds;
    TurnSpot m_at;
    QString m_seconds; ///< being typed
};

} // namespace vh::write
