// The relay, measured: the real voicehall-relay under a class of real lines, against a bare epoll floor and against
// server/net alone, in turn on one core; the homes in a process of their own on the other. Run it on a quiet machine
// from the release preset: `bench_relay` (about seven minutes), `bench_relay --seconds 6 --idle 60` for the long tier.
// A run whose homes kept their core 90 % busy is void, and said to be.
#include "tests/bench/bench_figure.h"
#include "tests/bench/relay_homes_process.h"
#include "tests/bench/relay_send_loop.h"
#include "tests/bench/relay_servers.h"
#include "tests/bench/relay_under_load.h"

#include <cstring>
#include <stdexcept>
#include <thread>

using namespace vh::bench;
using Values = std::map<std::string, double>;

namespace
{

constexpr int kServerCore = 0;
constexpr int kHomesCore = 1;
constexpr double kVoidAbove = 90; // per cent of the homes' core
constexpr std::size_t kMostHomes = 2000;

struct Options {
    double seconds = 1.5; ///< of each measured window
    double idle = 5;      ///< before memory is read
    double stall = 10;
    int pairs = 7;
    std::string only;
};

struct Outcome {
    Values before;
    Values after;
    Values heard;
    [[nodiscard]] double grown(const char* name) const { return after.at(name) - before.at(name); }
    /// Microseconds of the server's processor for each frame delivered or reading taken.
    [[nodiscard]] double cpuMicrosPer(const char* name) const { return grown("cpu") / 1000 / grown(name); }
};

class Bench
{
public:
    explicit Bench(const Options& options) : m_options(options) {}
    int run();

private:
    Outcome run(const std::string& server, HomesPlan plan);
    /// Each server under the same plan, each time in another order.
    std::map<std::string, Outcome> inTurn(int round, const HomesPlan& plan);
    void fanOut();
    void fanOutTls();
    void placeChange();
    void twoThousand();
    void readingsIn(const std::string& name, double perSecond);
    void memory(const char* server, const char* name, double limit);
    void stalled();

