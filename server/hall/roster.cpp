#include "server/hall/roster.h"

#include "server/hall/session.h"

namespace vh::hall
{

namespace
{
/// A line with more than this waiting is told later.
constexpr std::size_t kSlowLineBytes = 64 * 1024;
} // namespace

void Roster::add(Session& line, Viewer viewer, std::size_t seats)
{
    Line& added = m_lines[&line];
    added = {};
    added.viewer = viewer;
    for (std::size_t seat = 0; seat < seats; ++seat)
        touch(added, static_cast<std::uint16_t>(seat));
}

void Roster::remove(Session& line)
{
    m_lines.erase(&line);
}

void Roster::touch(std::uint16_t seat)
{
    for (auto& [session, line] : m_lines)
        touch(line, seat);
}

void Roster::touch(Line& line, std::uint16_t seat)
{
    if (line.isChanged.size() <= seat)
        line.isChanged.resize(seat + 1U);
    if (line.isChanged[seat])
        return;
    line.isChanged[seat] = true;
    line.changed.push_back(seat);
}

void Roster::letHelpersSee(bool see)
{
    if (std::exchange(m_helpersSee, see) == see)
        return;
    for (auto& [session, line] : m_lines)
        for (std::size_t seat = 0; line.viewer == Viewer::helper && seat < line.told.size(); ++seat)
            touch(line, static_cast<std::uint16_t>(seat));
}

void Roster::tell(const std::function<const Member*(std::uint16_t)>& memberAt)
{
    for (auto& [session, line] : m_lines) {
        net::Connection* connection = session->connection();
        if ((line.changed.empty() && !line.whole) || !connection ||
            connection->outgoing().privateBytes() > kSlowLineBytes)
            continue;
        wire::Roster roster;
        roster.whole = line.whole;
        for (const std::uint16_t seat : line.changed) {
            line.isChanged[seat] = false;
            const Member* member = memberAt(seat);
            if (!member)
                continue;
            const wire::RosterEntry entry = entryFor(line.viewer, *member);
            if (line.told.size() <= seat)
                line.told.resize(seat + 1U);
            if (line.told[seat] != entry)
                roster.entries.push_back(entry);
            line.told[seat] = entry;
        }
        line.changed.clear();
        if (!roster.entries.empty() || line.whole)
            connection->sendBinary(wire::encodeRoster(roster), connection->log() ? connection->log()->end() : 0);
        line.whole = false;
    }
}

wire::RosterEntry Roster::entryFor(Viewer viewer, const Member& member) const
{
    // Nothing to be seen is told as private, so that a level once agreed to leaves the screen when that is taken back.
    const bool hasLeave = viewer != Viewer::helper || m_helpersSee;
    const Standing standing = hasLeave
                                  ? standingFor(viewer, member.agreements, member.now()).value_or(Standing::private_)
                                  : Standing::private_;
    wire::RosterEntry entry;
    entry.seat = member.seat;
    entry.standing = standing;
    // A blank, the level and whether there is voice are readings: they go where the level goes, or nowhere.
    const bool levelHidden =
        standing == Standing::private_ || standing == Standing::away || standing == Standing::resting;
    if (levelHidden)
        return entry;
    entry.blank = member.judge.reason;
    if (member.reading && member.reading->voicedMs > 0) {
        entry.hasLevel = true;
        entry.overUsualDb = member.reading->leqOverUsualDb;
        entry.voicedNow = member.reading->nowOverUsualDb > -20;
    }
    return entry;
}

} // namespace vh::hall
