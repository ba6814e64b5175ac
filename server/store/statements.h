#pragma once
// Prepared statements by their SQL text, prepared on first use and kept; arguments bound and columns read by type.
// Thread: the one that owns the connection. Failure: SQLite::Exception, which ends the job (tables.h). For the table
// classes only; nothing outside server/store includes this.
#include "server/store/rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <span>
#include <type_traits>
#include <unordered_map>
#include <utility>

namespace vh::store
{

/// A string literal, and nothing else: statements are kept by its address, and no SQL is ever put together at run time.
struct Sql {
    const char* text;
    // NOLINTNEXTLINE(google-explicit-constructor): a literal is meant to be passed as it is
    consteval Sql(const char* literal) : text(literal) {}
};

/// One run of a statement; it is free again when this goes.
class Query
{
public:
    explicit Query(SQLite::Statement& statement) : m_statement(&statement) {}
    Query(const Query&) = delete;
    Query& operator=(const Query&) = delete;
    Query(Query&& other) noexcept : m_statement(std::exchange(other.m_statement, nullptr)) {}
    Query& operator=(Query&&) = delete;
    ~Query()
    {
        if (m_statement) {
            m_statement->tryReset();
            m_statement->clearBindings();
        }
    }

    /// The next row, if there is one.
    bool step() { return m_statement->executeStep(); }

    [[nodiscard]] bool isNull(int column) const { return m_statement->isColumnNull(column); }
    [[nodiscard]] std::int64_t number(int column) const { return m_statement->getColumn(column).getInt64(); }
    [[nodiscard]] std::string text(int column) const { return m_statement->getColumn(column).getString(); }
    [[nodiscard]] Instant instant(int column) const { return Instant{Millis{number(column)}}; }
    [[nodiscard]] Bytes bytes(int column) const;
    /// 16 or 32 bytes; all zero for NULL.
    template <std::size_t size>
    [[nodiscard]] std::array<std::uint8_t, size> array(int column) const
    {
        std::array<std::uint8_t, size> value{};
        const auto stored = blob(column);
        if (stored.size() == size)
            std::copy(stored.begin(), stored.end(), value.begin());
        return value;
    }
    template <class AnId>
    [[nodiscard]] AnId id(int column) const
    {
        return AnId{Bits128{array<16>(column)}};
    }
    template <class Enum>
    [[nodiscard]] Enum value(int column) const
    {
        return static_cast<Enum>(number(column));
    }
    [[nodiscard]] std::optional<Instant> maybeInstant(int column) const
    {
        return isNull(column) ? std::nullopt : std::optional(instant(column));
    }
    [[nodiscard]] std::optional<std::int64_t> maybeNumber(int column) const
    {
        return isNull(column) ? std::nullopt : std::optional(number(column));
    }
    [[nodiscard]] std::optional<Hash> maybeHash(int column) const
    {
        return isNull(column) ? std::nullopt : std::optional(array<32>(column));
    }
    template <class AnId>
    [[nodiscard]] std::optional<AnId> maybeId(int column) const
    {
        return isNull(column) ? std::nullopt : std::optional(id<AnId>(column));
    }

private:
    [[nodiscard]] std::span<const std::uint8_t> blob(int column) const;
    SQLite::Statement* m_statement;
};

class Statements
{
public:
    explicit Statements(SQLite::Database& database) : m_database(database) {}

    template <class... Arguments>
    Query query(Sql sql, const Arguments&... arguments)
    {
        SQLite::Statement& statement = prepared(sql);
        int index = 0;
        (bind(statement, ++index, arguments), ...);
        return Query(statement);
    }
    /// For statements without rows; gives the number of rows it changed.
    template <class... Arguments>
    int exec(Sql sql, const Arguments&... arguments)
    {
        auto running = query(sql, arguments...);
        running.step();
        return m_database.getChanges();
    }
    /// Every row of a query, each made by `read`.
    template <class Read, class... Arguments>
    auto rows(Read read, Sql sql, const Arguments&... arguments)
    {
        std::vector<std::invoke_result_t<Read, const Query&>> found;
        auto running = query(sql, arguments...);
        while (running.step())
            found.push_back(read(running));
        return found;
    }
    /// The first row, if there is one.
    template <class Read, class... Arguments>
    auto row(Read read, Sql sql, const Arguments&... arguments)
        -> std::optional<std::invoke_result_t<Read, const Query&>>
    {
        auto running = query(sql, arguments...);
        if (!running.step())
            return std::nullopt;
        return read(running);
    }
    template <class... Arguments>
    bool exists(Sql sql, const Arguments&... arguments)
    {
        return query(sql, arguments...).step();
    }
    [[nodiscard]] std::int64_t lastId() const { return m_database.getLastInsertRowid(); }

    /// A part that no class, handout or item has any more goes.
    void dropUnusedPart(const Hash& part);

    /// Something was deleted that must not be found in the file again: the writer truncates the log after the COMMIT.
    void noteErased() { m_erased = true; }
    [[nodiscard]] bool erased() const { return m_erased; }
    void erasedForGood() { m_erased = false; }

private:
    SQLite::Statement& prepared(Sql sql);

    static void bind(SQLite::Statement& statement, int index, std::int64_t value) { statement.bind(index, value); }
    static void bind(SQLite::Statement& statement, int index, int value) { statement.bind(index, value); }
    static void bind(SQLite::Statement& statement, int index, const std::string& value)
    {
        statement.bind(index, value);
    }
    static void bind(SQLite::Statement& statement, int index, std::span<const std::uint8_t> value);
    static void bind(SQLite::Statement& statement, int index, const Hash& value)
    {
        bind(statement, index, std::span(value));
    }
    static void bind(SQLite::Statement& statement, int index, const Bytes& value)
    {
        bind(statement, index, std::span(value));
    }
    static void bind(SQLite::Statement& statement, int index, Instant value)
    {
        statement.bind(index, static_cast<std::int64_t>(value.time_since_epoch().count()));
    }
    template <class Tag>
    static void bind(SQLite::Statement& statement, int index, const Id<Tag>& value)
    {
        bind(statement, index, std::span<const std::uint8_t>(value.bits.bytes));
    }
    template <class Enum>
    requires std::is_enum_v<Enum>
    static void bind(SQLite::Statement& statement, int index, Enum value)
    {
        statement.bind(index, static_cast<int>(value));
    }
    template <class T>
    static void bind(SQLite::Statement& statement, int index, const std::optional<T>& value)
    {
        if (value)
            bind(statement, index, *value);
        else
            statement.bind(index);
    }

    SQLite::Database& m_database;
    std::unordered_map<const char*, SQLite::Statement> m_prepared;
    bool m_erased = false;
};

} // namespace vh::store