    Options m_options;
    Seed m_seed{kMostHomes};
    Figures m_figures;
};

void follow(const UnderLoad& server, HomesPlan& plan)
{
    plan.port = server.port();
    plan.pin = server.pin();
    plan.group = server.group();
}

Outcome Bench::run(const std::string& kind, HomesPlan plan)
{
    UnderLoad server(kind, m_seed, kServerCore);
    follow(server, plan);
    Process homes = startHomes(plan, kHomesCore);
    Outcome outcome;
    homes.waitFor("led");
    homes.say("go");
    homes.waitFor("begin");
    outcome.before = server.now();
    homes.waitFor("end");
    outcome.after = server.now();
    outcome.heard = homes.waitFor("result");
    if (outcome.heard.at("ended") > 0)
        throw std::runtime_error("lines have ended");
    return outcome;
}

std::map<std::string, Outcome> Bench::inTurn(int round, const HomesPlan& plan)
{
    static const std::vector<std::string> kServers{"floor", "relay", "net"};
    std::map<std::string, Outcome> outcomes;
    for (std::size_t i = 0; i < kServers.size(); ++i) {
        const auto& server = kServers[(i + static_cast<std::size_t>(round)) % kServers.size()];
        outcomes[server] = run(server, plan);
    }
    return outcomes;
}

void Bench::fanOut()
{
    std::vector<double> ratios, netRatios, floorMicros, micros, p99, netP99, perSend, pairRatios, localRatios;
    double busiest = 0;
    HomesPlan plan;
    plan.seconds = m_options.seconds;
    for (int i = 0; i < m_options.pairs; ++i) {
        auto outcomes = inTurn(i, plan);
        const auto& relay = outcomes["relay"];
        const auto& net = outcomes["net"];
        floorMicros.push_back(outcomes["floor"].cpuMicrosPer("frames"));
        micros.push_back(relay.cpuMicrosPer("frames"));
        ratios.push_back(micros.back() / floorMicros.back());
        netRatios.push_back(net.cpuMicrosPer("frames") / floorMicros.back());
        const auto loop = [&](Pairs pairs) {
            return sendLoopMicros(pairs, plan.homes, plan.seconds / 2, kServerCore, kHomesCore);
        };
        pairRatios.push_back(floorMicros.back() / loop(Pairs::tcp));
        localRatios.push_back(floorMicros.back() / loop(Pairs::local));
        p99.push_back(relay.heard.at("p99"));
        netP99.push_back(net.heard.at("p99"));
        perSend.push_back(relay.grown("frames") / relay.grown("sends"));
        busiest = std::max(busiest, relay.heard.at("busy"));
        std::printf("# pair %d: floor %.2f us p99 %.1f ms, relay %.2f us p99 %.1f ms lost %.0f, net %.2f us, homes' "
                    "core %.0f %%\n",
                    i + 1, floorMicros.back(), outcomes["floor"].heard.at("p99"), micros.back(), p99.back(),
                    relay.heard.at("lost"), net.cpuMicrosPer("frames"), relay.heard.at("busy"));
    }
    const auto pairs = static_cast<std::size_t>(m_options.pairs);
    Figures::spread("fanout_cpu_ratio", spreadOf(ratios), pairs);
    Figures::spread("fanout_p99_1000", spreadOf(p99), pairs);
    Figures::spread("floor_ratio_to_pairs", spreadOf(pairRatios), pairs);
    m_figures.reported("floor_us_per_message", spreadOf(floorMicros).median, "us");
    m_figures.reported("fanout_us_per_message", spreadOf(micros).median, "us");
    // The floor's own reading, waiting and upgrade are in its figure; a pair over TCP pays for the same network stack.
    m_figures.atMost("floor_ratio_to_pairs", spreadOf(pairRatios).median, "x", 1.1);
    m_figures.reported("floor_ratio_to_unix_socketpairs", spreadOf(localRatios).median, "x");
    m_figures.atMost("fanout_cpu_ratio", spreadOf(ratios).median, "x", 1.15);
    m_figures.reported("net_fanout_cpu_ratio", spreadOf(netRatios).median, "x");
    if (busiest >= kVoidAbove)
        std::printf("# void: the homes' core was %.0f %% busy\n", busiest);
    m_figures.atMost("fanout_p99_1000", spreadOf(p99).median, "ms", 25);
    m_figures.reported("net_fanout_p99_1000", spreadOf(netP99).median, "ms");
    m_figures.reported("frames_per_send", spreadOf(perSend).median, "frames");
}

/// The same load once more, each frame now sealed for every home by itself. No floor to compare it with: reported only.
void Bench::fanOutTls()
{
    constexpr int kRounds = 3;
    std::vector<double> micros, p99;
    HomesPlan plan;
    plan.seconds = m_options.seconds;
    for (int i = 0; i < kRounds; ++i) {
        const auto outcome = run("relay-tls", plan);
        micros.push_back(outcome.cpuMicrosPer("frames"));
        p99.push_back(outcome.heard.at("p99"));
        const auto busy = outcome.heard.at("busy");
        std::printf("# tls, round %d: relay %.2f us p99 %.1f ms lost %.0f, homes' core %.0f %%%s\n", i + 1,
                    micros.back(), p99.back(), outcome.heard.at("lost"), busy, busy >= kVoidAbove ? ": VOID" : "");
    }
    Figures::spread("tls_fanout_us_per_message", spreadOf(micros), kRounds);
    m_figures.reported("tls_fanout_us_per_message", spreadOf(micros).median, "us");
    m_figures.reported("tls_fanout_p99_1000", spreadOf(p99).median, "ms");
}

/// Five "once more" a second beside the sound and the readings: each is on disk before the leader has her answer.
void Bench::placeChange()
{
    std::vector<double> p99;
    Outcome outcome;
    HomesPlan plan;
    plan.places = 5;
    plan.seconds = m_options.seconds;
    for (int i = 0; i < m_options.pairs; ++i) {
        outcome = run("relay", plan);
        if (outcome.heard.at("places") < static_cast<double>(plan.homes) * plan.seconds)
            throw std::runtime_error("the class has hardly moved");
        p99.push_back(outcome.heard.at("place99"));
    }
    Figures::spread("place_change_p99_1000", spreadOf(p99), p99.size());
    m_figures.atMost("place_change_p99_1000", spreadOf(p99).median, "ms", 50);
    m_figures.reported("frames_per_send_with_places", outcome.grown("frames") / outcome.grown("sends"), "frames");
}

void Bench::twoThousand()
{
    constexpr int kRounds = 3;
    HomesPlan plan;
    plan.homes = kMostHomes;
    plan.seconds = 2 * m_options.seconds;
    std::map<std::string, std::vector<double>> p99;
    std::vector<double> perSend;
    double lost = 0;
    for (int i = 0; i < kRounds; ++i)
        for (const std::string server : {"net", "relay"}) {
            const auto outcome = run(server, plan);
            const auto busy = outcome.heard.at("busy");
            std::printf("# %s, 2000 homes: p50 %.1f p99 %.1f max %.1f ms, homes' core %.0f %% busy%s, server %.0f %%\n",
                        server.c_str(), outcome.heard.at("p50"), outcome.heard.at("p99"), outcome.heard.at("max"), busy,
                        busy >= kVoidAbove ? ": VOID" : "", outcome.grown("cpu") / 1e7 / plan.seconds);
            p99[server].push_back(outcome.heard.at("p99"));
            if (server == "relay") {
                lost += outcome.heard.at("lost") + outcome.grown("skipped");
                perSend.push_back(outcome.grown("frames") / outcome.grown("sends"));
            }
        }
    Figures::spread("fanout_p99_2000", spreadOf(p99["relay"]), kRounds);
    m_figures.atMost("fanout_p99_2000", spreadOf(p99["relay"]).median, "ms", 40);
    m_figures.reported("net_fanout_p99_2000", spreadOf(p99["net"]).median, "ms");
    m_figures.atMost("fanout_lost_2000", lost, "frames", 0);
    m_figures.reported("frames_per_send_2000", spreadOf(perSend).median, "frames");
}

void Bench::readingsIn(const std::string& name, double perSecond)
{
    std::vector<double> ratios, netRatios, floorMicros, micros;
    HomesPlan plan;
    plan.frames = 0;
    plan.readings = perSecond;
    plan.seconds = m_options.seconds;
    for (int i = 0; i < m_options.pairs; ++i) {
        auto outcomes = inTurn(i, plan);
        floorMicros.push_back(outcomes["floor"].cpuMicrosPer("readings"));
        micros.push_back(outcomes["relay"].cpuMicrosPer("readings"));
        ratios.push_back(micros.back() / floorMicros.back());
        netRatios.push_back(outcomes["net"].cpuMicrosPer("readings") / floorMicros.back());
    }
    Figures::spread(name.c_str(), spreadOf(ratios), static_cast<std::size_t>(m_options.pairs));
    std::printf("# %s: bare reader %.2f us, ours %.2f us a reading\n", name.c_str(), spreadOf(floorMicros).median,
                spreadOf(micros).median);
    m_figures.atMost(name.c_str(), spreadOf(ratios).median, "x", 1.3);
    m_figures.reported(("net_" + name).c_str(), spreadOf(netRatios).median, "x");
}

/// (RSS(2000) - RSS(0)) / 2000 after ten frames each way and a rest. At 0 the hall is there with all its people, the
/// class runs, and the leader is in; from the start, what the hall keeps of each person is counted too. No limit:
/// reported only.
void Bench::memory(const char* kind, const char* name, double limit)
{
    HomesPlan plan;
    plan.homes = kMostHomes;
    plan.frames = plan.readings = 5;
    plan.seconds = 2;
    UnderLoad server(kind, m_seed, kServerCore);
    follow(server, plan);
    const auto started = server.now().at("rss");
    Process homes = startHomes(plan, kHomesCore);
    homes.waitFor("led");
    const auto before = server.now().at("rss");
    homes.say("go");
    homes.waitFor("result");
    std::this_thread::sleep_for(std::chrono::duration<double>(m_options.idle));
    const auto after = server.now();
    if (after.at("open") < kMostHomes)
        throw std::runtime_error("not every home is there");
    std::printf("# %s: %.0f KiB at start, %.0f with the hall loaded and the leader in, %.0f with 2000 homes\n", kind,
                started, before, after.at("rss"));
    const auto each = [&](double from) { return (after.at("rss") - from) / kMostHomes; };
    if (limit > 0)
        m_figures.atMost(name, each(before), "KiB", limit);
    else
        m_figures.reported(name, each(before), "KiB");
    m_figures.reported((std::string(name) + "_from_start").c_str(), each(started), "KiB");
}

void Bench::stalled()
{
    // Once with the smallest socket buffer, so that the relay's own rule is what is seen; once with the kernel's usual
    // one, which swallows all ten seconds and hands them over in one go.
    double oldest = 0;
    for (const int receiveBuffer : {2048, 0}) {
        HomesPlan plan;
        plan.homes = 50;
        plan.places = 1;
        plan.stall = m_options.stall;
        plan.seconds = 1;
        plan.receiveBuffer = receiveBuffer;
        const auto heard = run("relay", plan).heard;
        std::printf("# stalled for %.0f s, SO_RCVBUF %d: %.0f stale frames lay in the kernels, then none older than "
                    "%.0f ms\n",
                    plan.stall, receiveBuffer, heard.at("held"), heard.at("oldest"));
        if (heard.at("live") < 25) // of some 45
            throw std::runtime_error("the home that stopped hears nothing");
        oldest = std::max(oldest, heard.at("oldest"));
    }
    m_figures.atMost("stalled_reader_age", oldest / 1000, "s", 1.5);
}

int Bench::run()
{
    const auto wanted = [&](const char* name) { return m_options.only.empty() || m_options.only == name; };
    if (wanted("fanout"))
        fanOut();
    if (wanted("tls"))
        fanOutTls();
    if (wanted("place"))
        placeChange();
    if (wanted("2000"))
        twoThousand();
    if (wanted("readings")) {
        readingsIn("readings_in_ratio", 4);
        readingsIn("readings_in_ratio_at_40", 40);
    }
    if (wanted("memory")) {
        memory("relay", "memory_per_home_plain", 12);
        memory("relay-tls", "memory_per_home_tls", 30);
        memory("net", "net_memory_per_home_plain", 0);
        memory("net-tls", "net_memory_per_home_tls", 0);
    }
    if (wanted("stalled"))
        stalled();
    return m_figures.exitCode();
}

int start(int count, char** arguments)
{
    raiseDescriptorLimit();
    if (count > 2 && std::strcmp(arguments[1], "--serve") == 0) {
        const std::string what = arguments[2];
        return what == "floor" ? runFloorServer() : runNetServer(what == "net-tls" ? Transport::tls : Transport::plain);
    }
    if (count == 2 + kHomesArguments && std::strcmp(arguments[1], "--homes") == 0)
        return runHomes(arguments + 2);
    Options options;
    for (int i = 1; i + 1 < count; i += 2) {
        const std::string name = arguments[i];
        const std::string value = arguments[i + 1];
        if (name == "--seconds")
            options.seconds = std::stod(value);
        else if (name == "--idle")
            options.idle = std::stod(value);
        else if (name == "--pairs")
            options.pairs = std::stoi(value);
        else if (name == "--only")
            options.only = value;
        else
            return std::fprintf(stderr, "unknown option %s\n", arguments[i]), 2;
    }
    return Bench(options).run();
}

} // namespace

int main(int count, char** arguments)
{
    try {
        return start(count, arguments);
    } catch (const std::exception& error) {
        return std::fprintf(stderr, "bench_relay: %s\n", error.what()), 1;
    }
}
