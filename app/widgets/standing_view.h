#pragma once
// How a standing is shown: words, one colour, one shape, never the colour alone. Easy to hear = solid column, a little
// more = hollow, plenty = capped, no voice = a dash, can't tell = a question mark, private = dotted outline, listening
// today = the word, line lost = dashed outline with a cross. GUI thread for painting.
#include "app/look/palette.h"
#include "common/live/standing.h"
#include "common/signal/voice_frame.h"

#include <QString>

#include <optional>

class QPainter;
class QRectF;

namespace vh
{

enum class Shape { empty, solid, hollow, capped, dash, question, dotted, word, cross };

Shape shapeOf(Standing standing);
/// "easy to hear", "a little more", ...; empty for notYet.
QString wordsOf(Standing standing);
/// Why a reading cannot be trusted, as a clause after "can't tell": "the room is loud"; empty for none.
QString wordsOf(Blank reason);
/// The two together, as a screen reader says them: "can't tell: the room is loud".
QString sentenceOf(Standing standing, Blank reason);
QColor colourOf(Standing standing, const look::Palette& palette);
/// True where a column shows how much voice there is.
bool hasColumn(Standing standing);

/// The span of levels over the usual one that columns and meters show, in dB; the band's edges lie well inside.
struct LevelSpan {
    float lowest = -6;
    float highest = 16;
    [[nodiscard]] double shareOf(float overUsualDb) const; ///< 0 ... 1, held inside
};
LevelSpan spanOf(const Band& band);

/// Below this height, in px, a column is drawn without its outline and edges; the shapes stay.
inline constexpr double kSmallColumn = 16;

/// One seat's column: the outline, the two edges of this person's band, and the shape. Without a level, a column that
/// has one stands in the middle of its part of the band.
void paintColumn(QPainter& painter, const QRectF& where, Standing standing, std::optional<float> overUsualDb,
                 const Band& band);

} // namespace vh
