#pragma once
// What a leader's (or stand-in's) app knows: gathered from the relay's messages and her own actions, and shown as a
// LeadView for a moment of relay time. Decides nothing about the class; says which presses make sense and with which
// serial and lease they go out. Value without widgets; any one thread.
#include "app/lead/class_changes.h"
#include "app/lead/desk_news.h"
#include "app/lead/hall_model.h"
#include "app/lead/lead_view.h"
#include "app/people/call_book.h"
#include "common/live/class_moves.h"

#include <functional>
#include <memory>

namespace vh::lead
{

/// How much time one press gives.
inline constexpr Millis kMoreByOnePress{10'000};

class LeadModel
{
public:
    /// What the relay says; everything else is left alone. Returns what must be said to it at once, if anything: after
    /// a restart of the relay the place that was seen last.
    std::optional<wire::Reassert> take(const wire::ToClient& message, Instant now);
    void take(const wire::Roster& roster) { m_hall.take(roster); }
    void setScript(std::shared_ptr<const ClassScript> script);
    enum class LineNow { connecting, up, lost, ended };
    void setLine(LineNow line, const QString& ending = {});
    void setFourWords(const QString& words) { m_way.words = words; }
    void setLink(const QString& link) { m_way.link = link; }
    void setInvite(Role role, const QString& link);
    void setOwnLevel(const LevelBar::State& level) { m_level = level; }
    /// Which way her voice goes, and whether it is open.
    [[nodiscard]] OwnVoice& voice() { return m_voice; }
    [[nodiscard]] const OwnVoice& voice() const { return m_voice; }
    void choose(VoiceWay way);
    void setRecording(const QString& name, bool plays) { m_recording = name, m_plays = plays; }
    /// People speak alone now: neither bell nor recording.
    [[nodiscard]] bool isYours() const;
    [[nodiscard]] bool isUp() const { return m_line == LineNow::up; }
    struct GroupWindowNow {
        bool shown = false;
        bool fills = false;        ///< its display
        bool otherDisplay = false; ///< there is one to move it to
    };
    void setGroupWindow(const GroupWindowNow& window) { m_groupWindow = window; }
    /// None: the check is closed.
    void setSoundCheck(const std::optional<SoundCheckView>& check) { m_soundCheck = check; }
    /// The people: what she opens, sends, moves and covers.
    [[nodiscard]] HallModel& hall() { return m_hall; }
    /// What the helpers' desk has for her (lead_model_desk.cpp).
    [[nodiscard]] DeskNews& desk() { return m_desk; }
    /// The sheet of the desk, or the one for changes: one at a time.
    void showDesk(DeskRequest::Kind kind);
    /// The class has gone on: what waited for that takes its place.
    void followDesk(Instant now);
    [[nodiscard]] CallBook& calls() { return m_calls; }
    [[nodiscard]] DeskNews::Turn turnNow() const;
    /// A line to her that goes by itself after a while.
    void say(const QString& words, Instant now);
    /// "End" was pressed. True: it was the second time, and the class is to end.
    bool pressEnd(Instant now);
    /// Any other press takes the first press of "End" back.
    void forgetEnd() { m_endArmedAt.reset(); }
    /// She has read the summary.
    void leaveSummary();

    /// The press as it goes out, with what she has seen; nothing when it cannot mean anything now (then say() was
    /// called if she should hear why).
    std::optional<wire::Lead> press(CommandKind command, Instant now);
    /// Of the press that went out last.
    [[nodiscard]] unsigned pressNumber() const { return m_presses; }
    /// The relay has answered the press of this number; `error` is null when it was done.
    void pressAnswered(unsigned number, const Error* error, Instant now);
    // What is changed in mid-class (lead_model_changes.cpp). Presses as above.
    /// All but corrections: a press, if one is to go out, or the sheet that is asked for.
    std::optional<wire::Lead> change(const ChangeRequest& request, Instant now);
    /// Opens, or closes, the sheet that is asked for, where she may change something.
    void showChanges(const ChangeRequest& request, Instant now);
    /// The class has gone on: a sheet that is open goes with it.
    void followChanges(Instant now);
    [[nodiscard]] ChangesView changes() const;
    /// The file that the class was opened from is at hand.
    void setHasFile(bool has) { m_hasFile = has; }
    std::optional<wire::Lead> jumpTo(StepAt step, Instant now);
    /// Ten seconds more for this turn; presses while one is under way are added up, and go out afterwards.
    std::optional<wire::Lead> moreTime(Instant now);
    std::optional<wire::Lead> moreThatWaited(Instant now);
    std::optional<wire::Lead> agreeToTrim(Instant now);
    std::optional<wire::Lead> putBack(Instant now);
    void correctionGoesOut();
    void correctionAnswered(const Error* error, Instant now);

    [[nodiscard]] bool holdsPlace() const;
    [[nodiscard]] std::uint32_t lease() const { return m_place ? m_place->lease : 0; }
    [[nodiscard]] const std::optional<wire::PlaceNow>& place() const { return m_place; }
    [[nodiscard]] Role role() const { return m_role; }
    [[nodiscard]] Stage stage() const;
    [[nodiscard]] const std::string& ownName() const { return m_name; }

    /// `pictureOf`: the picture of a step, null until it has come.
    [[nodiscard]] LeadView view(Instant now, const ChoiceView& choice,
                                const std::function<QImage(const std::string&)>& pictureOf) const;

private:
    std::optional<wire::Reassert> takeWelcome(const wire::Welcome& welcome);
    void noteSection();
    void noteVoice();
    [[nodiscard]] VoiceView voiceView() const;
    void openNow(const wire::ClassOpen& open);
    void placeNow(const wire::PlaceNow& place);
    [[nodiscard]] Column column(const TurnAt& at, Instant now) const;
    [[nodiscard]] ScriptRail::State rail(Instant now) const;
    [[nodiscard]] QStringList clock(Instant now) const;
    void showPeople(LeadView& view, Instant now) const;
    [[nodiscard]] ClassSheet::State group(const std::function<QImage(const std::string&)>& pictureOf) const;
    [[nodiscard]] SummaryView summary() const;
    /// The class as the relay has it, as far as a place says.
    [[nodiscard]] ClassState mirrored() const;
    [[nodiscard]] bool mayChange() const;
    [[nodiscard]] NoticeLine::State notice(Instant now) const;
    [[nodiscard]] Hold hold() const;
    [[nodiscard]] QString holder() const;
    [[nodiscard]] DoorList::State door(Instant now) const;

    Role m_role = Role::leader;
    PersonId m_person;
    std::string m_name;
    QString m_groupName;
    LineNow m_line = LineNow::connecting;
    QString m_ending;
    std::shared_ptr<const ClassScript> m_script;
    std::optional<wire::ClassOpen> m_open;
    std::optional<wire::PlaceNow> m_place;
    std::optional<wire::LeaseNow> m_leaseNow;
    /// Seen when the class began, if she was there then.
    std::optional<Instant> m_startedAt;
    std::optional<wire::Summary> m_summary;
    struct Pressed {
        CommandKind command = CommandKind::goOn;
        std::uint32_t serial = 0;
    };
    unsigned m_presses = 0;           ///< that have gone out
    std::optional<Pressed> m_pressed; ///< and not answered yet
    int m_moreWaiting = 0;            ///< presses for more time while one was under way
    ClassChanges m_changes;
    bool m_hasFile = false;
    std::uint32_t m_here = 0;
    std::uint32_t m_helpers = 0;
    HallModel m_hall;
    CallBook m_calls;
    DeskNews m_desk;
    QString m_whomToRing; ///< when nobody is there to help
    wire::Door m_door;
    WayIn m_way;
    LevelBar::State m_level;
    OwnVoice m_voice;
    QString m_recording;
    bool m_plays = false;
    QString m_said;
    Instant m_saidAt{};
    std::optional<Instant> m_endArmedAt;
    GroupWindowNow m_groupWindow;
    std::optional<SoundCheckView> m_soundCheck;
};

} // namespace vh::lead
