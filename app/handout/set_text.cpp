#include "app/handout/set_text.h"

#include "app/look/type.h"

#include <QPainter>
#include <QTextLayout>
#include <QTextOption>

#include <algorithm>
#include <cmath>

namespace vh::handout
{

namespace
{

/// Andika's letters reach 0.74 of the size above the line and 0.24 below it (measured from the typeface).
constexpr double kAscent = 0.74;
constexpr double kDescent = 0.24;
constexpr double kBarTop = 0.29; ///< below the letters' line: clear of every descender
constexpr double kBarHeight = 0.10;
/// A hundredth of a letter's width more than drawn. It also keeps fi and fl two letters: Qt's PDF writer forgets what a
/// joined one stands for, and the word could neither be searched nor read aloud.
constexpr double kLetterSpacing = 101;

struct Bar {
    int begin = 0; ///< UTF-16, within the line of the text
    int end = 0;
};

struct Paragraph {
    QString text;
    std::vector<Bar> bars;
};

qsizetype unitsUpTo(const std::string& text, std::uint32_t bytes)
{
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(bytes)).size();
}

std::vector<Paragraph> paragraphsOf(const QString& text, const std::vector<Bar>& bars)
{
    std::vector<Paragraph> all;
    qsizetype start = 0;
    for (const QString& line : text.split(QLatin1Char('\n'))) {
        Paragraph paragraph{line, {}};
        for (const Bar& bar : bars)
            if (bar.begin >= start && bar.end <= start + line.size())
                paragraph.bars.push_back({bar.begin - static_cast<int>(start), bar.end - static_cast<int>(start)});
        all.push_back(std::move(paragraph));
        start += line.size() + 1;
    }
    return all;
}

std::shared_ptr<QTextLayout> layOut(const Paragraph& paragraph, const TextStyle& style, double left, double width)
{
    auto layout = std::make_shared<QTextLayout>(paragraph.text, paperFont(style.points, style.bold));
    QTextOption option(Qt::AlignLeft);
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    option.setTextDirection(Qt::LayoutDirectionAuto);
    layout->setTextOption(option);
    layout->setCacheEnabled(true);
    layout->beginLayout();
    double indent = 0;
    while (true) {
        QTextLine line = layout->createLine();
        if (!line.isValid())
            break;
        line.setLineWidth(width - indent);
        line.setPosition({paragraph.text.isRightToLeft() ? left : left + indent, 0});
        indent = style.turnover;
    }
    layout->endLayout();
    return layout;
}

Piece pieceOf(const std::shared_ptr<QTextLayout>& layout, int number, const std::vector<Bar>& bars,
              const TextStyle& style, const ElementRef& element)
{
    const QTextLine line = layout->lineAt(number);
    std::vector<std::pair<double, double>> under;
    for (const Bar& bar : bars) {
        const int begin = std::max(bar.begin, line.textStart());
        const int end = std::min(bar.end, line.textStart() + line.textLength());
        if (begin < end) {
            const double one = line.cursorToX(begin);
            const double other = line.cursorToX(end); // on the left of it in a text that runs to the left
            under.emplace_back(std::min(one, other), std::max(one, other));
        }
    }
    const auto draw = [layout, number, under, style](QPainter& painter, double top) {
        const double baseline = top + baselineOf(style);
        const QTextLine drawn = layout->lineAt(number);
        painter.setPen(QColor(style.ink));
        drawn.draw(&painter, {0, baseline - drawn.ascent() - drawn.y()});
        painter.setPen(Qt::NoPen);
        painter.setBrush(QColor(Inks::deep));
        for (const auto& [from, to] : under)
            painter.drawRect(
                QRectF(from, baseline + pt(style.points) * kBarTop, to - from, pt(style.points) * kBarHeight));
    };
    return {pt(style.points) * style.leading, element, draw};
}

std::vector<Piece> setParagraphs(const QString& text, const std::vector<Bar>& bars, const TextStyle& style, double left,
                                 double width, const ElementRef& element)
{
    std::vector<Piece> pieces;
    for (const Paragraph& paragraph : paragraphsOf(text, bars)) {
        const auto layout = layOut(paragraph, style, left, width);
        for (int number = 0; number < layout->lineCount(); ++number)
            pieces.push_back(pieceOf(layout, number, paragraph.bars, style, element));
    }
    return pieces;
}

} // namespace

QFont paperFont(double points, bool bold)
{
    QFont font = look::fontOfPixels(static_cast<int>(std::lround(pt(points))),
                                    bold ? look::Weight::bold : look::Weight::regular);
    font.setLetterSpacing(QFont::PercentageSpacing, kLetterSpacing);
    return font;
}

double baselineOf(const TextStyle& style)
{
    return pt(style.points) * (style.leading / 2 + (kAscent - kDescent) / 2);
}

std::vector<Piece> setText(const QString& text, const TextStyle& style, double left, double width,
                           const ElementRef& element)
{
    return setParagraphs(text, {}, style, left, width, element);
}

std::vector<Piece> setMarked(const std::string& text, const std::vector<Stretch>& stretches, const TextStyle& style,
                             double left, double width, const ElementRef& element)
{
    std::vector<Bar> bars;
    for (const Stretch& stretch : stretches)
        bars.push_back(
            {static_cast<int>(unitsUpTo(text, stretch.begin)), static_cast<int>(unitsUpTo(text, stretch.end))});
    return setParagraphs(QString::fromStdString(text), bars, style, left, width, element);
}

double widthOf(const QString& text, const TextStyle& style)
{
    const auto layout = layOut({text, {}}, style, 0, 1e6);
    return layout->lineCount() > 0 ? layout->lineAt(0).naturalTextWidth() : 0;
}

void drawWords(QPainter& painter, const QString& words, const TextStyle& style, double left, double baseline)
{
    const auto layout = layOut({words, {}}, style, left, 1e6);
    if (layout->lineCount() == 0)
        return;
    painter.setPen(QColor(style.ink));
    layout->lineAt(0).draw(&painter, {0, baseline - layout->lineAt(0).ascent()});
}

} // namespace vh::handout
