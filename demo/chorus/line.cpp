#include "demo/chorus/line.h"

#include "common/wire/close_codes.h"
#include "demo/chorus/seeded.h"

namespace vh::chorus
{

namespace
{

template <class... Fs>
struct Overloaded : Fs... {
    using Fs::operator()...;
};
template <class... Fs>
Overloaded(Fs...) -> Overloaded<Fs...>; // clang 14 cannot deduce aggregates

/// The first eight exchanges fill the filter; after that clocks drift slowly.
constexpr Millis kFirstClockAsks{250};
constexpr Millis kLaterClockAsks{10'000};
constexpr Millis kBusyWait{500};

bool isForGood(wire::CloseCode code)
{
    return code == wire::kCloseAnotherDevice || code == wire::kCloseRevoked || code == wire::kCloseTurnedAway ||
           code == wire::kCloseNotKnown;
}

} // namespace

Line::Line(std::shared_ptr<Setting> setting, Entry entry, std::uint64_t seed)
    : m_setting(std::move(setting)), m_entry(std::move(entry)), m_keys(wire::makeKeyPair()), m_random(seed)
{
}

std::uint64_t Line::nextDraw()
{
    return nextNumber(m_random);
}

void Line::start()
{
    m_started = true;
    connect();
}

void Line::connect()
{
    m_stage = Stage::coming;
    m_client = net::WsClient::connect(m_setting->loop, m_setting->relay, shared_from_this());
}

void Line::beat(Instant at)
{
    if (!m_started || m_gone)
        return;
    if (m_stage == Stage::away && at >= m_nextTry)
        return connect();
    if (m_stage != Stage::in)
        return;
    if (at >= m_nextClockAsk)
        askClock(at);
    if (at >= m_putOffUntil) {
        m_putOffUntil = Instant::max();
        totals().sentAgain += m_outbox.sendPutOff([this](const std::string& text) { m_client->sendText(text); });
    }
    live(at);
}

void Line::drop()
{
    if (!m_client)
        return;
    // What the network still tells of the old client is no longer ours.
    const auto client = std::exchange(m_client, nullptr);
    client->drop();
    ended(now());
}

void Line::leave()
{
    m_gone = true;
    if (!m_client)
        return;
    const bool in = isIn();
    say(wire::Bye{}); // to which the relay answers by closing the line
    const auto client = std::exchange(m_client, nullptr);
    m_stage = Stage::away;
    if (!in)
        client->drop();
}

void Line::ended(Instant at)
{
    if (std::exchange(m_stage, Stage::away) == Stage::in)
        ++totals().linesLost;
    m_nextTry = at + m_backoff.next(random());
}

void Line::onClosed(net::WsClient& client, wire::CloseCode code, std::string_view reason)
{
    if (&client != m_client.get())
        return;
    m_client.reset();
    ++totals().closings[std::to_string(static_cast<int>(code)) + " " + std::string(reason)];
    m_gone = m_gone || isForGood(code);
    ended(now());
}

void Line::onOpen(net::WsClient& client)
{
    wire::Hello hello;
    hello.app = "voicehall-chorus";
    client.sendText(wire::encode(hello));
}

void Line::onText(net::WsClient& client, std::string_view text)
{
    if (&client != m_client.get())
        return;
    ++totals().framesReceived;
    totals().bytesReceived += text.size();
    const auto message = wire::decodeToClient(text);
    if (!message) {
        totals().unreadable += message.error().code != "unsupported"; // of a newer relay: skipped
        return;
    }
    std::visit(Overloaded{
                   [this](const wire::Challenge& challenge) { comeIn(challenge); },
                   [this](const wire::AtDoor&) { m_stage = Stage::atDoor; },
                   [this](const wire::Welcome& welcome) { welcomed(welcome); },
                   [this](const wire::ClockAnswer& answer) {
                       m_offset.add({Millis{answer.sent}, answer.received.time_since_epoch(),
                                     answer.answered.time_since_epoch(), now().time_since_epoch()});
                   },
                   [this](const wire::Ack& ack) {
                       if (m_outbox.settle(ack.id))
                           done(ack);
                   },
                   [this](const wire::Refused& refused) { answer(refused); },
                   [this, &message](const auto& other) {
                       if constexpr (requires { other.seq; })
                           m_lastSeq = other.seq;
                       heard(*message);
                   },
               },
               *message);
}

void Line::onBinary(net::WsClient& client, std::span<const std::uint8_t> bytes)
{
    if (&client != m_client.get())
        return;
    ++totals().framesReceived;
    totals().bytesReceived += bytes.size();
    heardBinary(bytes);
}

void Line::comeIn(const wire::Challenge& challenge)
{
    const auto signedAs = [&](wire::Purpose purpose, std::string_view subject, Role role) {
        return wire::sign(m_keys, wire::loginText(purpose, subject, challenge.nonce, role));
    };
    if (m_group) {
        wire::Login login;
        login.group = *m_group;
        login.key = m_keys.publicKey;
        login.role = m_entry.role;
        login.signature = signedAs(wire::Purpose::login, m_group->hex(), m_entry.role);
        login.epoch = m_epoch;
        login.lastSeq = m_lastSeq;
        m_client->sendText(wire::encode(login));
    } else if (m_entry.token) {
        wire::Redeem redeem;
        redeem.token = *m_entry.token;
        redeem.key = m_keys.publicKey;
        redeem.signature = signedAs(wire::Purpose::redeem, hexOf(redeem.token), Role::participant);
        redeem.name = m_entry.name;
        redeem.device = kDeviceLabel;
        m_client->sendText(wire::encode(redeem));
    } else {
        wire::Knock knock;
        knock.code = m_entry.code;
        knock.key = m_keys.publicKey;
        knock.signature = signedAs(wire::Purpose::knock, m_entry.code, Role::participant);
        knock.name = m_entry.name;
        knock.device = kDeviceLabel;
        m_client->sendText(wire::encode(knock));
        ++totals().knocks;
    }
}

void Line::welcomed(const wire::Welcome& welcome)
{
    const bool anew = m_stage != Stage::in;
    m_stage = Stage::in;
    m_group = welcome.group;
    m_person = welcome.person;
    m_seat = welcome.seat;
    m_entry.role = welcome.role;
    m_epoch = welcome.epoch;
    m_lastSeq = welcome.seq;
    if (anew) {
        const bool back = std::exchange(m_everIn, true);
        totals().linesBack += back;
        m_timesBack += back;
        m_backoff.reset();
        m_offset.forget();
        m_firstOffset = welcome.now - now();
        m_clockAsks = 0;
        m_nextClockAsk = now();
        m_putOffUntil = Instant::max();
        totals().sentAgain += m_outbox.sendAll([this](const std::string& text) { m_client->sendText(text); });
    }
    cameIn(welcome);
}

void Line::answer(const wire::Refused& refusal)
{
    ++totals().refusals[refusal.code];
    if (refusal.id && refusal.code == "busy") {
        m_outbox.putOff(*refusal.id);
        if (m_putOffUntil == Instant::max())
            m_putOffUntil = now() + kBusyWait + Millis{static_cast<int>(500 * random())};
        return;
    }
    if (refusal.id && m_outbox.settle(*refusal.id))
        refused(refusal);
}

void Line::request(RequestId id, std::string text)
{
    if (isIn())
        m_client->sendText(text);
    totals().givenUp += !m_outbox.keep(id, std::move(text));
}

void Line::askClock(Instant at)
{
    say(wire::ClockAsk{at.time_since_epoch().count()});
    m_nextClockAsk = at + (++m_clockAsks < ClockOffset::kKept ? kFirstClockAsks : kLaterClockAsks);
}

Instant Line::relayTime(Instant here) const
{
    const auto best = m_offset.best();
    return here + (best ? std::chrono::round<Millis>(best->offset()) : m_firstOffset);
}

} // namespace vh::chorus
