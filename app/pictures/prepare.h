#pragma once
// A picture that somebody chose, made ready to be sent: read from a file or from what was copied, turned the way the
// camera noted, at most kSentEdge long, and written anew from its pixels, so that place, camera, names, thumbnails and
// colour profiles stay at home. JPEG, or PNG where that is the smaller (a drawing). At most wire::kPictureBytes.
// prepare() is pure and takes up to a second: any thread that may use QImage; prepareElsewhere() does it on one of the
// pool's. Failure, with words for the person: picture-unknown, picture-too-large, picture-unreadable.
#include "common/base/result.h"

#include <QImage>
#include <QString>

#include <functional>
#include <optional>
#include <variant>

class QMimeData;
class QObject;

namespace vh::pictures
{

/// Longest edge of what is sent, in px; the relay makes it no larger.
inline constexpr int kSentEdge = 1600;
/// A picture with more pixels is not opened.
inline constexpr qint64 kMostPixels = 100'000'000;

/// Where a picture is: a file's path, or what was copied.
using Source = std::variant<QString, QImage>;
/// What a clipboard holds: a picture, or the first file of those copied in a file manager. Nothing: neither.
std::optional<Source> sourceIn(const QMimeData* copied);

struct Prepared {
    QByteArray bytes; ///< to be sent
    QImage shown;     ///< what others will see, but for how closely it is packed
};
Result<Prepared> prepare(const Source& source);

/// `done` runs on `context`'s thread, and not at all once that is gone.
void prepareElsewhere(const Source& source, QObject* context, std::function<void(const Result<Prepared>&)> done);

} // namespace vh::pictures
