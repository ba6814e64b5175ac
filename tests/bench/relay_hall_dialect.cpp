#include "tests/bench/relay_hall_dialect.h"

#include "common/base/base64.h"
#include "common/wire/binary.h"
#include "common/wire/codec.h"
#include "common/wire/login_text.h"
#include "common/wire/script_json.h"
#include "tests/bench/relay_seed.h"

#include <charconv>
#include <stdexcept>

namespace vh::bench
{

namespace
{

constexpr std::string_view kWelcome = R"({"type":"welcome")";
constexpr std::string_view kPlace = R"({"type":"place")";
constexpr std::string_view kSerial = R"("serial":)";

/// One turn that lasts as long as any measured stretch.
ClassScript longTurn()
{
    ClassScript script;
    script.title = "One long turn";
    script.theme = "bench";
    script.language = "en";
    script.plannedMinutes = 10;
    script.sections = {{SectionKind::sustainedVowel,
                        "Long and even",
                        {{"ah", {}, {}, {}, {{false, {{TurnKind::yours, std::chrono::seconds(600)}}}}, {}}}}};
    return script;
}

[[noreturn]] void giveUp(std::string_view text)
{
    throw std::runtime_error("the relay said: " + std::string(text));
}

void greet(net::WsClient& client)
{
    wire::Hello hello;
    hello.app = "bench";
    client.sendText(wire::encode(hello));
}

} // namespace

void HallDialect::signIn(net::WsClient& client, const wire::Challenge& challenge, std::size_t number, Role role) const
{
    const auto keys = keysOf(number);
    wire::Login login;
    login.group = m_group;
    login.key = keys.publicKey;
    login.role = role;
    login.signature = sign(keys, wire::loginText(wire::Purpose::login, m_group.hex(), challenge.nonce, role));
    client.sendText(wire::encode(login));
}

bool HallDialect::homeOpened(net::WsClient& client, std::size_t)
{
    greet(client);
    return false;
}

bool HallDialect::homeText(net::WsClient& client, std::size_t home, std::string_view text)
{
    if (text.starts_with(kWelcome))
        return true;
    const auto message = wire::decodeToClient(text);
    if (!message || std::holds_alternative<wire::Refused>(*message))
        giveUp(text);
    if (const auto* challenge = std::get_if<wire::Challenge>(&*message))
        signIn(client, *challenge, home, Role::participant);
    return false;
}

bool HallDialect::leaderOpened(net::WsClient& client)
{
    greet(client);
    return false;
}

bool HallDialect::leaderText(net::WsClient& client, std::string_view text)
{
    const auto message = wire::decodeToClient(text);
    if (!message || std::holds_alternative<wire::Refused>(*message))
        giveUp(text);
    if (const auto* challenge = std::get_if<wire::Challenge>(&*message)) {
        signIn(client, *challenge, kLeaderNumber, Role::leader);
    } else if (std::holds_alternative<wire::Welcome>(*message)) {
        const auto script = wire::encodeScript(longTurn());
        m_script = wire::sha256(script);
        m_put = RequestId::random();
        client.sendText(wire::encode(wire::PartPut{
            m_put, m_script, base64Of({reinterpret_cast<const std::uint8_t*>(script.data()), script.size()})}));
    } else if (const auto* place = std::get_if<wire::PlaceNow>(&*message)) {
        placeIs(*place);
    } else if (const auto* ack = std::get_if<wire::Ack>(&*message)) {
        return leaderAcked(client, *ack);
    }
    return false;
}

bool HallDialect::leaderAcked(net::WsClient& client, const wire::Ack& ack)
{
    if (ack.id == m_put) {
        m_open = RequestId::random();
        client.sendText(wire::encode(wire::OpenClass{m_open, "The bench's class", {m_script}}));
    } else if (ack.id == m_open) {
        client.sendText(wire::encode(wire::Voice{wire::VoiceState::carried, 1}));
        m_start = RequestId::random();
        lead(client, CommandKind::start, m_start);
    }
    return ack.id == m_start;
}

void HallDialect::leaderBinary(std::span<const std::uint8_t> binary)
{
    if (const auto roster = wire::decodeRoster(binary))
        for (const auto& entry : roster->entries)
            m_levelsShown += entry.hasLevel ? 1 : 0;
}

void HallDialect::placeIs(const wire::PlaceNow& place)
{
    m_place = place;
    Reading reading;
    reading.turnSerial = place.turnSerial;
    reading.elapsedMs = 3000;
    reading.heardMs = 2500;
    reading.voicedMs = 2400;
    reading.leqOverUsualDb = 3.5F;
    reading.nowOverUsualDb = 2.0F;
    m_reading = wire::encodeReading(reading);
}

void HallDialect::lead(net::WsClient& client, CommandKind command, const RequestId& id) const
{
    client.sendText(wire::encode(wire::Lead{id, command, m_place.lease, m_place.serial}));
}

void HallDialect::changePlace(net::WsClient& leader)
{
    // She presses again when she has seen what came of the last press.
    if (m_pressedNs.try_emplace(m_place.serial + 1, Stamp::now(0).steadyNs).second)
        lead(leader, CommandKind::onceMore, RequestId::random());
}

void HallDialect::stillLeading(net::WsClient& leader)
{
    leader.sendText(wire::encode(wire::Leading{m_place.lease}));
}

void HallDialect::sendSound(net::WsClient& leader, const Stamp& stamp)
{
    static const auto head = wire::encodeSound({}, {}).size();
    auto payload = stamp.text();
    payload.resize(kSoundMessageBytes - head, 's');
    leader.sendBinary(wire::encodeSound({1, stamp.number * std::uint64_t{960}},
                                        {reinterpret_cast<const std::uint8_t*>(payload.data()), payload.size()}));
}

std::optional<Stamp> HallDialect::soundStamp(std::span<const std::uint8_t> binary)
{
    const auto sound = wire::decodeSound(binary);
    if (!sound)
        return {};
    return Stamp::of({reinterpret_cast<const char*>(sound->payload.data()), sound->payload.size()});
}

/// Thousands of homes hear each place here, so only the number that counts is read.
std::optional<Stamp> HallDialect::placeStamp(std::string_view text)
{
    const auto at = text.starts_with(kPlace) ? text.find(kSerial) : std::string_view::npos;
    if (at == std::string_view::npos)
        return {};
    std::uint32_t serial = 0;
    std::from_chars(text.data() + at + kSerial.size(), text.data() + text.size(), serial);
    const auto pressed = m_pressedNs.find(serial);
    return pressed == m_pressedNs.end() ? std::nullopt : std::optional<Stamp>({serial, pressed->second});
}

} // namespace vh::bench
