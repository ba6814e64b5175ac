#pragma once
// An SVG drawing, written anew from what draws: shapes, groups, text, gradients, clips. Metadata, comments, scripts,
// what happens on a click, names and notes of drawing programs, and everything that would be fetched from elsewhere do
// not come along. What QSvgRenderer draws of it is checked only after that: it opens files that a drawing names. Any
// thread. Failure: picture-refused, picture-unreadable, picture-too-large.
#include "common/base/result.h"

#include <QByteArray>

namespace vh::write
{

inline constexpr qsizetype kMostSvgBytes = 2 * 1024 * 1024;

Result<QByteArray> rewrittenSvg(const QByteArray& svg);

} // namespace vh::write
