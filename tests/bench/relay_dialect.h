#pragma once
// How the load of a relay bench speaks with one kind of server: what homes and leader say to come in, and how what they
// hear carries the time it was sent. `BareDialect` is for the bench's own servers; relay_hall_dialect.h for the relay.
// Thread: the load's loop.
#include "server/net/ws_client.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace vh::bench
{

/// One message of the leader's sound, all of it.
inline constexpr std::size_t kSoundMessageBytes = 80;

/// When something left the leader: number and this machine's steady clock.
struct Stamp {
    std::uint32_t number = 0;
    std::int64_t steadyNs = 0;
    static constexpr std::size_t kTextBytes = 32;
    static Stamp now(std::uint32_t number);
    [[nodiscard]] std::string text() const; ///< 32 bytes of hexadecimal: fit for text and binary frames
    static Stamp of(std::string_view payload);
    [[nodiscard]] double ageMs() const;
};

class Dialect
{
public:
    Dialect() = default;
    Dialect(const Dialect&) = delete;
    Dialect& operator=(const Dialect&) = delete;
    virtual ~Dialect() = default;

    // The way in. True: this line has just come in.
    virtual bool homeOpened(net::WsClient& client, std::size_t home) = 0;
    virtual bool homeText(net::WsClient& client, std::size_t home, std::string_view text) = 0;
    virtual bool leaderOpened(net::WsClient& client) = 0;
    /// All that the leader is told, before and after. True once: the class runs.
    virtual bool leaderText(net::WsClient& client, std::string_view text) = 0;

    /// What the leader is told of the homes' readings.
    virtual void leaderBinary(std::span<const std::uint8_t>) {}
    /// Levels that the leader has been shown; nothing where the server shows none.
    [[nodiscard]] virtual std::optional<std::size_t> levelsShown() const { return {}; }

    virtual void sendSound(net::WsClient& leader, const Stamp& stamp) = 0;
    virtual void changePlace(net::WsClient& leader) = 0;
    virtual void stillLeading(net::WsClient& leader) = 0; ///< once a second
    /// What a home sends four times a second; good until the next call.
    virtual std::string_view reading() = 0;

    /// Of what a home hears once it is in; nothing when it is something else.
    virtual std::optional<Stamp> soundStamp(std::span<const std::uint8_t> binary) = 0;
    virtual std::optional<Stamp> placeStamp(std::string_view text) = 0;
};

class BareDialect final : public Dialect
{
public:
    bool homeOpened(net::WsClient& client, std::size_t home) override;
    bool homeText(net::WsClient&, std::size_t, std::string_view) override { return false; }
    bool leaderOpened(net::WsClient& client) override;
    bool leaderText(net::WsClient&, std::string_view) override { return false; }
    void sendSound(net::WsClient& leader, const Stamp& stamp) override;
    void changePlace(net::WsClient& leader) override;
    void stillLeading(net::WsClient&) override {}
    std::string_view reading() override { return "rrrrrrrrrrrrrrrrrrrrrrrrrr"; } // 26 bytes, as the relay's
    std::optional<Stamp> soundStamp(std::span<const std::uint8_t> binary) override;
    std::optional<Stamp> placeStamp(std::string_view text) override { return Stamp::of(text); }

private:
    std::uint32_t m_places = 0;
};

} // namespace vh::bench
