#pragma once
// Words set in the project's typeface for paper, with bars under the vowels to hold. A line of the text stays a line
// (it is where one breathes); what does not fit goes on below it, set in. Needs a QGuiApplication and the typeface.
#include "app/handout/flow.h"
#include "common/script/script.h"

#include <QColor>
#include <QFont>

namespace vh::handout
{

/// Colours of both papers: ink, and two dark greys of it that any black printer holds apart from white. They mean
/// nothing.
struct Inks {
    static constexpr QRgb main = 0xFF1C2230;
    static constexpr QRgb second = 0xFF434B5B;
    static constexpr QRgb deep = 0xFF123F4F;
    static constexpr QRgb hair = 0xFF8A8069;
};

struct TextStyle {
    double points = 18;
    bool bold = false;
    QRgb ink = Inks::main;
    double leading = 1.5; ///< from line to line, in sizes
    double turnover = 0;  ///< in units: how far the rest of a long line is set in
};

QFont paperFont(double points, bool bold);

/// One piece for each line on paper, from `left`, at most `width` wide.
std::vector<Piece> setText(const QString& text, const TextStyle& style, double left, double width,
                           const ElementRef& element);
/// A step's text with its bars.
std::vector<Piece> setMarked(const std::string& text, const std::vector<Stretch>& stretches, const TextStyle& style,
                             double left, double width, const ElementRef& element);
/// How wide this would stand on one line.
double widthOf(const QString& text, const TextStyle& style);
/// One line at a place, for what stands beside others: `baseline` is that of the letters.
void drawWords(QPainter& painter, const QString& words, const TextStyle& style, double left, double baseline);
/// Where the letters of a line of this style stand, below its top.
double baselineOf(const TextStyle& style);

} // namespace vh::handout
