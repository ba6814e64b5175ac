#include "app/write/class_scan.h"

#include "app/write/class_files.h"
#include "app/write/class_index.h"

#include <QDateTime>
#include <QDir>
#include <QHash>

namespace vh::write
{

namespace
{

constexpr std::size_t kAtATime = 40;
constexpr int kDeepest = 4;       // folders in folders
constexpr int kMostFolders = 200; // watched and looked into

void addFolders(const QDir& folder, int depth, QStringList& all)
{
    if (all.size() >= kMostFolders)
        return;
    all << folder.absolutePath();
    if (depth == kDeepest)
        return;
    for (const QFileInfo& inside : folder.entryInfoList(QDir::Dirs | QDir::NoDotAndDotDot | QDir::NoSymLinks))
        if (inside.fileName() != QLatin1String(kAsideFolder) && inside.fileName() != QLatin1String("pictures"))
            addFolders(QDir(inside.absoluteFilePath()), depth + 1, all);
}

ClassEntry found(const QFileInfo& file, const QString& path, bool bundled)
{
    return unreadEntry(path, file.size(), file.lastModified().toMSecsSinceEpoch(), bundled);
}

/// Classes, and drafts of which there is no class yet.
void addFiles(const QString& folder, bool bundled, std::vector<ClassEntry>& files)
{
    const QDir dir(folder);
    for (const QFileInfo& info : dir.entryInfoList({QStringLiteral("*.yaml"), QStringLiteral("*.yml")}, QDir::Files))
        files.push_back(found(info, info.absoluteFilePath(), bundled));
    for (const QFileInfo& info : dir.entryInfoList({QStringLiteral("*.yaml.draft")}, QDir::Files))
        if (const QString path = dir.absoluteFilePath(info.completeBaseName()); !bundled && !QFile::exists(path))
            files.push_back(found(info, path, bundled));
}

bool isSame(const ClassEntry& known, const ClassEntry& file)
{
    return known.size == file.size && known.modified == file.modified && !known.unread;
}

} // namespace

QStringList foldersUnder(const QString& own)
{
    QStringList all;
    if (!own.isEmpty() && QDir(own).exists())
        addFolders(QDir(own), 0, all);
    return all;
}

void scan(QPromise<std::vector<ClassEntry>>& promise, const ScanOrder& order)
{
    std::vector<ClassEntry> known = order.known;
    const auto index = order.readIndex && !order.index.isEmpty() ? readIndex(order.index) : std::nullopt;
    if (index)
        known.insert(known.end(), index->begin(), index->end());
    QHash<QString, const ClassEntry*> byPath;
    for (const ClassEntry& entry : known)
        byPath.insert(entry.path, &entry);

    std::vector<ClassEntry> files;
    if (!order.bundled.isEmpty())
        addFiles(order.bundled, true, files);
    for (const QString& folder : foldersUnder(order.own))
        addFiles(folder, false, files);
    std::vector<std::size_t> toRead;
    for (std::size_t i = 0; i < files.size(); ++i) {
        const ClassEntry* before = byPath.value(files[i].path);
        if (before && isSame(*before, files[i])) {
            const bool bundled = files[i].bundled;
            files[i] = *before;
            files[i].bundled = bundled;
        } else {
            toRead.push_back(i);
        }
    }
    const bool asWritten = toRead.empty() && index && index->size() == files.size();
    promise.addResult(files);
    std::vector<ClassEntry> batch;
    for (std::size_t n = 0; n < toRead.size() && !promise.isCanceled(); ++n) {
        ClassEntry& file = files[toRead[n]];
        file = entryOf(file.path, file.size, file.modified, file.bundled);
        batch.push_back(file);
        if (batch.size() < kAtATime && n + 1 < toRead.size())
            continue;
        promise.addResult(std::exchange(batch, {}));
    }
    const bool changed = order.readIndex ? !asWritten : !toRead.empty() || files.size() != order.known.size();
    if (changed && !order.index.isEmpty())
        writeIndex(order.index, files);
}

} // namespace vh::write
