#pragma once
// The load of a relay bench: homes that listen and send readings, and a leader who sends stamped sound and changes the
// place. Real WebSocket clients; how they log in is handed in, so that the same load drives any server. Latency is
// from the leader's send to the home's callback, both on this machine's steady clock. Thread: one Loop.
#include "server/net/ws_client.h"

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace vh::bench
{

struct Load {
    net::ClientOptions options;
    std::size_t homes = 1000;
    double framesPerSecond = 50;
    double readingsPerSecond = 4; ///< from each home
    double placesPerSecond = 5;
    std::size_t frameBytes = 80;
    std::size_t readingBytes = 16;
    /// What a home and the leader say once the line is open. The bench's own servers ask for one word.
    std::function<void(net::WsClient&)> enterHome = [](net::WsClient& client) { client.sendText("home"); };
    std::function<void(net::WsClient&)> enterLeader = [](net::WsClient& client) { client.sendText("lead"); };
    /// How the leader sends sound and changes the place; payloads begin with a Stamp.
    std::function<void(net::WsClient&, std::string_view)> sendSound =
        [](net::WsClient& leader, std::string_view sound) { leader.sendBinary(sound); };
    std::function<void(net::WsClient&, std::string_view)> sendPlace =
        [](net::WsClient& leader, std::string_view place) { leader.sendText(place); };
};

/// At the front of every payload the leader sends, as the homes get it.
struct Stamp {
    std::uint32_t number = 0;
    std::int64_t steadyNs = 0;
    static constexpr std::size_t kTextBytes = 32;
    static Stamp now(std::uint32_t number);
    [[nodiscard]] std::string text() const; ///< 32 bytes of hexadecimal: fit for text and binary frames
    static Stamp of(std::string_view payload);
    [[nodiscard]] double ageMs() const;
};

struct Heard {
    std::vector<double> soundMs; ///< latencies
    std::vector<double> placeMs;
    std::uint64_t lost = 0; ///< sound frames that one home missed between two it got
    std::uint64_t ended = 0;
    std::uint64_t readingsSent = 0;
};

class Homes
{
public:
    Homes(net::Loop& loop, Load load);
    ~Homes();
    Homes(const Homes&) = delete;
    Homes& operator=(const Homes&) = delete;

    /// Connects everybody, a hundred at a time; calls back when all are in.
    void join(std::function<void()> whenAllAreIn);
    void start();
    void stop();
    /// Forgets what was heard so far: the warm-up is over.
    void begin();
    [[nodiscard]] Heard& heard() { return m_heard; }
    [[nodiscard]] net::WsClient& home(std::size_t index) { return *m_clients[index]; }
    /// Called with every sound frame of home `index`, until unset.
    void watch(std::size_t index, std::function<void(const Stamp&)> onSound);

private:
    struct Home;
    struct Leader;
    void joinMore();
    void sendSound();
    void sendReadings();

    net::Loop& m_loop;
    Load m_load;
    Heard m_heard;
    std::vector<std::shared_ptr<Home>> m_homes;
    std::vector<std::shared_ptr<net::WsClient>> m_clients;
    std::shared_ptr<net::WsClient> m_leader;
    std::function<void()> m_whenIn;
    std::size_t m_in = 0;
    std::uint32_t m_number = 0;
    std::uint32_t m_placeNumber = 0;
    double m_readingsDue = 0;
    std::size_t m_nextReader = 0;
    net::SteadyTime m_lastReadings;
    net::Loop::Timer m_soundTimer;
    net::Loop::Timer m_placeTimer;
    net::Loop::Timer m_readingTimer;
};

} // namespace vh::bench
