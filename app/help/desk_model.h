#pragma once
// What a helper's app knows: gathered from the relay's messages, shown as a DeskView for a moment of relay time. Value
// without widgets; any one thread.
#include "app/help/desk_view.h"
#include "app/people/call_book.h"
#include "app/people/seat_book.h"
#include "common/script/script.h"

#include <deque>
#include <map>
#include <memory>

namespace vh::help
{

class DeskModel
{
public:
    void take(const wire::ToClient& message, Instant now);
    void setScript(std::shared_ptr<const ClassScript> script) { m_script = std::move(script); }
    enum class LineNow { connecting, up, lost, ended };
    void setLine(LineNow line, const QString& ending = {});
    /// A line to the helper that goes by itself after a while.
    void say(const QString& words, Instant now);
    /// A name was noted by hand, and the relay has it.
    void attended(const QString& name) { m_byHand.push_back(name); }

    /// What is asked for an item as it was last seen; nothing for one that is no longer to read.
    [[nodiscard]] std::optional<wire::Decide> decide(std::uint64_t item, wire::Decision decision) const;
    [[nodiscard]] DeskView view(Instant now) const;
    [[nodiscard]] CallBook& calls() { return m_calls; }

private:
    void take(const wire::Welcome& welcome);
    void addToBoard(const wire::BoardItem& item);
    [[nodiscard]] NoticeLine::State notice(Instant now) const;
    [[nodiscard]] QString classLine() const;
    [[nodiscard]] QString placeLine() const;

    QString m_groupName;
    LineNow m_line = LineNow::connecting;
    QString m_ending;
    std::shared_ptr<const ClassScript> m_script;
    std::optional<wire::ClassOpen> m_open;
    std::optional<wire::PlaceNow> m_place;
    wire::VoiceState m_voice = wire::VoiceState::none; ///< of whoever leads
    std::map<std::uint64_t, wire::DeskItem> m_toRead;  ///< by item: oldest first
    std::deque<wire::BoardItem> m_board;
    CallBook m_calls;
    SeatBook m_seats;
    wire::Door m_door;
    std::uint32_t m_here = 0;
    QStringList m_byHand;
    QString m_said;
    Instant m_saidAt{};
};

} // namespace vh::help
