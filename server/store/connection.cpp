#include "server/store/connection.h"

#include <fcntl.h>
#include <sqlite3.h>
#include <sys/file.h>
#include <unistd.h>

namespace vh::store
{

namespace
{

/// What the file holds is nobody else's business on a shared machine; SQLite gives its side files the same mode.
void makePrivate(const std::filesystem::path& file)
{
    const int descriptor = ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
    if (descriptor >= 0)
        ::close(descriptor);
}

void setUp(SQLite::Database& database)
{
    if (database.execAndGet("PRAGMA journal_mode = WAL").getString() != "wal")
        throw SQLite::Exception("the file system does not allow a write-ahead log");
    // Temporary files in memory: on the disk they would keep old page contents, out of secure_delete's reach.
    database.exec("PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON; PRAGMA secure_delete = ON;"
                  "PRAGMA temp_store = MEMORY");
}

} // namespace

FileLock::FileLock(const std::filesystem::path& database)
{
    std::filesystem::path path = database;
    path += ".lock";
    m_descriptor = ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
    if (m_descriptor < 0)
        return;
    if (::flock(m_descriptor, LOCK_EX | LOCK_NB) == 0)
        m_state = State::held;
    else if (errno == EWOULDBLOCK)
        m_state = State::heldByAnother;
}

FileLock::~FileLock()
{
    if (m_descriptor >= 0)
        ::close(m_descriptor);
}

Connection::Connection(std::unique_ptr<FileLock> lock, SQLite::Database database)
    : m_lock(std::move(lock)), m_database(std::move(database)), m_statements(m_database)
{
}

Connection::Opening Connection::open(const StoreOptions& options, std::span<const char* const> steps)
{
    std::unique_ptr<FileLock> lock;
    if (options.hold == StoreOptions::Hold::alone) {
        lock = std::make_unique<FileLock>(options.file);
        if (lock->state() == FileLock::State::heldByAnother)
            return {{Opened::inUse, "Another relay is using this store. Stop it first."}, nullptr};
        if (lock->state() == FileLock::State::failed)
            return {{Opened::failed, "The store's lock file cannot be made. Is the folder there, and writable?"},
                    nullptr};
    }
    try {
        if (options.vfs.empty())
            makePrivate(options.file);
        SQLite::Database database(options.file.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE,
                                  static_cast<int>(options.busyTimeout.count()), options.vfs);
        Migration result = migrate(database, steps);
        if (result.outcome != Opened::created && result.outcome != Opened::upgraded &&
            result.outcome != Opened::current)
            return {std::move(result), nullptr};
        setUp(database);
        std::unique_ptr<Connection> connection(new Connection(std::move(lock), std::move(database)));
        connection->truncateLog(); // an erasure that a crash cut off before its last act
        return {std::move(result), std::move(connection)};
    } catch (const SQLite::Exception& error) {
        return {{Opened::failed, std::string("The store could not be opened: ") + error.what() + "."}, nullptr};
    }
}

bool Connection::inTransaction()
{
    return sqlite3_get_autocommit(m_database.getHandle()) == 0;
}

bool Connection::truncateLog()
{
    SQLite::Statement checkpoint(m_database, "PRAGMA wal_checkpoint(TRUNCATE)");
    checkpoint.executeStep();
    return checkpoint.getColumn(0).getInt() == 0;
}

} // namespace vh::store
