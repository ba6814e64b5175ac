#include "app/write/whole_file.h"

#include <QFile>
#include <QSaveFile>

namespace vh::write
{

QString writeWhole(const QString& path, const QByteArray& bytes)
{
    QSaveFile file(path);
    if (!file.open(QIODevice::WriteOnly))
        return file.errorString();
    // Flushed before it is committed: commit() takes no notice of what could not be flushed, and a full disk would
    // leave an empty file in the place of a whole one.
    if (file.write(bytes) != bytes.size() || !file.flush()) {
        const QString why = file.errorString();
        file.cancelWriting();
        return why;
    }
    return file.commit() ? QString() : file.errorString();
}

std::optional<QByteArray> readWhole(const QString& path, qint64 most)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly) || file.size() > most)
        return std::nullopt;
    return file.readAll();
}

} // namespace vh::write
