#include "app/write/class_library.h"

#include "app/write/class_scan.h"
#include "common/script/limits.h"

#include <QDateTime>
#include <QDir>
#include <QHash>
#include <QtConcurrentRun>

#include <algorithm>
#include <tuple>

namespace vh::write
{

namespace
{

constexpr std::chrono::milliseconds kSoon{200};
const QString kOwn = QStringLiteral("own:");
const QString kBundled = QStringLiteral("bundled:");

bool isUnder(const QString& path, const QString& folder)
{
    return !folder.isEmpty() && path.startsWith(QDir(folder).absolutePath() + '/');
}

} // namespace

ClassLibrary::ClassLibrary(LibraryFolders folders, QObject* parent) : QObject(parent), m_folders(std::move(folders))
{
    connect(&m_work, &QFutureWatcherBase::resultReadyAt, this,
            [this](int index) { take(index, m_work.resultAt(index)); });
    connect(&m_work, &QFutureWatcherBase::finished, this, &ClassLibrary::finish);
    connect(&m_watcher, &QFileSystemWatcher::directoryChanged, &m_soon, qOverload<>(&QTimer::start));
    m_soon.setSingleShot(true);
    m_soon.setInterval(kSoon);
    connect(&m_soon, &QTimer::timeout, this, &ClassLibrary::look);
}

ClassLibrary::~ClassLibrary()
{
    m_work.cancel();
    m_work.waitForFinished();
}

void ClassLibrary::look()
{
    if (m_work.isRunning())
        m_again = true;
    else
        begin();
}

void ClassLibrary::begin()
{
    ScanOrder order{m_folders.bundled, m_folders.own, m_folders.index, !m_readIndex, m_entries};
    m_readIndex = true;
    m_settled = false;
    m_again = false;
    m_work.setFuture(QtConcurrent::run(
        [order = std::move(order)](QPromise<std::vector<ClassEntry>>& promise) { scan(promise, order); }));
}

/// The first is the whole list; the others are some of it, read.
void ClassLibrary::take(int number, const std::vector<ClassEntry>& batch)
{
    std::vector<ClassEntry> entries = number == 0 ? batch : m_entries;
    if (number > 0) {
        QHash<QString, const ClassEntry*> read;
        for (const ClassEntry& entry : batch)
            read.insert(entry.path, &entry);
        for (ClassEntry& entry : entries)
            if (const ClassEntry* now = read.value(entry.path))
                entry = *now;
    }
    become(std::move(entries));
}

void ClassLibrary::become(std::vector<ClassEntry> entries)
{
    std::sort(entries.begin(), entries.end(), [](const ClassEntry& one, const ClassEntry& other) {
        return std::tie(one.headFolded, one.path) < std::tie(other.headFolded, other.path);
    });
    if (entries == m_entries)
        return;
    m_entries = std::move(entries);
    emit changed();
}

void ClassLibrary::finish()
{
    const QStringList now = foldersUnder(m_folders.own);
    const QStringList before = m_watcher.directories();
    for (const QString& folder : before)
        if (!now.contains(folder))
            m_watcher.removePath(folder);
    for (const QString& folder : now)
        if (!before.contains(folder))
            m_watcher.addPath(folder);
    if (m_again)
        return begin();
    m_settled = true;
    emit settled();
}

const ClassEntry* ClassLibrary::entryAt(const QString& path) const
{
    const auto found =
        std::find_if(m_entries.begin(), m_entries.end(), [&](const ClassEntry& entry) { return entry.path == path; });
    return found == m_entries.end() ? nullptr : &*found;
}

QString ClassLibrary::keyOf(const QString& path) const
{
    if (isUnder(path, m_folders.own))
        return kOwn + QDir(m_folders.own).relativeFilePath(path);
    if (isUnder(path, m_folders.bundled))
        return kBundled + QDir(m_folders.bundled).relativeFilePath(path);
    return path;
}

QString ClassLibrary::pathOf(const QString& key) const
{
    if (key.startsWith(kOwn))
        return QDir::cleanPath(QDir(m_folders.own).absoluteFilePath(key.mid(kOwn.size())));
    if (key.startsWith(kBundled))
        return QDir::cleanPath(QDir(m_folders.bundled).absoluteFilePath(key.mid(kBundled.size())));
    return key;
}

QString ClassLibrary::keyOfTitle(const QString& title) const
{
    const auto called = [&](const ClassEntry& entry) { return entry.title == title; };
    const auto one = std::find_if(m_entries.begin(), m_entries.end(), called);
    if (one == m_entries.end() || std::count_if(m_entries.begin(), m_entries.end(), called) > 1)
        return QStringLiteral("title:") + title;
    return keyOf(one->path);
}

bool ClassLibrary::isBundled(const QString& path) const
{
    return isUnder(path, m_folders.bundled);
}

Result<void> ClassLibrary::ownOnly(const QString& path) const
{
    if (isBundled(path))
        return fail(
            "bundled",
            tr("This class comes with Voicehall and stays as it is. Make a copy of your own first.").toStdString());
    return {};
}

/// "Kite Hill" gives "Kite Hill 2", and that gives "Kite Hill 3".
QString ClassLibrary::nextTitle(const QString& title) const
{
    QString base = title;
    bool numbered = false;
    const QString last = title.section(QLatin1Char(' '), -1);
    if (last.toInt(&numbered) > 1 && numbered && last.size() < title.size())
        base.chop(last.size() + 1);
    const auto taken = [this](const QString& wanted) {
        return std::any_of(m_entries.begin(), m_entries.end(),
                           [&](const ClassEntry& entry) { return entry.title == wanted; });
    };
    int number = 2;
    while (taken(QStringLiteral("%1 %2").arg(base).arg(number)))
        ++number;
    const QString ending = QStringLiteral(" %1").arg(number);
    base.truncate(static_cast<qsizetype>(limits::kMaxTitle) - ending.size());
    return base + ending;
}

Result<QString> ClassLibrary::copy(const QString& path)
{
    const ClassEntry* entry = entryAt(path);
    auto copied = copyClass(path, m_folders.own, nextTitle(entry ? entry->title : QFileInfo(path).completeBaseName()));
    if (copied)
        written(*copied);
    return copied;
}

Result<QString> ClassLibrary::toWrite(const QString& path)
{
    if (!isBundled(path))
        return path;
    const ClassEntry* entry = entryAt(path);
    auto copied = copyClass(path, m_folders.own, entry ? entry->title : QFileInfo(path).completeBaseName());
    if (copied)
        written(*copied);
    return copied;
}

Result<void> ClassLibrary::rename(const QString& path, const QString& title)
{
    if (auto own = ownOnly(path); !own)
        return own;
    auto renamed = renameClass(path, title);
    if (renamed)
        written(path);
    return renamed;
}

Result<void> ClassLibrary::putAside(const QString& path)
{
    if (auto own = ownOnly(path); !own)
        return own;
    const ClassEntry* entry = entryAt(path);
    const QDir folder = QFileInfo(path).absoluteDir();
    QStringList shared;
    for (const ClassEntry& other : m_entries)
        if (other.path != path && QFileInfo(other.path).absoluteDir() == folder)
            shared << other.pictures;
    auto moved = write::putAside(path, m_folders.own, entry ? entry->pictures : QStringList(), shared);
    if (!moved)
        return tl::unexpected<Error>(moved.error());
    m_aside.push_back(std::move(*moved));
    written(path);
    return {};
}

Result<QString> ClassLibrary::putBack()
{
    if (m_aside.empty())
        return fail("nothing-aside", tr("Nothing has been put aside just now.").toStdString());
    const PutAside aside = m_aside.back();
    if (auto back = write::putBack(aside); !back)
        return tl::unexpected<Error>(back.error());
    m_aside.pop_back();
    written(aside.path);
    return aside.path;
}

void ClassLibrary::written(const QString& path)
{
    std::vector<ClassEntry> entries = m_entries;
    std::erase_if(entries, [&](const ClassEntry& entry) { return entry.path == path; });
    QFileInfo file(path);
    if (!file.exists())
        file.setFile(path + QLatin1String(kDraftEnding));
    if (file.exists() && (isUnder(path, m_folders.own) || isBundled(path)))
        entries.push_back(entryOf(path, file.size(), file.lastModified().toMSecsSinceEpoch(), isBundled(path)));
    become(std::move(entries));
    look(); // the index, and what the watcher is to watch
}

} // namespace vh::write
