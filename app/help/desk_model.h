#pragma once
// What a helper's app knows: gathered from the relay's messages, shown as a DeskView for a moment of relay time. No
// widgets; any one thread. Movable: the lists stay where they are.
#include "app/help/desk_acts.h"
#include "app/help/desk_view.h"
#include "app/help/desk_words.h"
#include "app/people/call_book.h"
#include "common/script/script.h"

#include <memory>

namespace vh::help
{

class DeskModel
{
public:
    DeskModel();
    void take(const wire::ToClient& message, Instant now);
    void take(const wire::Roster& roster) { m_people->take(roster); }
    void setScript(std::shared_ptr<const ClassScript> script) { m_script = std::move(script); }
    enum class LineNow { connecting, up, lost, ended };
    void setLine(LineNow line, const QString& ending = {});
    /// A line to the helper that goes by itself after a while.
    void say(const QString& words, Instant now, NoticeLine::Tone tone = NoticeLine::Tone::heed);
    /// A name was noted by hand, and the relay has it.
    void attended(const QString& name) { m_byHand.push_back(name); }

    [[nodiscard]] DeskWords& words() { return m_words; }
    [[nodiscard]] const DeskWords& words() const { return m_words; }
    [[nodiscard]] PeopleModel& people() const { return *m_people; }
    /// What this helper has done, to be taken back.
    [[nodiscard]] DeskActs& acts() { return m_acts; }
    /// Sets the lists to this moment, too.
    [[nodiscard]] DeskView view(Instant now);
    [[nodiscard]] CallBook& calls() { return m_calls; }

private:
    void take(const wire::Welcome& welcome);
    void classIs(const std::optional<wire::ClassOpen>& open);
    void placeIs(const std::optional<wire::PlaceNow>& place);
    [[nodiscard]] NoticeLine::State notice(Instant now) const;
    [[nodiscard]] QString classLine() const;
    [[nodiscard]] QString placeLine() const;
    [[nodiscard]] DoorList::State door(Instant now) const;
    [[nodiscard]] QString hereWords() const;
    [[nodiscard]] QString cameWords() const;

    QString m_groupName;
    LineNow m_line = LineNow::connecting;
    QString m_ending;
    std::shared_ptr<const ClassScript> m_script;
    std::optional<wire::ClassOpen> m_open;
    std::optional<wire::PlaceNow> m_place;
    wire::VoiceState m_voice = wire::VoiceState::none; ///< of whoever leads
    DeskWords m_words;
    std::unique_ptr<PeopleModel> m_people;
    DeskActs m_acts;
    CallBook m_calls;
    wire::Door m_door;
    wire::Here m_here;
    bool m_boardOpen = false;
    std::vector<RowList::Row> m_done;
    QStringList m_byHand;
    QString m_said;
    NoticeLine::Tone m_saidAs = NoticeLine::Tone::heed;
    Instant m_saidAt{};
};

} // namespace vh::help
