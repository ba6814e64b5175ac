#pragma once
// The load speaks the relay's own protocol (docs/protocol.md): devices sign in, the leader publishes a script with one
// long turn, opens the class and starts it; a change of place is "once more". Homes send real readings of the turn that
// is on. Thread: the load's loop.
#include "common/base/id.h"
#include "common/wire/to_client.h"
#include "tests/bench/relay_dialect.h"

#include <unordered_map>

namespace vh::bench
{

class HallDialect : public Dialect
{
public:
    explicit HallDialect(GroupId group) : m_group(group) {}

    bool homeOpened(net::WsClient& client, std::size_t home) override;
    bool homeText(net::WsClient& client, std::size_t home, std::string_view text) override;
    bool leaderOpened(net::WsClient& client) override;
    bool leaderText(net::WsClient& client, std::string_view text) override;
    void leaderBinary(std::span<const std::uint8_t> binary) override;
    [[nodiscard]] std::optional<std::size_t> levelsShown() const override { return m_levelsShown; }
    void sendSound(net::WsClient& leader, const Stamp& stamp) override;
    void changePlace(net::WsClient& leader) override;
    void stillLeading(net::WsClient& leader) override;
    std::string_view reading() override { return m_reading; }
    std::optional<Stamp> soundStamp(std::span<const std::uint8_t> binary) override;
    std::optional<Stamp> placeStamp(std::string_view text) override;

private:
    void signIn(net::WsClient& client, const wire::Challenge& challenge, std::size_t number, Role role) const;
    bool leaderAcked(net::WsClient& client, const wire::Ack& ack);
    void placeIs(const wire::PlaceNow& place);
    void lead(net::WsClient& client, CommandKind command, const RequestId& id) const;

    GroupId m_group;
    wire::PlaceNow m_place; ///< as the leader has last heard
    wire::Hash m_script{};
    RequestId m_put, m_open, m_start; ///< the leader's requests on the way in
    std::string m_reading;
    std::size_t m_levelsShown = 0;
    std::unordered_map<std::uint32_t, std::int64_t> m_pressedNs; ///< by the serial that comes of it
};

} // namespace vh::bench
