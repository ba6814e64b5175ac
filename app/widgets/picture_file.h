#pragma once
// A picture of a class, read from its file: SVG or a raster picture. Any thread that may use QImage.
#include <QImage>
#include <QString>

namespace vh
{

/// A picture file larger than this is not opened.
inline constexpr qint64 kMostPictureFile = 32LL * 1024 * 1024;

/// With no edge longer than `edge`, turned as its camera says; an SVG is drawn that large. Null when it is no picture,
/// or not there.
QImage readPicture(const QString& path, int edge);

} // namespace vh
