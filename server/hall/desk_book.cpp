#include "server/hall/desk_book.h"

#include "server/store/tables.h"

namespace vh::hall
{

using store::BoardState;

namespace
{
bool isDealtWith(const store::BoardRow& row)
{
    return row.state == BoardState::setAside || row.state == BoardState::seenTo;
}
} // namespace

void DeskBook::take(const store::BoardRow& row)
{
    if (row.state != BoardState::goingUp)
        m_onTheWay.erase(row.id);
    const bool theirs = row.kind == store::BoardKind::chat || row.kind == store::BoardKind::picture;
    if (theirs && row.state != BoardState::shown)
        m_rows[row.id] = row;
    else
        m_rows.erase(row.id);
}

const store::BoardRow* DeskBook::row(std::int64_t item) const
{
    const auto found = m_rows.find(item);
    return found == m_rows.end() ? nullptr : &found->second;
}

void DeskBook::forget(Instant now)
{
    std::erase_if(m_rows, [&](const auto& each) {
        const store::BoardRow& row = each.second;
        return isDealtWith(row) && row.decidedAt.value_or(row.at) + store::Board::kUndoable < now;
    });
}

std::vector<std::int64_t> DeskBook::startGoingUp(Instant now)
{
    std::vector<std::int64_t> due;
    for (const auto& [id, row] : m_rows)
        if (row.state == BoardState::goingUp && row.due.value_or(row.at) <= now && m_onTheWay.insert(id).second)
            due.push_back(id);
    return due;
}

std::optional<Instant> DeskBook::nextDue() const
{
    std::optional<Instant> next;
    for (const auto& [id, row] : m_rows)
        if (row.state == BoardState::goingUp && row.due && !m_onTheWay.contains(id) && (!next || *row.due < *next))
            next = row.due;
    return next;
}

bool DeskBook::claim(std::int64_t item, Session* reader, const std::string& name)
{
    return m_rows.contains(item) && m_claims.try_emplace(item, Claim{reader, name}).second;
}

bool DeskBook::release(std::int64_t item)
{
    return m_claims.erase(item) > 0;
}

bool DeskBook::release(std::int64_t item, const Session* reader)
{
    const auto found = m_claims.find(item);
    return found != m_claims.end() && found->second.reader == reader && release(item);
}

std::vector<std::int64_t> DeskBook::releaseAll(const Session* reader)
{
    std::vector<std::int64_t> released;
    for (const auto& [item, claim] : m_claims)
        if (claim.reader == reader)
            released.push_back(item);
    for (const std::int64_t item : released)
        m_claims.erase(item);
    return released;
}

std::vector<std::pair<std::int64_t, std::string>> DeskBook::claims() const
{
    std::vector<std::pair<std::int64_t, std::string>> all;
    for (const auto& [item, claim] : m_claims)
        all.emplace_back(item, claim.name);
    return all;
}

} // namespace vh::hall
