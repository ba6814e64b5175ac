#pragma once
// The chorus's own helper and leader, who come by one-time links. The leader opens a class, starts it, lets the clock
// lead through it and says every second that she is there; where homes speak, so does she, with a voice of her own.
// Thread: the loop's.
#include "common/live/class_moves.h"
#include "common/wire/binary.h"
#include "demo/chorus/desk.h"
#include "demo/chorus/live_voice.h"

namespace vh::chorus
{

class HelperLine final : public Line
{
public:
    HelperLine(std::shared_ptr<Setting> setting, wire::Token token, DeskDuties duties, std::uint64_t seed);

private:
    void cameIn(const wire::Welcome& welcome) override;
    void heard(const wire::ToClient& message) override;
    void live(Instant at) override;

    Desk m_desk;
};

class LeaderLine final : public Line
{
public:
    LeaderLine(std::shared_ptr<Setting> setting, wire::Token token, DeskDuties duties, std::uint64_t seed);

    /// Publishes the script, opens a class on it and starts it, as soon as she is in. A class that is open already is
    /// taken as it is. False if the script is larger than the relay takes.
    bool lead(const ClassScript& script);
    void press(CommandKind command);
    /// Asks this person whether everybody may hear them.
    RequestId inviteToSpeak(PersonId person) { return ask(wire::InviteToSpeak{{}, person}); }
    /// How the last invitation ended, where it was not by this leader.
    [[nodiscard]] const std::optional<wire::InviteOver>& lastInviteOver() const { return m_inviteOver; }

    /// The join code, once in.
    [[nodiscard]] const std::string& code() const { return m_code; }
    [[nodiscard]] const std::optional<wire::PlaceNow>& place() const { return m_place; }
    [[nodiscard]] bool hasEnded() const { return m_place && m_place->phase == Phase::ended; }
    /// Of the class that has ended.
    [[nodiscard]] const std::optional<wire::Summary>& summary() const { return m_summary; }
    [[nodiscard]] const std::map<std::uint32_t, wire::SeatName>& seats() const { return m_seats; }
    /// By seat, as this leader's screen would show them.
    [[nodiscard]] const std::map<std::uint32_t, wire::RosterEntry>& roster() const { return m_roster; }

private:
    void cameIn(const wire::Welcome& welcome) override;
    void heard(const wire::ToClient& message) override;
    void heardBinary(std::span<const std::uint8_t> frame) override;
    void done(const wire::Ack& ack) override;
    void refused(const wire::Refused& refused) override;
    void live(Instant at) override;
    void follow(const wire::PlaceNow& place);
    void speak();

    Desk m_desk;
    std::string m_code;
    wire::OpenClass m_class; ///< to be opened once its script has been put
    std::optional<RequestId> m_putting;
    std::optional<RequestId> m_starting;
    bool m_leads = false; ///< has been told to
    std::optional<wire::PlaceNow> m_place;
    std::optional<wire::Summary> m_summary;
    std::optional<wire::InviteOver> m_inviteOver;
    Instant m_nextSign{};
    std::shared_ptr<const ClassScript> m_script;
    std::optional<LiveVoice> m_voice; ///< from the class's start to its end
    std::uint64_t m_seed;
    std::uint32_t m_turn = 0; ///< that she speaks in
    std::map<std::uint32_t, wire::SeatName> m_seats;
    std::map<std::uint32_t, wire::RosterEntry> m_roster;
};

} // namespace vh::chorus
