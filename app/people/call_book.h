#pragma once
// The calls for help that are not done, as messages bring them, and what is said of each. Oldest first; calls that
// nobody has taken stand before those that somebody looks after. Value without widgets; any one thread.
#include "app/people/call_list.h"
#include "common/wire/to_client.h"

#include <map>

namespace vh
{

class CallBook
{
public:
    void take(const wire::Calls& message);
    /// A welcome: the relay sends every unfinished call anew.
    void clear() { m_calls.clear(); }
    [[nodiscard]] std::size_t count() const { return m_calls.size(); }
    /// `own`: the name by which the relay knows whoever looks.
    [[nodiscard]] CallList::State state(const std::string& own, Instant relayNow) const;

private:
    std::map<std::uint64_t, wire::Call> m_calls;
};

} // namespace vh
