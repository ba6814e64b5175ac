#pragma once
// Who sees how people stand: for every leader and helper line, which seats have changed since they were last told. A
// line that is slow is told later and at once, not twice: nothing queues up and no change is lost. What
// looks the same to a line as before is not sent to it: a helper does not learn when others share something. Levels go
// only to whom each person agreed (common/live/share.h), and to helpers with the leader's leave besides. Thread: the
// hall's loop.
#include "common/wire/binary.h"
#include "server/hall/member.h"

#include <functional>
#include <unordered_map>

namespace vh::hall
{

class Roster
{
public:
    /// Viewer's line and how it sees people.
    void add(Session& line, Viewer viewer, std::size_t seats);
    void remove(Session& line);
    void touch(std::uint16_t seat);
    /// The leader's leave: without it helpers see nobody's.
    void letHelpersSee(bool see);
    [[nodiscard]] bool isEmpty() const { return m_lines.empty(); }

    /// Sends every line what changed since last time; called four times a second.
    void tell(const std::function<const Member*(std::uint16_t seat)>& memberAt);

    /// What this viewer may know of this person; public for the tests of who sees what.
    [[nodiscard]] wire::RosterEntry entryFor(Viewer viewer, const Member& member) const;

private:
    struct Line {
        Viewer viewer = Viewer::helper;
        bool whole = true; ///< nothing has been sent yet
        std::vector<std::uint16_t> changed;
        std::vector<bool> isChanged;                        ///< by seat
        std::vector<std::optional<wire::RosterEntry>> told; ///< by seat: what this line was last sent
    };
    void touch(Line& line, std::uint16_t seat);

    std::unordered_map<Session*, Line> m_lines;
    bool m_helpersSee = false;
};

} // namespace vh::hall
