#include "server/store/statements.h"

namespace vh::store
{

std::span<const std::uint8_t> Query::blob(int column) const
{
    const SQLite::Column value = m_statement->getColumn(column);
    const auto* bytes = static_cast<const std::uint8_t*>(value.getBlob());
    return {bytes, bytes ? static_cast<std::size_t>(value.getBytes()) : 0};
}

Bytes Query::bytes(int column) const
{
    const auto stored = blob(column);
    return {stored.begin(), stored.end()};
}

SQLite::Statement& Statements::prepared(Sql sql)
{
    const auto known = m_prepared.find(sql.text);
    if (known != m_prepared.end())
        return known->second;
    return m_prepared.try_emplace(sql.text, m_database, sql.text).first->second;
}

void Statements::bind(SQLite::Statement& statement, int index, std::span<const std::uint8_t> value)
{
    // A null pointer would be bound as NULL; an empty value is a value.
    static constexpr std::uint8_t kNothing = 0;
    statement.bind(index, value.empty() ? &kNothing : value.data(), static_cast<int>(value.size()));
}

void Statements::dropUnusedPart(const Hash& part)
{
    exec("DELETE FROM parts WHERE hash = ?1"
         " AND NOT EXISTS (SELECT 1 FROM class_parts WHERE part = ?1)"
         " AND NOT EXISTS (SELECT 1 FROM handout_parts WHERE part = ?1)"
         " AND NOT EXISTS (SELECT 1 FROM classes WHERE script = ?1)"
         " AND NOT EXISTS (SELECT 1 FROM board WHERE picture = ?1)",
         part);
}

} // namespace vh::store
