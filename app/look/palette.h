#pragma once
// Every colour of Voicehall, in a light and a dark version with the same rules: each colour means one thing, never by
// colour alone, no red, text at 7:1 and meaningful graphics at 3:1 on their ground (tests/app/look computes it for
// every pair that pairsInUse() names: who uses a new pair adds it there). Values, any thread.
#include <QColor>

#include <vector>

namespace vh::look
{

enum class Ground { light, dark };

struct Palette {
    QColor paper;      ///< the window
    QColor sheet;      ///< what is read stands on it
    QColor quiet;      ///< a sheet set apart: notices, chosen rows
    QColor ink;        ///< text
    QColor secondInk;  ///< text of the second rank
    QColor line;       ///< hairlines that only tidy up; carries no meaning
    QColor deep;       ///< the main action, the cue, what is done
    QColor onDeep;     ///< text on deep
    QColor deepHeld;   ///< deep while it is held down
    QColor deep2;      ///< outlines of controls, band edges, the rail
    QColor stretch;    ///< bars under vowels to stretch; the leader's note
    QColor dashes;     ///< outlines of meters and seats, the tick of the usual level
    QColor easy;       ///< standing: easy to hear
    QColor littleMore; ///< standing: a little more
    QColor plenty;     ///< standing: plenty, ease off
    QColor neutral;    ///< standing: everything that is not judged

    friend bool operator==(const Palette&, const Palette&) = default;
};

const Palette& paletteOf(Ground ground);

/// A colour that stands on another one somewhere on a screen.
struct ColourPair {
    enum class Kind { text, graphic };
    const char* what;
    QColor front;
    QColor ground;
    Kind kind;
};
std::vector<ColourPair> pairsInUse(const Palette& palette);

} // namespace vh::look
