#pragma once
// The whole class in proportion to time: sections as boxes with their titles, pauses as drops, what is done filled.
// Slim: one line for a participant, nothing to read. Times in planned class time. GUI thread.
#include "app/widgets/spoken_widget.h"
#include "common/base/clock.h"

#include <vector>

namespace vh
{

class ScriptRail : public SpokenWidget
{
    Q_OBJECT
public:
    struct Part {
        QString title;
        Millis planned{0};
        bool pause = false;
        QString label{}; ///< short; shown while the part is not the current one. Empty: the title
        friend bool operator==(const Part&, const Part&) = default;
    };
    struct State {
        std::vector<Part> parts;
        Millis done{0};   ///< planned time behind us, 0 ... sum of planned
        int current = -1; ///< index into parts; -1: not begun, or over
        friend bool operator==(const State&, const State&) = default;
    };
    enum class Form { full, slim };

    explicit ScriptRail(Form form, QWidget* parent = nullptr);
    void setState(const State& state);
    /// Where each part stands, for a width; pauses never narrower than their drop; what takes no time has no room.
    static std::vector<QRectF> boxesOf(const State& state, QRectF where);
    /// How much of part `index` is done, 0 ... 1.
    static double doneOf(const State& state, std::size_t index);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

signals:
    /// The mouse has pressed a part of the full form.
    void partPressed(int index);

protected:
    bool event(QEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] int partAt(int x) const;
    [[nodiscard]] QString labelOf(std::size_t index) const;
    [[nodiscard]] QFont labelFont(std::size_t index) const;
    void paintFull(QPainter& painter) const;
    void paintPart(QPainter& painter, std::size_t index, const QRectF& box) const;
    void paintTitles(QPainter& painter, const std::vector<QRectF>& boxes, double height) const;
    void paintSlim(QPainter& painter) const;

    Form m_form;
    State m_state;
};

} // namespace vh
