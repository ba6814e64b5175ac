#pragma once
// How Voicehall looks: one palette, one type scale, one set of distances. Set once at start (and again when a person
// changes text size or ground); widgets ask current() when they paint, and get a StyleChange when it changes.
// GUI thread only.
#include "app/look/palette.h"
#include "app/look/type.h"

class QApplication;
class QPainter;
class QRectF;

namespace vh::look
{

/// Distances in px.
struct Space {
    static constexpr int hair = 4;
    static constexpr int small = 8;
    static constexpr int gap = 12; ///< the least between two controls of a participant
    static constexpr int wide = 24;
    static constexpr int margin = 32;
    static constexpr int corner = 12;
    static constexpr int touch = 60;   ///< the least width and height of a participant's control
    static constexpr int control = 44; ///< height of a leader's or helper's control
    static constexpr int focusRing = 3;
};

class Look
{
public:
    explicit Look(Ground ground = Ground::light, TextSize textSize = TextSize::usual)
        : m_ground(ground), m_textSize(textSize)
    {
    }

    /// The look in force; the light one before applyTo was ever called.
    static const Look& current();
    /// Typeface, palette and style sheet for the whole program. False when the bundled typeface could not be read.
    [[nodiscard]] bool applyTo(QApplication& app) const;

    [[nodiscard]] const Palette& palette() const { return paletteOf(m_ground); }
    [[nodiscard]] Ground ground() const { return m_ground; }
    [[nodiscard]] TextSize textSize() const { return m_textSize; }
    [[nodiscard]] int pixels(Type type) const { return pixelSizeOf(type, m_textSize); }
    [[nodiscard]] QFont font(Type type, Weight weight = Weight::regular) const
    {
        return fontOf(type, m_textSize, weight);
    }

private:
    Ground m_ground;
    TextSize m_textSize;
};

/// While it lives, what is laid out and painted comes out with another size of text: how a screen looks to somebody
/// else. One at a time, not across the event loop.
class LookOf
{
public:
    explicit LookOf(TextSize size);
    ~LookOf();
    LookOf(const LookOf&) = delete;
    LookOf& operator=(const LookOf&) = delete;

private:
    Look m_before;
};

/// What the style sheet knows by `setProperty(kRoleProperty, ...)` on a QLabel or QFrame:
/// "title", "heading", "second", "note" for text; a participant's "question" and "words"; "sheet", "quiet", "rule" for
/// frames. On a QLineEdit "desk" is the height of a leader's or helper's control instead of a participant's.
inline constexpr char kRoleProperty[] = "vhRole";

/// A rounded sheet with a hairline around it, as every panel has it.
void paintSheet(QPainter& painter, const QRectF& where, const QColor& fill);

} // namespace vh::look
