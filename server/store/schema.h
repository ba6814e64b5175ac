#pragma once
// The shape of the database, as numbered steps of SQL in one place (schema.cpp), and what became of bringing a file up
// to it. application_id marks the file as ours, user_version counts the steps done. A released step never changes; a
// new shape is a new step. What each table is for: docs/storage.md. Thread: whoever owns the connection.
#include <cstdint>
#include <span>
#include <string>

namespace SQLite
{
class Database;
}

namespace vh::store
{

enum class Opened : std::uint8_t {
    created,  ///< the file was absent or empty and is now a Voicehall store
    upgraded, ///< steps were missing and are done, all in one transaction
    current,  ///< nothing to do
    tooNew,   ///< written by a newer relay; untouched
    notOurs,  ///< a file, even a database, of something else; untouched
    damaged,  ///< ours, but SQLite's own check finds faults; untouched
    inUse,    ///< another relay holds it
    failed,   ///< could not be opened, read or written; the message says why
};
const char* nameOf(Opened outcome);

inline constexpr std::uint32_t kApplicationId = 0x5648414C; // "VHAL"

/// Step n brings version n to n + 1.
std::span<const char* const> schemaSteps();

struct Migration {
    Opened outcome = Opened::failed;
    std::string message;
};
/// Looks at an open file and does the steps it lacks. Throws nothing; on any failure the file is as it was.
Migration migrate(SQLite::Database& database, std::span<const char* const> steps);

} // namespace vh::store
