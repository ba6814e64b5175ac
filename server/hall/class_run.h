#pragma once
// The open class of one hall: its frozen script, where it is (a ClassState of common/live, the one that counts), the
// clock that moves it, and which turns were lately on, so that a result that comes after its turn finds it. Decides
// nothing itself: common/live does. Thread: the hall's loop.
#include "common/live/class_lead.h"
#include "common/script/script.h"
#include "common/wire/to_client.h"
#include "server/net/loop.h"

#include <deque>
#include <functional>
#include <memory>

namespace vh::hall
{

class ClassRun
{
public:
    struct Turn {
        std::uint32_t serial = 0;
        TurnKind kind = TurnKind::listen;
        SectionKind section = SectionKind::opening;
        Millis length{0}; ///< with the time the leader has given it besides
        std::uint32_t sectionIndex = 0;
        bool moreVoice = false; ///< the round's
    };

    /// `changed` is called after every change of serial or of who leads and whether she is there.
    ClassRun(net::Loop& loop, const Clock& clock, std::function<void()> changed);

    /// `before`: what the class has been through, oldest first, when it comes back after a restart: results of turns
    /// that were over by then are still on their way.
    void open(wire::ClassOpen about, std::shared_ptr<const ClassScript> script, const ClassState& state,
              const std::vector<ClassState>& before = {});
    /// The class is over, or the hall is going. Its turns are still known: results may be on their way.
    void close();
    [[nodiscard]] bool isOpen() const { return m_script != nullptr; }

    [[nodiscard]] const wire::ClassOpen& about() const { return m_about; }
    [[nodiscard]] const ClassScript& script() const { return *m_script; }
    [[nodiscard]] const ClassState& state() const { return m_state; }
    /// A turn of this class, open or just over, that was lately on; null for any other.
    [[nodiscard]] const Turn* turnOf(const ClassId& id, std::uint32_t turnSerial) const;

    /// Does what the clock has due.
    void catchUp();
    Outcome lead(const Command& command);
    void leading(PersonId who, std::uint32_t lease);
    Outcome take(PersonId who, Role role);
    /// The leader's app has seen a later place than this hall, which has just come back, knows of.
    Outcome reassert(PersonId who, std::uint32_t lease, const Seen& seen);
    /// Goes on with a corrected script, if it fits, and with its parts.
    Outcome revise(const Revision& revision, const std::shared_ptr<const ClassScript>& script,
                   const std::vector<wire::Hash>& parts);

private:
    void become(const ClassState& state);
    void note(const ClassState& state);
    void wait();

    net::Loop& m_loop;
    const Clock& m_clock;
    std::function<void()> m_changed;
    wire::ClassOpen m_about;
    std::shared_ptr<const ClassScript> m_script;
    ClassState m_state;
    std::deque<Turn> m_turns; ///< oldest first, at most kTurnsKept
    net::Loop::Timer m_timer;
    static constexpr std::size_t kTurnsKept = 64;
};

} // namespace vh::hall
