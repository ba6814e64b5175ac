#pragma once
// What a screen paints, call by call: each text with its colour, the colours it stands on and how much of it is cut
// off; each shape with the colours it stands on. A widget is rendered once, into a picture of its own, and read on the
// way: no widget needs to help. GUI thread.
#include <QColor>
#include <QImage>
#include <QList>
#include <QPaintDevice>
#include <QPaintEngine>
#include <QPainter>
#include <QPainterPath>
#include <QWidget>

#include <memory>

namespace vh::testing
{

struct PaintedText {
    QString text;
    QColor ink;
    QList<QColor> grounds; ///< under its letters, each at least a twentieth of them
    QRectF letters;        ///< their bounds
    QRectF cutOff;         ///< what of the bounds lies outside the clip; empty: nothing
};
struct PaintedShape {
    QColor colour;
    QList<QColor> grounds; ///< under it, each at least a fifth of it
    QRectF bounds;
};

class PaintRecord
{
public:
    /// wordsOnly: texts and what of them is cut off, not what they stand on; much quicker.
    enum class Read { everything, wordsOnly };
    explicit PaintRecord(QWidget& of, Read what = Read::everything);
    [[nodiscard]] const QList<PaintedText>& texts() const { return m_texts; }
    [[nodiscard]] const QList<PaintedShape>& shapes() const { return m_shapes; }
    [[nodiscard]] const QImage& picture() const { return m_picture; }

private:
    class Engine;
    class Device;
    Read m_what;
    QImage m_picture;
    QList<PaintedText> m_texts;
    QList<PaintedShape> m_shapes;
};

/// In words, one for each text that is cut off by more than a pixel.
QStringList cutOffIn(QWidget& screen);
/// In words, one for each text or shape on a ground on which it is not named in look::pairsInUse(), or too weak.
QStringList unlistedPairsIn(QWidget& screen);

} // namespace vh::testing
