#pragma once
// What a helper does, for chorus runs without one: lets simulated homes in at the door (nobody else), and if asked to
// tend the desk, lets lines through and answers calls for help, as slowly as a person would. Thread: its line's.
#include "demo/chorus/line.h"

#include <set>
#include <vector>

namespace vh::chorus
{

struct DeskDuties {
    bool letsIn = false;
    bool tends = false;
};

class Desk
{
public:
    Desk(Line& line, DeskDuties duties) : m_line(line), m_duties(duties) {}

    void heard(const wire::ToClient& message, Instant at);
    void beat(Instant at);
    /// The line is new: everything is told again.
    void forget();

private:
    enum class What : std::uint8_t { show, take, close };
    struct Due {
        Instant at{};
        What what = What::show;
        std::uint64_t number = 0;
        std::uint64_t change = 0; ///< of the line when it was read
    };
    void forgetCall(std::uint64_t call);

    Line& m_line; ///< owns this
    DeskDuties m_duties;
    std::set<std::uint64_t> m_letIn;
    std::set<std::uint64_t> m_calls; ///< somebody is looking after these
    std::vector<Due> m_due;
};

} // namespace vh::chorus
