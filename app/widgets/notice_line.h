#pragma once
// One plain line about what is happening ("The line is lost. Trying again."), with a sign before it; screen readers
// hear it when it changes. Blank it keeps its place, so nothing below it jumps. GUI thread.
#include "app/look/type.h"
#include "app/widgets/spoken_widget.h"

namespace vh
{

class NoticeLine : public SpokenWidget
{
    Q_OBJECT
public:
    enum class Tone {
        calm, ///< for information
        heed, ///< something a person may want to act on; still no alarm
    };
    struct State {
        QString words; ///< empty: the line stays blank
        Tone tone = Tone::calm;
        friend bool operator==(const State&, const State&) = default;
    };

    /// type: of the words; larger for a participant.
    explicit NoticeLine(QWidget* parent = nullptr, look::Type type = look::Type::body);
    void setState(const State& state);
    [[nodiscard]] const State& state() const { return m_state; }
    void setType(look::Type type);
    /// As high as these words need, and no higher; else it keeps the height of a control.
    void setTight(bool tight);
    /// What words would need, in px.
    [[nodiscard]] static int heightOf(const QString& words, look::Type type, int width, bool tight);
    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    State m_state;
    look::Type m_type;
    bool m_tight = false;
};

} // namespace vh
