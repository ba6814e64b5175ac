#pragma once
// One line of a client to the relay, as docs/protocol.md describes it: hello, coming in by code, one-time link or known
// key, waiting at the door, the relay's clock, coming back by itself after a loss (full jitter from 0.3 s), and
// requests that are done exactly once. What is said on the line belongs to the derived classes. Nothing here waits:
// beat() is called often and does what is due by the clock that was handed in. Thread: the loop's. Owned by shared_ptr;
// the network holds one too until the line has ended.
#include "common/base/backoff.h"
#include "common/base/clock_offset.h"
#include "common/wire/codec.h"
#include "common/wire/login_text.h"
#include "demo/chorus/outbox.h"
#include "demo/chorus/setting.h"

namespace vh::chorus
{

/// What a simulated home writes where people write "laptop". A chorus lets in only those who say so.
inline constexpr std::string_view kDeviceLabel = "simulated home";

struct Entry {
    std::string name;
    std::string code;                 ///< of the group, or
    std::optional<wire::Token> token; ///< of a one-time link
    Role role = Role::participant;    ///< as which the known key comes back
};

class Line : public net::ClientHandler, public std::enable_shared_from_this<Line>
{
public:
    Line(std::shared_ptr<Setting> setting, Entry entry, std::uint64_t seed);

    /// Comes, now.
    void start();
    void beat(Instant now);
    /// Ends the line without a word, as a pulled plug would, and comes back by itself.
    void drop();
    /// Says goodbye and stays away.
    void leave();

    [[nodiscard]] bool hasStarted() const { return m_started; }
    [[nodiscard]] bool isIn() const { return m_stage == Stage::in; }
    [[nodiscard]] bool hasBeenIn() const { return m_group.has_value(); }
    /// Turned away, removed, or gone by itself: does not come back.
    [[nodiscard]] bool isGone() const { return m_gone; }
    [[nodiscard]] bool hasOpenRequests() const { return !m_outbox.isEmpty(); }
    [[nodiscard]] std::uint32_t timesBack() const { return m_timesBack; }
    [[nodiscard]] const Entry& entry() const { return m_entry; }
    [[nodiscard]] PersonId person() const { return m_person; }
    [[nodiscard]] std::uint32_t seat() const { return m_seat; }
    [[nodiscard]] const ClockOffset& clockOffset() const { return m_offset; }

    /// Sends a request, and again after every loss, until it is answered.
    template <class Message>
    RequestId ask(Message message)
    {
        message.id = RequestId::random();
        request(message.id, wire::encode(message));
        return message.id;
    }
    /// Says something that is worth nothing later; nothing while the line is away.
    template <class Message>
    void say(const Message& message)
    {
        if (isIn())
            m_client->sendText(wire::encode(message));
    }

    void sayBinary(std::string_view frame)
    {
        if (isIn())
            m_client->sendBinary(frame);
    }

    void onOpen(net::WsClient& client) override;
    void onText(net::WsClient& client, std::string_view text) override;
    void onBinary(net::WsClient& client, std::span<const std::uint8_t> bytes) override;
    void onClosed(net::WsClient& client, wire::CloseCode code, std::string_view reason) override;

protected:
    /// At every coming in, and whenever the relay tells everything anew.
    virtual void cameIn(const wire::Welcome& /*welcome*/) {}
    virtual void heard(const wire::ToClient& /*message*/) {}
    virtual void heardBinary(std::span<const std::uint8_t> /*frame*/) {}
    virtual void done(const wire::Ack& /*ack*/) {}
    virtual void refused(const wire::Refused& /*refused*/) {}
    /// As often as beat(), while in.
    virtual void live(Instant /*now*/) {}

    [[nodiscard]] Setting& setting() const { return *m_setting; }
    [[nodiscard]] const std::shared_ptr<Setting>& sharedSetting() const { return m_setting; }
    [[nodiscard]] Totals& totals() const { return m_setting->totals; }
    [[nodiscard]] Instant now() const { return m_setting->clock.now(); }
    /// The relay's clock, as near as it is known.
    [[nodiscard]] Instant relayTime(Instant here) const;

private:
    enum class Stage : std::uint8_t { away, coming, atDoor, in };

    void request(RequestId id, std::string text);
    void connect();
    void ended(Instant at);
    void comeIn(const wire::Challenge& challenge);
    void welcomed(const wire::Welcome& welcome);
    void answer(const wire::Refused& refused);
    void askClock(Instant at);
    double random() { return static_cast<double>(nextDraw() >> 11U) * 0x1p-53; }
    std::uint64_t nextDraw();

    std::shared_ptr<Setting> m_setting;
    Entry m_entry;
    wire::KeyPair m_keys;
    std::uint64_t m_random;
    Stage m_stage = Stage::away;
    bool m_started = false;
    bool m_gone = false;
    bool m_everIn = false;
    std::uint32_t m_timesBack = 0;
    std::optional<GroupId> m_group; ///< known once in
    PersonId m_person;
    std::uint32_t m_seat = 0;
    std::optional<HallEpoch> m_epoch;
    std::optional<std::uint64_t> m_lastSeq;

    std::shared_ptr<net::WsClient> m_client; ///< null while away
    Backoff m_backoff;
    Instant m_nextTry{};
    Outbox m_outbox;
    Instant m_putOffUntil = Instant::max();
    ClockOffset m_offset;
    Millis m_firstOffset{0}; ///< until the first exchange
    std::uint32_t m_clockAsks = 0;
    Instant m_nextClockAsk{};
};

} // namespace vh::chorus
