#include "server/store/schema.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

namespace vh::store
{

namespace
{

std::int64_t number(SQLite::Database& database, const char* pragma)
{
    return database.execAndGet(pragma).getInt64();
}

/// SQLite's own check: "ok", or the first fault it finds.
std::string firstFault(SQLite::Database& database)
{
    SQLite::Statement check(database, "PRAGMA quick_check(1)");
    check.executeStep();
    return check.getColumn(0).getString();
}

void doSteps(SQLite::Database& database, std::span<const char* const> steps, std::size_t from)
{
    SQLite::Transaction all(database, SQLite::TransactionBehavior::IMMEDIATE);
    for (const char* step : steps.subspan(from))
        database.exec(step);
    database.exec("PRAGMA application_id = " + std::to_string(kApplicationId));
    database.exec("PRAGMA user_version = " + std::to_string(steps.size()));
    all.commit();
}

Migration look(SQLite::Database& database, std::span<const char* const> steps)
{
    const auto latest = static_cast<std::int64_t>(steps.size());
    const std::int64_t version = number(database, "PRAGMA user_version");
    const std::int64_t application = number(database, "PRAGMA application_id");
    const bool empty = number(database, "SELECT count(*) FROM sqlite_schema") == 0;
    if (empty && application == 0 && version == 0) {
        doSteps(database, steps, 0);
        return {Opened::created, "A new store was made."};
    }
    if (application != kApplicationId || version < 1)
        return {Opened::notOurs, "This database belongs to another program. Name another file."};
    if (version > latest)
        return {Opened::tooNew, "This store was written by a newer voicehall-relay (version " +
                                    std::to_string(version) + ", this one knows " + std::to_string(latest) +
                                    "). Start the newer one."};
    if (const std::string fault = firstFault(database); fault != "ok")
        return {Opened::damaged, "The store is damaged (" + fault + "). Put back the latest backup."};
    if (version == latest)
        return {Opened::current, "The store is up to date."};
    doSteps(database, steps, static_cast<std::size_t>(version));
    return {Opened::upgraded,
            "The store was brought from version " + std::to_string(version) + " to " + std::to_string(latest) + "."};
}

} // namespace

const char* nameOf(Opened outcome)
{
    switch (outcome) {
    case Opened::created:
        return "created";
    case Opened::upgraded:
        return "upgraded";
    case Opened::current:
        return "current";
    case Opened::tooNew:
        return "too-new";
    case Opened::notOurs:
        return "not-ours";
    case Opened::damaged:
        return "damaged";
    case Opened::inUse:
        return "in-use";
    case Opened::failed:
        return "failed";
    }
    return "failed";
}

Migration migrate(SQLite::Database& database, std::span<const char* const> steps)
{
    try {
        return look(database, steps);
    } catch (const SQLite::Exception& error) {
        if (error.getErrorCode() == SQLITE_NOTADB)
            return {Opened::notOurs, "This file is not a database. Name another file, or put back a backup."};
        if (error.getErrorCode() == SQLITE_CORRUPT)
            return {Opened::damaged, "The store is damaged. Put back the latest backup."};
        return {Opened::failed, std::string("The store could not be opened: ") + error.what() + "."};
    }
}

} // namespace vh::store
