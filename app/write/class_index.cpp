#include "app/write/class_index.h"

#include <QDataStream>
#include <QDir>
#include <QFile>
#include <QSaveFile>
#include <QtEndian>

#include <algorithm>

namespace vh::write
{

namespace
{

constexpr quint32 kMagic = 0x56684C69;   // "VhLi"
constexpr quint32 kVersion = 1;          // one more when an entry or how it is made changes
constexpr quint32 kMost = 100'000;       // entries; and parts or mistakes of one
constexpr quint32 kMostBytes = 1U << 29; // of all of it, unpacked

QDataStream& operator<<(QDataStream& out, const ClassEntry::Part& part)
{
    return out << part.title << static_cast<quint8>(part.kind) << static_cast<qint64>(part.length.count())
               << part.firstLine;
}

QDataStream& operator>>(QDataStream& in, ClassEntry::Part& part)
{
    quint8 kind = 0;
    qint64 length = 0;
    in >> part.title >> kind >> length >> part.firstLine;
    if (kind > static_cast<quint8>(SectionKind::closing))
        in.setStatus(QDataStream::ReadCorruptData);
    part.kind = static_cast<SectionKind>(kind);
    part.length = Millis(length);
    return in;
}

QDataStream& operator<<(QDataStream& out, const ClassEntry::Mistake& mistake)
{
    return out << static_cast<qint32>(mistake.line) << mistake.message << mistake.remedy;
}

QDataStream& operator>>(QDataStream& in, ClassEntry::Mistake& mistake)
{
    qint32 line = 0;
    in >> line >> mistake.message >> mistake.remedy;
    mistake.line = line;
    return in;
}

QDataStream& operator<<(QDataStream& out, const ClassEntry& entry);
QDataStream& operator>>(QDataStream& in, ClassEntry& entry);

template <class T>
void writeAll(QDataStream& out, const std::vector<T>& all)
{
    out << static_cast<quint32>(all.size());
    for (const T& each : all)
        out << each;
}

template <class T>
void readAll(QDataStream& in, std::vector<T>& all)
{
    quint32 count = 0;
    in >> count;
    if (count > kMost)
        in.setStatus(QDataStream::ReadCorruptData);
    for (quint32 i = 0; i < count && in.status() == QDataStream::Ok; ++i)
        in >> all.emplace_back();
}

QDataStream& operator<<(QDataStream& out, const ClassEntry& entry)
{
    out << entry.path << entry.size << entry.modified << entry.bundled << entry.unfinished << entry.title << entry.theme
        << entry.language << static_cast<qint32>(entry.plannedMinutes) << static_cast<qint64>(entry.length.count())
        << static_cast<qint32>(entry.steps) << entry.pictures << entry.lines << entry.headFolded << entry.folded
        << entry.sentences;
    writeAll(out, entry.parts);
    writeAll(out, entry.mistakes);
    return out;
}

QDataStream& operator>>(QDataStream& in, ClassEntry& entry)
{
    qint32 minutes = 0;
    qint64 length = 0;
    qint32 steps = 0;
    in >> entry.path >> entry.size >> entry.modified >> entry.bundled >> entry.unfinished >> entry.title >>
        entry.theme >> entry.language >> minutes >> length >> steps >> entry.pictures >> entry.lines >>
        entry.headFolded >> entry.folded >> entry.sentences;
    entry.plannedMinutes = minutes;
    entry.length = Millis(length);
    entry.steps = steps;
    readAll(in, entry.parts);
    readAll(in, entry.mistakes);
    return in;
}

} // namespace

std::optional<std::vector<ClassEntry>> readIndex(const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return std::nullopt;
    const QByteArray packed = file.readAll();
    // What unpacking would take; it has a check sum of its own (zlib's Adler-32).
    if (packed.size() < 4 || qFromBigEndian<quint32>(packed.constData()) > kMostBytes)
        return std::nullopt;
    const QByteArray bytes = qUncompress(packed);
    QDataStream in(bytes);
    in.setVersion(QDataStream::Qt_6_0);
    quint32 magic = 0;
    quint32 version = 0;
    in >> magic >> version;
    std::vector<ClassEntry> entries;
    if (magic != kMagic || version != kVersion)
        return std::nullopt;
    readAll(in, entries);
    if (in.status() != QDataStream::Ok || !in.atEnd())
        return std::nullopt;
    return entries;
}

bool writeIndex(const QString& path, const std::vector<ClassEntry>& entries)
{
    QByteArray bytes;
    QDataStream out(&bytes, QIODevice::WriteOnly);
    out.setVersion(QDataStream::Qt_6_0);
    out << kMagic << kVersion;
    const auto read = [](const ClassEntry& entry) { return !entry.unread; };
    out << static_cast<quint32>(std::count_if(entries.begin(), entries.end(), read));
    for (const ClassEntry& entry : entries)
        if (read(entry))
            out << entry;
    const QByteArray packed = qCompress(bytes, 1); // fast rather than small
    QDir().mkpath(QFileInfo(path).absolutePath());
    QSaveFile file(path);
    return file.open(QIODevice::WriteOnly) && file.write(packed) == packed.size() && file.commit();
}

} // namespace vh::write
