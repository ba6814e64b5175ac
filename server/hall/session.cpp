#include "server/hall/session.h"

#include "common/wire/binary.h"
#include "server/hall/halls.h"

#include <sodium.h>

namespace vh::hall
{

namespace
{

template <class... Fs>
struct Overloaded : Fs... {
    using Fs::operator()...;
};
template <class... Fs>
Overloaded(Fs...) -> Overloaded<Fs...>; // clang 14 does not find it by itself

/// The table's rule for a binary message; null for a type that is not known here.
const wire::Rule* ruleForBinary(std::uint8_t type)
{
    static const wire::Rule* const kReading = wire::ruleFor("reading");
    static const wire::Rule* const kSound = wire::ruleFor("sound");
    switch (static_cast<wire::BinaryType>(type)) {
    case wire::BinaryType::reading:
        return kReading;
    case wire::BinaryType::sound:
        return kSound;
    default:
        return nullptr;
    }
}

} // namespace

Session::Session(Halls& halls, net::Connection& connection) : m_halls(halls), m_connection(&connection)
{
    connection.setMaxMessageBytes(wire::kFirstMessage);
    randombytes_buf(m_nonce.data(), m_nonce.size());
}

void Session::onOpen(net::Connection&)
{
    m_halls.arrived(*this);
}

void Session::onText(net::Connection&, std::string_view text)
{
    auto message = wire::decodeToRelay(text);
    if (!message && message.error().code == "unsupported")
        return send(wire::Unsupported{message.error().where});
    if (!message)
        return close(wire::CloseCode::policy, message.error().message);
    const std::string_view name =
        std::visit([](const auto& each) { return std::decay_t<decltype(each)>::kName; }, *message);
    const wire::Rule* rule = wire::ruleFor(name);
    if (!rule || text.size() > rule->mostBytes)
        return close(wire::CloseCode::tooBig, "This message is longer than the protocol allows.");
    if (!wire::mayBeSent(*rule, m_stage, m_role)) {
        std::optional<RequestId> id;
        std::visit(
            [&id](const auto& each) {
                if constexpr (requires { each.id; })
                    id = each.id;
            },
            *message);
        return refuse(id, {"not-allowed", "This cannot be asked for here.", std::string(name)});
    }
    handle(*message);
}

void Session::handle(wire::ToRelay& message)
{
    std::visit(Overloaded{
                   [this](wire::Hello& hello) { this->hello(hello); },
                   [this](wire::Login& login) { m_halls.login(*this, login); },
                   [this](wire::Redeem& redeem) { m_halls.redeem(*this, redeem); },
                   [this](wire::Knock& knock) { m_halls.knock(*this, knock); },
                   [this](wire::ClockAsk& ask) {
                       const Instant now = m_halls.options().clock->now();
                       send(wire::ClockAnswer{ask.sent, now, now});
                   },
                   [this](wire::Bye&) {
                       m_bye = true;
                       close(wire::CloseCode::normal, "Goodbye.");
                   },
                   [this](auto& other) { m_hall->on(*this, other); },
               },
               message);
}

void Session::hello(const wire::Hello& hello)
{
    if (hello.min > wire::kVersion || hello.max < wire::kVersion)
        return close(wire::CloseCode::policy, "This relay speaks version 1 of the protocol. Please update.");
    m_stage = wire::Stage::greeted;
    send(wire::Challenge{m_nonce, wire::kVersion, m_halls.epoch()});
}

void Session::onBinary(net::Connection&, std::span<const std::uint8_t> bytes)
{
    const auto type = wire::binaryTypeOf(bytes);
    if (!type)
        return close(wire::CloseCode::policy, "A binary message begins with its type, version and flags.");
    const wire::Rule* rule = ruleForBinary(*type);
    if (!rule)
        return; // of a newer version: skipped
    if (bytes.size() > rule->mostBytes)
        return close(wire::CloseCode::tooBig, "This message is longer than the protocol allows.");
    if (!wire::mayBeSent(*rule, m_stage, m_role))
        return refuse({}, {"not-allowed", "This cannot be sent here.", std::string(rule->message)});
    if (static_cast<wire::BinaryType>(*type) == wire::BinaryType::reading)
        m_hall->reading(*this, bytes);
    else
        m_hall->sound(*this, bytes);
}

void Session::onClosed(net::Connection&, net::CloseReason)
{
    if (m_coming) // still on the accepting loop
        m_halls.noLongerComing(*this);
    if (m_hall)
        m_hall->left(*this);
    isOut();
    m_connection = nullptr;
}

void Session::onSkipped(net::Connection&, net::Skipped skipped)
{
    if (m_hall && m_stage == wire::Stage::in)
        m_hall->skipped(*this, skipped);
}

void Session::sendText(std::string_view text, net::LogPosition after)
{
    if (m_connection)
        m_connection->sendText(text, after);
}

void Session::refuse(const std::optional<RequestId>& id, const Error& why)
{
    send(wire::Refused{id, why.code, why.message},
         m_connection && m_connection->log() ? m_connection->log()->end() : 0);
}

void Session::close(wire::CloseCode code, std::string_view reason)
{
    if (m_connection)
        m_connection->close(code, reason);
}

void Session::closeAfterwards(wire::CloseCode code, std::string reason)
{
    if (m_connection)
        m_connection->loop().post(
            [self = shared_from_this(), code, reason = std::move(reason)] { self->close(code, reason); });
}

void Session::isIn(Hall& hall, Member& member, Role role)
{
    m_hall = &hall;
    m_member = &member;
    m_role = role;
    m_stage = wire::Stage::in;
    m_connection->setMaxMessageBytes(role == Role::leader ? wire::kLeaderMessage : wire::kPictureMessage);
}

void Session::isAtDoor(Hall& hall)
{
    m_hall = &hall;
    m_stage = wire::Stage::atDoor;
}

void Session::isOut()
{
    m_hall = nullptr;
    m_member = nullptr;
    m_stage = wire::Stage::fresh;
}

} // namespace vh::hall
