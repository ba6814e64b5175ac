#pragma once
// The load of a relay bench: homes that listen and send readings, and a leader who sends stamped sound and changes the
// place. Real WebSocket clients; how they speak is a Dialect, so that the same load drives any server. Latency is from
// the leader's send to the home's callback, both on this machine's steady clock. Thread: one Loop.
#include "tests/bench/relay_dialect.h"

#include <functional>
#include <memory>
#include <vector>

namespace vh::bench
{

struct Load {
    net::ClientOptions options;
    std::shared_ptr<Dialect> dialect;
    std::size_t homes = 1000;
    double framesPerSecond = 50;
    double readingsPerSecond = 4; ///< from each home
    double placesPerSecond = 5;
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

    /// Brings the leader in, and the class to run.
    void lead(std::function<void()> whenItRuns);
    /// Then everybody else, a hundred at a time.
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
    void homeIsIn();
    void joinMore();
    void sendReadings();

    net::Loop& m_loop;
    Load m_load;
    Heard m_heard;
    std::vector<std::shared_ptr<Home>> m_homes;
    std::vector<std::shared_ptr<net::WsClient>> m_clients;
    std::shared_ptr<net::WsClient> m_leader;
    std::function<void()> m_whenItRuns;
    std::function<void()> m_whenIn;
    std::size_t m_in = 0;
    std::uint32_t m_number = 0;
    double m_readingsDue = 0;
    std::size_t m_nextReader = 0;
    net::SteadyTime m_lastReadings;
    net::Loop::Timer m_soundTimer;
    net::Loop::Timer m_placeTimer;
    net::Loop::Timer m_readingTimer;
    net::Loop::Timer m_leadingTimer;
};

} // namespace vh::bench
