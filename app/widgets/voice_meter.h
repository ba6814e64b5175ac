#pragma once
// A participant's own voice against their own usual: a bar with a soft edge as wide as the uncertainty, the tick of the
// usual level, the two edges of the band, and words beside it. No numbers, no score. Levels are dB(A) over the person's
// usual. The words are for the caller to change between turns only; the bar may move all the time. GUI thread.
#include "app/widgets/spoken_widget.h"
#include "app/widgets/standing_view.h"

namespace vh
{

class VoiceMeter : public SpokenWidget
{
    Q_OBJECT
public:
    /// Which turn the standing's words speak of; where it is over, they say so.
    enum class Of : std::uint8_t { thisTurn, lastTurn };
    struct State {
        Standing standing = Standing::notYet;
        Blank reason = Blank::none;       ///< why, where standing is cantTell
        std::optional<float> overUsualDb; ///< none: no bar
        float uncertaintyDb = 2;          ///< the soft edge reaches this far to either side
        Band band;
        QString words; ///< said instead of the standing's ("I hear you"); empty: the standing's own
        Of of = Of::thisTurn;
        friend bool operator==(const State&, const State&) = default;
    };
    /// Beside the bar, large: "Easy to hear", "I can't tell just now", ...
    static QString wordsOf(const State& state);
    /// Below that: why, or of which turn; or empty.
    static QString whyOf(const State& state);

    explicit VoiceMeter(QWidget* parent = nullptr);
    void setState(const State& state);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    struct Parts;
    [[nodiscard]] Parts parts() const;
    void paintTrack(QPainter& painter, const Parts& at) const;
    void paintBar(QPainter& painter, const Parts& at) const;
    void paintTicks(QPainter& painter, const Parts& at) const;
    void paintLabels(QPainter& painter, const Parts& at, double usual, double band) const;
    [[nodiscard]] bool showsBand() const;
    void paintWords(QPainter& painter, const Parts& at) const;

    State m_state;
};

} // namespace vh
