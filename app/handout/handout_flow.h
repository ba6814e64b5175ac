#pragma once
// What stands in a handout, in order, as a flow: first what holds for the class as a whole (handout_front.cpp), then
// its sections (handout_flow.cpp). Internal to this folder.
#include "app/handout/flow.h"
#include "app/handout/handout.h"
#include "app/handout/handout_words.h"
#include "app/handout/print.h"
#include "app/handout/set_text.h"

namespace vh::handout
{

/// Sizes in pt; nothing is smaller than kLeast.
inline constexpr double kLeast = 18;
inline constexpr TextStyle kPlain{.points = kLeast};
inline constexpr TextStyle kQuiet{.points = kLeast, .ink = Inks::second, .leading = 1.4};
inline constexpr TextStyle kSaid{.points = 21, .turnover = mm(8)};
inline constexpr TextStyle kHeading{.points = 27, .bold = true, .ink = Inks::deep, .leading = 1.25};
inline constexpr TextStyle kTitle{.points = 38, .bold = true, .ink = Inks::deep, .leading = 1.15};
inline constexpr TextStyle kSmallHeading{.points = 21, .bold = true, .ink = Inks::deep};

/// The margin on the left holds what stands beside the text: how often, and the line at what people say.
inline constexpr double kMarginColumn = mm(13);
inline constexpr double kRuleApart = mm(3.2); ///< of that line from the text
inline constexpr double kRuleWide = pt(2.5);

struct HandoutParts {
    const ClassScript& script;
    QString folder;
    const HandoutOptions& options;
    const HandoutWords& words;
    PageShape shape; ///< with the margin column
    int pictureDpi = 300;

    [[nodiscard]] double textLeft() const { return shape.left + kMarginColumn; }
    [[nodiscard]] double textWidth() const { return shape.width() - kMarginColumn; }
    [[nodiscard]] double right() const { return shape.size.width() - shape.right; }
};

PageShape handoutShape(Paper paper);
/// Title, cautions, the week's plan, how to read.
void addFront(Flow& flow, const HandoutParts& parts);
void addSections(Flow& flow, const HandoutParts& parts);

/// The line beside what people say, along this piece.
void drawSaidLine(QPainter& painter, const HandoutParts& parts, double top, double height);
/// "2×" in the margin, at the height of a line of this style.
void drawInMargin(QPainter& painter, const HandoutParts& parts, const QString& words, const TextStyle& line,
                  double top);

} // namespace vh::handout
