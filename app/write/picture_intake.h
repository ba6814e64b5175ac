#pragma once
// A picture file that the leader chose, taken into the class: into the "pictures" folder beside it, under a name of its
// own, with nothing left of what a camera or a drawing program wrote beside the picture (place, time, names). A raster
// picture is decoded, turned as its camera says, made smaller and encoded anew, as JPEG where it is one, else as PNG.
// An SVG stays one, so that it is sharp on paper too: it is written anew from the elements that draw (svg_rewrite.h).
// Any thread that may use QImage. Failure: picture-unreadable, picture-too-large, picture-refused, not-saved; the
// message says what to do.
#include "common/base/result.h"

#include <QString>

namespace vh::write
{

/// Longest edge of a raster picture in a class, in px: enough for a page of large print.
inline constexpr int kPictureEdge = 1600;

/// The file as the script names it: "pictures/kites-1.png". `folder` is the class's, `name` what the file is called
/// after.
Result<QString> takePicture(const QString& chosen, const QString& folder, const QString& name);

} // namespace vh::write
