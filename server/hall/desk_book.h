#pragma once
// What the desk has in hand, in memory: the items as the store last wrote them, which of them are due on the board, and
// who is reading which. Value; the hall's loop.
#include "common/base/clock.h"
#include "server/store/rows.h"

#include <map>
#include <set>
#include <vector>

namespace vh::hall
{

class Session;

class DeskBook
{
public:
    /// As it is now. What is on the board, or of no kind that a desk deals with, is kept no longer.
    void take(const store::BoardRow& row);
    [[nodiscard]] const std::map<std::int64_t, store::BoardRow>& rows() const { return m_rows; }
    [[nodiscard]] const store::BoardRow* row(std::int64_t item) const;
    /// What was dealt with and can be undone no longer goes.
    void forget(Instant now);

    /// Items that are due on the board and not on their way there: they are now.
    std::vector<std::int64_t> startGoingUp(Instant now);
    /// It did not get there: it is due again.
    void stayed(std::int64_t item) { m_onTheWay.erase(item); }
    [[nodiscard]] std::optional<Instant> nextDue() const;

    /// True if it changes who reads what.
    bool claim(std::int64_t item, Session* reader, const std::string& name);
    bool release(std::int64_t item);
    bool release(std::int64_t item, const Session* reader);
    /// All that somebody was reading.
    std::vector<std::int64_t> releaseAll(const Session* reader);
    [[nodiscard]] std::vector<std::pair<std::int64_t, std::string>> claims() const;

private:
    struct Claim {
        Session* reader = nullptr;
        std::string name;
    };
    std::map<std::int64_t, store::BoardRow> m_rows;
    std::set<std::int64_t> m_onTheWay;
    std::map<std::int64_t, Claim> m_claims;
};

} // namespace vh::hall
