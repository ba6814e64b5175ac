#pragma once
// The phrase of a step, as large as fits, with a bar under just the letters to stretch. Plain text, whatever it says.
// Where even the smallest size does not fit, it keeps that size and asks for more height (heightForWidth): put it into
// a scroll area where that can happen. GUI thread.
#include "app/widgets/spoken_widget.h"
#include "app/widgets/text_fit.h"

namespace vh
{

class FittedText : public SpokenWidget
{
    Q_OBJECT
public:
    struct State {
        std::string text; ///< UTF-8, as in the script
        std::vector<Stretch> stretches;
        FitLimits limits;
        Qt::Alignment alignment = Qt::AlignLeft | Qt::AlignVCenter;
        enum class Ink { main, second } ink = Ink::main;
    };

    explicit FittedText(QWidget* parent = nullptr);
    void setState(const State& state);
    [[nodiscard]] const FittedLines& lines() const { return m_lines; }
    /// Where the bars are, in this widget's coordinates, in reading order.
    [[nodiscard]] QVector<QRectF> bars() const { return m_bars; }

    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void fit();
    [[nodiscard]] QPointF originOf(int line) const;

    State m_state;
    QString m_text;
    QVector<TextRange> m_ranges;
    FittedLines m_lines;
    QVector<QRectF> m_bars;
};

} // namespace vh
