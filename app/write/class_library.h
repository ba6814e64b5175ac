#pragma once
// All classes there are: those that come with the program, which are never changed, and those in the leader's own
// folder (and folders in it). Files are read in the background: what is known from the index shows at once, new and
// changed files follow. A file that is no class is listed with its mistakes. GUI thread; owns its background work and
// waits for it when it goes.
#include "app/write/class_entry.h"
#include "app/write/class_files.h"
#include "app/write/class_search.h"

#include <QFileSystemWatcher>
#include <QFutureWatcher>
#include <QTimer>

namespace vh::write
{

struct LibraryFolders {
    QString bundled; ///< empty: none come with the program
    QString own;     ///< made when the first class is written into it
    QString index;   ///< the index file; empty: none is kept
};

class ClassLibrary : public QObject
{
    Q_OBJECT
public:
    explicit ClassLibrary(LibraryFolders folders, QObject* parent = nullptr);
    ~ClassLibrary() override;

    /// Looks at the folders; again, when it has been called before. Also called by itself when a folder has changed.
    void look();
    /// Every file that was there has been read.
    [[nodiscard]] bool isSettled() const { return m_settled; }

    /// By title.
    [[nodiscard]] const std::vector<ClassEntry>& entries() const { return m_entries; }
    [[nodiscard]] std::vector<Found> found(const QString& query) const { return write::found(m_entries, query); }
    /// Null where there is no such file.
    [[nodiscard]] const ClassEntry* entryAt(const QString& path) const;
    [[nodiscard]] const LibraryFolders& folders() const { return m_folders; }

    /// How a class is named in files of other things (the days): it stays the same when the folders move.
    /// "own:kite-hill.yaml", "bundled:kite-hill.yaml", or the path.
    [[nodiscard]] QString keyOf(const QString& path) const;
    [[nodiscard]] QString pathOf(const QString& key) const;
    /// Of a class that is known by its title alone; "title:..." where none, or no single one, is called that.
    [[nodiscard]] QString keyOfTitle(const QString& title) const;

    /// Where a new class of this title would be written.
    [[nodiscard]] QString newPath(const QString& title) const { return freePath(m_folders.own, slugOf(title)); }
    /// A copy among the leader's own, with its pictures and the next free title ("Kite Hill 2").
    Result<QString> copy(const QString& path);
    /// The class itself where it is the leader's own; a copy with the same title where it came with the program.
    Result<QString> toWrite(const QString& path);
    Result<void> rename(const QString& path, const QString& title);
    /// Moved, not deleted; the last one can be put back.
    Result<void> putAside(const QString& path);
    [[nodiscard]] bool canPutBack() const { return !m_aside.empty(); }
    /// Its path.
    Result<QString> putBack();
    /// A file has been written by somebody else in the program: read it at once.
    void written(const QString& path);

signals:
    /// Entries have come, changed or gone.
    void changed();
    /// isSettled() from now on.
    void settled();

private:
    void begin();
    void take(int number, const std::vector<ClassEntry>& batch);
    void become(std::vector<ClassEntry> entries);
    void finish();
    [[nodiscard]] QString nextTitle(const QString& title) const;
    [[nodiscard]] bool isBundled(const QString& path) const;
    Result<void> ownOnly(const QString& path) const;

    LibraryFolders m_folders;
    std::vector<ClassEntry> m_entries;
    std::vector<PutAside> m_aside; ///< last one last
    bool m_settled = false;
    bool m_again = false; ///< something happened while the folders were being looked at
    bool m_readIndex = false;
    QFutureWatcher<std::vector<ClassEntry>> m_work;
    QFileSystemWatcher m_watcher;
    QTimer m_soon; ///< several changes at once are one
};

} // namespace vh::write
