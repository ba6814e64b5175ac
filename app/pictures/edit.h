#pragma once
// What a helper changes about a picture before others see it: turned by quarters, a part cut out, a caption. The cut is
// in shares of the picture as it came, and is made before it is turned, as on the wire; on the screen the frame stands
// on the turned picture: framed() and withFrame() go from one to the other. Values; any thread.
#include <QImage>
#include <QRectF>
#include <QString>

namespace vh::pictures
{

/// The least that a cut leaves of either edge.
inline constexpr double kLeastShare = 0.1;

struct PictureEdit {
    int quarterTurns = 0;   ///< clockwise, 0 ... 3, after the cut
    QRectF cut{0, 0, 1, 1}; ///< of the picture as it came
    QString caption;
    friend bool operator==(const PictureEdit&, const PictureEdit&) = default;

    /// Whether the picture itself becomes another one.
    [[nodiscard]] bool isOther() const { return quarterTurns != 0 || cut != QRectF(0, 0, 1, 1); }
};

[[nodiscard]] PictureEdit turned(PictureEdit edit, int quarters);
/// The cut as it lies on the turned whole picture.
[[nodiscard]] QRectF framed(const PictureEdit& edit);
/// The same edit with this frame on the turned whole picture.
[[nodiscard]] PictureEdit withFrame(PictureEdit edit, const QRectF& frame);
/// As others will see it.
[[nodiscard]] QImage applied(const QImage& picture, const PictureEdit& edit);

enum class Edge { left, top, right, bottom };
[[nodiscard]] double placeOf(Edge edge, const QRectF& frame);
/// That edge moved by so much of the picture, at most to its border, and no nearer to the opposite one than
/// kLeastShare.
[[nodiscard]] QRectF moved(QRectF frame, Edge edge, double by);

} // namespace vh::pictures
