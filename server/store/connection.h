#pragma once
// One open database file with everything set as the relay needs it, and the lock that keeps a second relay away.
// Thread: one at a time. Failure: open() says what it came to; everything else throws SQLite::Exception.
#include "server/store/schema.h"
#include "server/store/statements.h"
#include "server/store/store.h"

#include <memory>
#include <string>

namespace vh::store
{

/// Held from construction to destruction by flock() on FILE.lock: the system lets go of it when the process dies. A
/// file of its own, because closing a second descriptor of the database would drop SQLite's own locks.
class FileLock
{
public:
    enum class State : std::uint8_t { held, heldByAnother, failed };
    explicit FileLock(const std::filesystem::path& database);
    FileLock(const FileLock&) = delete;
    FileLock& operator=(const FileLock&) = delete;
    ~FileLock();
    [[nodiscard]] State state() const { return m_state; }

private:
    int m_descriptor = -1;
    State m_state = State::failed;
};

class Connection
{
public:
    struct Opening {
        Migration result;
        std::unique_ptr<Connection> connection; ///< for created, upgraded and current
    };
    static Opening open(const StoreOptions& options, std::span<const char* const> steps);

    Statements& statements() { return m_statements; }
    void exec(const char* sql) { m_database.exec(sql); }
    /// False once SQLite has rolled a transaction back by itself (disk full, read error).
    [[nodiscard]] bool inTransaction();
    /// Moves everything from the write-ahead log into the file and empties the log: after secure_delete has overwritten
    /// deleted rows in their pages, this is what removes the older copies of these pages. False: a reader (a backup)
    /// is in the way, try again later.
    bool truncateLog();

private:
    Connection(std::unique_ptr<FileLock> lock, SQLite::Database database);

    std::unique_ptr<FileLock> m_lock; // first: let go of last
    SQLite::Database m_database;
    Statements m_statements;
};

} // namespace vh::store
