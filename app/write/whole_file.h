#pragma once
// A file that is there whole or not at all: written beside its place, synced and renamed. Any thread.
#include <QByteArray>
#include <QString>

#include <optional>

namespace vh::write
{

/// Empty: it is on disk. Else why not, in words; what was there before still is.
QString writeWhole(const QString& path, const QByteArray& bytes);
/// Nothing where it is not there, or larger than that.
std::optional<QByteArray> readWhole(const QString& path, qint64 most);

} // namespace vh::write
