#include "tests/server/hall/test_line.h"

#include "common/base/join_code.h"

#include <future>
#include <stdexcept>

namespace vh::testing
{

namespace
{
std::span<const std::uint8_t> bytesOf(const std::string& text)
{
    return {reinterpret_cast<const std::uint8_t*>(text.data()), text.size()};
}
} // namespace

// ---- on the loop

void TestLine::Inbox::onOpen(net::WsClient&)
{
    const std::scoped_lock lock(mutex);
    open = true;
    arrived.notify_all();
}

void TestLine::Inbox::onText(net::WsClient&, std::string_view text)
{
    auto message = wire::decodeToClient(text);
    const std::scoped_lock lock(mutex);
    if (const auto* place = message ? std::get_if<wire::PlaceNow>(&*message) : nullptr)
        order.push_back("place " + std::to_string(place->serial));
    if (message)
        texts.push_back(std::move(*message));
    else
        unreadable = message.error().message + ": " + std::string(text.substr(0, 200));
    arrived.notify_all();
}

void TestLine::Inbox::onBinary(net::WsClient&, std::span<const std::uint8_t> bytes)
{
    const std::scoped_lock lock(mutex);
    if (const auto roster = wire::decodeRoster(bytes))
        standings.insert(standings.end(), roster->entries.begin(), roster->entries.end());
    if (const auto sound = wire::decodeSound(bytes))
        order.push_back("sound " + std::to_string(sound->head.firstSample));
    binaries.emplace_back(reinterpret_cast<const char*>(bytes.data()), bytes.size());
    arrived.notify_all();
}

void TestLine::Inbox::onClosed(net::WsClient&, wire::CloseCode code, std::string_view reason)
{
    const std::scoped_lock lock(mutex);
    closing = Closing{code, std::string(reason)};
    arrived.notify_all();
}

void TestLine::Inbox::giveUp(std::string_view what) const
{
    std::string text = "no '" + std::string(what) + "' has come; instead:";
    for (const auto& each : texts)
        text += " " + std::visit([](const auto& message) { return wire::encode(message).substr(0, 300); }, each);
    if (closing)
        text += " closed " + std::to_string(static_cast<unsigned>(closing->code)) + " " + closing->reason;
    if (!unreadable.empty())
        text += " unreadable " + unreadable;
    throw std::runtime_error(text);
}

// ---- on the test's thread

TestLine::TestLine(net::Loop& loop, const net::ClientOptions& options) : m_loop(loop)
{
    std::promise<std::shared_ptr<net::WsClient>> made;
    loop.post([&] { made.set_value(net::WsClient::connect(loop, options, m_inbox)); });
    m_client = made.get_future().get();
    m_inbox->take([](Inbox& inbox) { return inbox.open || inbox.closing ? std::optional(true) : std::nullopt; },
                  "open");
}

TestLine::~TestLine()
{
    drop();
    waitClosed();
    std::promise<void> gone;
    m_loop.post([client = std::move(m_client), &gone]() mutable {
        client.reset();
        gone.set_value();
    });
    gone.get_future().get();
}

void TestLine::onLoop(std::function<void(net::WsClient&)> task)
{
    m_loop.post([client = m_client, task = std::move(task)] { task(*client); });
}

void TestLine::sayText(std::string text)
{
    onLoop([text = std::move(text)](net::WsClient& client) { client.sendText(text); });
}

void TestLine::sayBinary(std::string bytes)
{
    onLoop([bytes = std::move(bytes)](net::WsClient& client) { client.sendBinary(bytes); });
}

void TestLine::sayRaw(std::string bytes)
{
    onLoop([bytes = std::move(bytes)](net::WsClient& client) { client.sendRaw(bytes); });
}

void TestLine::drop()
{
    onLoop([](net::WsClient& client) { client.drop(); });
}

void TestLine::pauseReading(bool paused)
{
    std::promise<void> done;
    onLoop([paused, &done](net::WsClient& client) {
        paused ? client.pauseReading() : client.resumeReading();
        done.set_value();
    });
    done.get_future().get();
}

TestLine::Outcome TestLine::waitOutcome(const RequestId& id)
{
    return m_inbox->take(
        [&](Inbox& inbox) -> std::optional<Outcome> {
            for (auto at = inbox.texts.begin(); at != inbox.texts.end(); ++at) {
                Outcome outcome;
                if (const auto* ack = std::get_if<wire::Ack>(&*at); ack && ack->id == id)
                    outcome.ack = *ack;
                else if (const auto* refused = std::get_if<wire::Refused>(&*at); refused && refused->id == id)
                    outcome.refused = *refused;
                else
                    continue;
                inbox.texts.erase(at);
                return outcome;
            }
            return inbox.closing ? std::optional(Outcome{{}, {}, inbox.closing}) : std::nullopt;
        },
        "answer");
}

std::optional<std::string> TestLine::nameOrClosing()
{
    using Name = std::optional<std::string>;
    return m_inbox->take(
        [](Inbox& inbox) -> std::optional<Name> {
            for (const auto& each : inbox.texts)
                if (const auto* welcome = std::get_if<wire::Welcome>(&each))
                    return std::optional<Name>(Name(welcome->name));
            return inbox.closing ? std::optional<Name>(Name()) : std::optional<Name>();
        },
        "welcome");
}

std::string TestLine::waitBinary(const std::function<bool(std::span<const std::uint8_t>)>& fits)
{
    return m_inbox->take(
        [&](Inbox& inbox) -> std::optional<std::string> {
            for (auto at = inbox.binaries.begin(); at != inbox.binaries.end(); ++at)
                if (fits(bytesOf(*at))) {
                    std::string found = *at;
                    inbox.binaries.erase(at);
                    return found;
                }
            return std::nullopt;
        },
        "binary message");
}

std::vector<std::string> TestLine::order() const
{
    const std::scoped_lock lock(m_inbox->mutex);
    return m_inbox->order;
}

wire::RosterEntry TestLine::waitStanding(std::uint32_t seat, const std::function<bool(const wire::RosterEntry&)>& fits)
{
    return m_inbox->take(
        [&](Inbox& inbox) -> std::optional<wire::RosterEntry> {
            const auto found = std::find_if(inbox.standings.begin(), inbox.standings.end(),
                                            [&](const auto& each) { return each.seat == seat && fits(each); });
            return found == inbox.standings.end() ? std::nullopt : std::optional(*found);
        },
        "standing");
}

std::vector<wire::RosterEntry> TestLine::standingsSeen(std::uint32_t seat) const
{
    const std::scoped_lock lock(m_inbox->mutex);
    std::vector<wire::RosterEntry> seen;
    std::copy_if(m_inbox->standings.begin(), m_inbox->standings.end(), std::back_inserter(seen),
                 [&](const auto& each) { return each.seat == seat; });
    return seen;
}

Closing TestLine::waitClosed()
{
    return m_inbox->take([](Inbox& inbox) { return inbox.closing; }, "close");
}

bool TestLine::isClosed() const
{
    const std::scoped_lock lock(m_inbox->mutex);
    return m_inbox->closing.has_value();
}

void TestLine::sync()
{
    const std::int64_t mark = ++m_syncs;
    say(wire::ClockAsk{mark});
    wait<wire::ClockAnswer>([mark](const wire::ClockAnswer& answer) { return answer.sent == mark; });
}

bool TestLine::wasNotAllowed()
{
    const std::int64_t mark = ++m_syncs;
    say(wire::ClockAsk{mark});
    return m_inbox->take(
        [mark](Inbox& inbox) -> std::optional<bool> {
            bool answered = inbox.closing.has_value();
            for (const auto& each : inbox.texts) {
                if (const auto* refused = std::get_if<wire::Refused>(&each); refused && refused->code == "not-allowed")
                    return true;
                if (const auto* answer = std::get_if<wire::ClockAnswer>(&each))
                    answered |= answer->sent == mark;
            }
            return answered ? std::optional(false) : std::nullopt;
        },
        "clockAnswer");
}

wire::Challenge TestLine::hello()
{
    wire::Hello hello;
    hello.app = "test";
    say(hello);
    m_challenge = wait<wire::Challenge>();
    return m_challenge;
}

void TestLine::login(GroupId group, const wire::KeyPair& keys, Role role, std::uint64_t boardSince)
{
    wire::Login login;
    login.group = group;
    login.key = keys.publicKey;
    login.role = role;
    login.boardSince = boardSince;
    login.signature = sign(keys, wire::loginText(wire::Purpose::login, group.hex(), m_challenge.nonce, role));
    say(login);
}

void TestLine::redeem(const wire::Token& token, const wire::KeyPair& keys, const std::string& name)
{
    wire::Redeem redeem;
    redeem.token = token;
    redeem.key = keys.publicKey;
    redeem.name = name;
    redeem.device = "laptop";
    redeem.signature =
        sign(keys, wire::loginText(wire::Purpose::redeem, hexOf(token), m_challenge.nonce, Role::participant));
    say(redeem);
}

void TestLine::knock(const std::string& code, const wire::KeyPair& keys, const std::string& name)
{
    wire::Knock knock;
    knock.code = code;
    knock.key = keys.publicKey;
    knock.name = name;
    knock.device = "tablet";
    knock.signature = sign(keys, wire::loginText(wire::Purpose::knock, normaliseCode(code).value_or(""),
                                                 m_challenge.nonce, Role::participant));
    say(knock);
}

} // namespace vh::testing
