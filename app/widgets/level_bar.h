#pragma once
// The leader's own level, in blocks, with the words whether the group hears her. Not a standing: nothing is judged.
// Levels in dB(A) relative to full scale. GUI thread.
#include "app/widgets/spoken_widget.h"

#include <QStringList>

#include <optional>

class QPainter;

namespace vh
{

class LevelBar : public SpokenWidget
{
    Q_OBJECT
public:
    static constexpr int kBlocks = 5;
    static constexpr float kFloorDbfsA = -60; ///< at and below: no block
    static constexpr float kStepDb = 8;       ///< a block each

    struct State {
        QString words;              ///< "They hear you", "Your microphone is off", ...
        std::optional<float> dbfsA; ///< none: no sound is coming in
        bool on = true;             ///< filled; else an outline: what she says is not heard by this way
        friend bool operator==(const State&, const State&) = default;
    };
    /// 0 ... kBlocks.
    static int blocksOf(const State& state);

    explicit LevelBar(QWidget* parent = nullptr);
    void setState(const State& state);
    /// As wide as the widest of these needs, whatever it says now. Long ones stand in two lines.
    void keepRoomFor(const QStringList& words);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void paintWords(QPainter& painter, const QRectF& room) const;
    [[nodiscard]] static double widthOf(const QString& words);

    State m_state;
    QStringList m_keeps;
};

} // namespace vh
