#pragma once
// The calls for help that are not done and the lines that are lost, as messages bring them, with what was shown of
// contacts; what is said of each; when one rings, and when it fills the leader's screen. Oldest first; calls that
// nobody has taken stand before those that somebody looks after. Value without widgets; any one thread.
#include "app/people/call_list.h"
#include "app/people/call_screen.h"
#include "app/people/lost_list.h"
#include "common/live/help_watch.h"
#include "common/wire/to_client.h"

#include <map>
#include <set>

namespace vh
{

class CallBook
{
public:
    /// Whoever looks.
    void setOwn(PersonId person) { m_own = person; }
    /// True: it was one of those it keeps.
    bool take(const wire::ToClient& message);
    void take(const wire::Calls& message);
    void take(const wire::LostLines& message);
    void take(const wire::ContactShown& contact);
    /// A welcome: the relay sends everything unfinished anew.
    void clear();
    [[nodiscard]] std::size_t count() const { return m_calls.size(); }
    [[nodiscard]] CallList::State state(Instant relayNow) const;
    [[nodiscard]] LostList::State lost(Instant relayNow) const;

    /// The oldest call that nobody has taken for kCallFillsAfter, unless it was set aside.
    [[nodiscard]] std::optional<CallScreen::State> filled(Instant relayNow) const;
    /// She has seen it: it stands in the list, and rings no more for her.
    void setAside(std::uint64_t call) { m_aside.insert(call); }
    /// What is to be asked for the call that fills the screen; once for each.
    [[nodiscard]] std::optional<wire::ContactAsk> contactToAsk(Instant relayNow);
    /// One of them rings now. Asked as often as one likes; true once for each ring.
    [[nodiscard]] bool rings(RingsFor who, Instant relayNow);

private:
    [[nodiscard]] const wire::Call* fills(Instant relayNow) const;
    [[nodiscard]] CallList::Row rowOf(const wire::Call& call, Instant relayNow) const;
    [[nodiscard]] QString contactWords(const PersonId& person, Instant relayNow) const;
    void dropContacts();

    PersonId m_own;
    std::map<std::uint64_t, wire::Call> m_calls;
    std::vector<wire::LostLine> m_lost;
    std::map<PersonId, wire::ContactShown> m_contacts;
    std::set<std::uint64_t> m_aside;
    std::set<std::uint64_t> m_askedFor;
    std::map<std::uint64_t, std::int64_t> m_rung; ///< how often, by call
};

} // namespace vh
