#pragma once
// One line from a client: hello, who is it, then messages to its hall. Everything a client sends is checked here
// against the protocol's table (stage, role, length) before anybody looks at it; what is not in the table is refused.
// Who speaks is this session's member, never a field. Thread: the loop of its connection, which is the hall's once it
// is in. Lives as long as its connection; the hall and the door hold plain pointers that onClosed() takes back.
#include "common/wire/close_codes.h"
#include "common/wire/codec.h"
#include "common/wire/protocol_table.h"
#include "server/hall/carried_sound.h"
#include "server/net/connection.h"

namespace vh::hall
{

class Hall;
class Halls;
struct Member;

using wire::kCloseAnotherDevice;
using wire::kCloseNotKnown;
using wire::kCloseRevoked;
using wire::kCloseTryLater;
using wire::kCloseTurnedAway;

class Session final : public net::ConnectionHandler, public std::enable_shared_from_this<Session>
{
public:
    Session(Halls& halls, net::Connection& connection);

    void onOpen(net::Connection& connection) override;
    void onText(net::Connection& connection, std::string_view text) override;
    void onBinary(net::Connection& connection, std::span<const std::uint8_t> bytes) override;
    void onClosed(net::Connection& connection, net::CloseReason reason) override;
    void onSkipped(net::Connection& connection, net::Skipped skipped) override;

    template <class Message>
    void send(const Message& message, net::LogPosition after = 0, net::Weight weight = net::Weight::ordinary)
    {
        if (m_connection)
            m_connection->sendText(wire::encode(message), after, weight);
    }
    void sendText(std::string_view text, net::LogPosition after = 0);
    void refuse(const std::optional<RequestId>& id, const Error& why);
    void close(wire::CloseCode code, std::string_view reason);
    /// Once what has just been sent has had its chance to leave.
    void closeAfterwards(wire::CloseCode code, std::string reason);

    /// For one job given to the store on behalf of this line: to be held until it is answered. Null at the limit: the
    /// request is refused as busy, and the client asks again.
    [[nodiscard]] std::shared_ptr<void> beginJob() const { return m_jobs.use_count() > kMostJobs ? nullptr : m_jobs; }
    static constexpr long kMostJobs = 16;

    /// Null once the line has closed.
    [[nodiscard]] net::Connection* connection() const { return m_connection; }
    [[nodiscard]] Role role() const { return m_role; }
    [[nodiscard]] Member* member() const { return m_member; }
    [[nodiscard]] const wire::Key& key() const { return m_key; }
    [[nodiscard]] const std::string& device() const { return m_device; }
    [[nodiscard]] std::uint64_t boardSince() const { return m_boardSince; }
    [[nodiscard]] SoundAllowance& soundAllowance() { return m_soundAllowance; }
    [[nodiscard]] bool saidBye() const { return m_bye; }

    /// The hall's, when it takes the line in, or lets it go.
    void isIn(Hall& hall, Member& member, Role role);
    void isAtDoor(Hall& hall);
    void isOut();

private:
    friend class Halls;
    void handle(wire::ToRelay& message);
    void hello(const wire::Hello& message);

    Halls& m_halls;
    net::Connection* m_connection;
    Hall* m_hall = nullptr;
    Member* m_member = nullptr;
    wire::Stage m_stage = wire::Stage::fresh;
    Role m_role = Role::participant;
    wire::Bytes<32> m_nonce{};
    wire::Key m_key{};
    std::string m_device;
    std::uint64_t m_boardSince = 0;
    bool m_entering = false;                                 ///< a login, link or knock is being looked into
    std::shared_ptr<void> m_jobs = std::make_shared<char>(); ///< each job under way holds it
    bool m_coming = false;                                   ///< neither in, nor at the door, nor brought there yet
    net::Loop::Timer m_timeToCome;
    bool m_bye = false;
    SoundAllowance m_soundAllowance;
};

} // namespace vh::hall
