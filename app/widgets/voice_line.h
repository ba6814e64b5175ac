#pragma once
// One small plain line that says whose voice is heard here, with an ear before it. Told to readers when it changes;
// blank it keeps its place. GUI thread.
#include "app/look/sign.h"
#include "app/widgets/spoken_widget.h"

#include <QStringList>

namespace vh
{

class VoiceLine : public SpokenWidget
{
    Q_OBJECT
public:
    enum class Ear { none, hears, hearsNothing };
    struct State {
        QStringList words; ///< the whole, then shorter for a narrow place; empty: nothing to say
        Ear ear = Ear::none;
        friend bool operator==(const State&, const State&) = default;
    };

    explicit VoiceLine(QWidget* parent = nullptr);
    void setState(const State& state);
    [[nodiscard]] const State& state() const { return m_state; }
    /// The wording that is painted at this width.
    [[nodiscard]] QString shown() const;
    [[nodiscard]] QSize sizeHint() const override { return sizeWith(m_state.words.value(0)); }
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] static QFont font();
    [[nodiscard]] static double earSide();
    [[nodiscard]] static QSize sizeWith(const QString& words);

    State m_state;
};

} // namespace vh
