#pragma once
// Where a phrase breaks and how large it can be: the largest size at which all of it fits, then, within a little less
// than that size, the breaks that read best (after punctuation, before a joining word, lines of like length; never
// between an article and its noun if there is another way). Plain text; '\n' always breaks. Lengths in px.
// GUI thread (font metrics); values in and out.
#include <QSizeF>
#include <QString>
#include <QStringList>
#include <QVector>

#include "app/look/type.h"
#include "common/script/script.h"

namespace vh
{

struct FittedLines {
    int pixelSize = 0;
    QStringList lines;     ///< without the spaces at the breaks
    QVector<int> starts;   ///< index of each line's first character in the text
    double lineHeight = 0; ///< from baseline to baseline
    double ascent = 0;     ///< of the tallest letters, above the baseline
    double barTop = 0;     ///< below the baseline: clear of every descender
    double barHeight = 0;
    double width = 0;  ///< of the longest line
    double height = 0; ///< of all lines, with the last line's bar
    bool fits = true;  ///< false: at the smallest size it needs more room than there was
};

struct FitLimits {
    int smallest = look::kSmallestClassText;
    int whole = 0; ///< where even the smallest has no room: down to this, so that all of it is seen; 0: no smaller
    int largest = 96;
    look::Weight weight = look::Weight::regular;
};

FittedLines fitText(const QString& text, QSizeF room, const FitLimits& limits);

/// UTF-8 byte ranges of a script as ranges of a QString's UTF-16 units.
struct TextRange {
    qsizetype begin = 0;
    qsizetype end = 0;
    friend bool operator==(const TextRange&, const TextRange&) = default;
};
QVector<TextRange> rangesOf(const std::string& text, const std::vector<Stretch>& stretches);

/// How little one likes to break after word `left`, before word `right` (0 = gladly).
double breakCost(const QString& left, const QString& right);

} // namespace vh
