#pragma once
// The type scale: Andika (SIL, Open Font License), bundled as a resource, in pixels at 96 dpi, in three steps a person
// chooses from. Nothing on a screen uses another size. GUI thread, after a QGuiApplication exists.
#include <QFont>
#include <QString>

namespace vh::look
{

enum class TextSize { usual, larger, largest };

enum class Type {
    fine,    ///< seat names, rail labels (leader only)
    note,    ///< the leader's note, words under a meter
    body,    ///< running text
    control, ///< words on a leader's or helper's control
    touch,   ///< words on a participant's control
    caption, ///< the second line on one
    title,   ///< head of a screen or of a list
    heading, ///< head of a question
    cue,     ///< whose turn it is; never under 32 px
};

enum class Weight { regular, bold };

/// The smallest a participant's text may get, in px.
inline constexpr int kSmallestClassText = 40;

int pixelSizeOf(Type type, TextSize size);
QFont fontOf(Type type, TextSize size, Weight weight = Weight::regular);
/// The typeface at a size that a fitting has found.
QFont fontOfPixels(int pixelSize, Weight weight = Weight::regular);

/// Registers the bundled files once; later calls are free. False when they are damaged or missing: the caller stops.
bool loadTypeface();
QString typefaceFamily();

} // namespace vh::look
