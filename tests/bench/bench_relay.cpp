// The relay's fan-out, measured: two server processes compared in turn on one core, the homes in a process of their own
// on the other. Run it on a quiet machine from the release preset: `bench_relay` (about 90 s), `bench_relay --seconds 6
// --idle 60` for the long tier. A run whose homes kept their core 90 % busy is void, and said to be.
#include "common/base/text.h"
#include "tests/bench/bench_figure.h"
#include "tests/bench/relay_homes.h"
#include "tests/bench/relay_process.h"
#include "tests/bench/relay_send_loop.h"
#include "tests/bench/relay_servers.h"

#include <cstring>
#include <map>
#include <sys/epoll.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

using namespace vh::bench;
using Values = std::map<std::string, double>;

namespace
{

constexpr int kServerCore = 0;
constexpr int kHomesCore = 1;
constexpr double kVoidAbove = 90; // per cent of the homes' core

struct Options {
    double seconds = 1.5; ///< of each measured window
    double idle = 5;      ///< before memory is read
    double stall = 10;
    int pairs = 7;
    std::string only;
};

double percentile(std::vector<double>& values, double share)
{
    if (values.empty())
        return 0;
    const auto at = static_cast<std::size_t>(share * static_cast<double>(values.size() - 1));
    std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(at), values.end());
    return values[at];
}

// ---- the homes' process

/// Arguments after --homes: port, pin or -, count, frames/s, readings/s, places/s, seconds, stall seconds,
/// SO_RCVBUF of the homes or 0.
int runHomes(char** arguments)
{
    const auto number = [&](int i) { return std::stod(arguments[i]); };
    raiseDescriptorLimit();
    vh::net::Loop loop;
    Load load;
    load.options.port = static_cast<std::uint16_t>(number(0));
    if (const auto bytes = vh::bytesOfHex(arguments[1]); bytes && bytes->size() == vh::net::KeyPin().size()) {
        vh::net::KeyPin pin;
        std::copy(bytes->begin(), bytes->end(), pin.begin());
        load.options.tls = vh::net::TlsContext::client(pin).value();
    }
    load.homes = static_cast<std::size_t>(number(2));
    load.framesPerSecond = number(3);
    load.readingsPerSecond = number(4);
    load.placesPerSecond = number(5);
    load.options.receiveBufferBytes = static_cast<int>(number(8));
    const auto seconds = std::chrono::duration<double>(number(6));
    const auto stall = std::chrono::duration<double>(number(7));
    const auto in = [](auto duration) { return std::chrono::duration_cast<std::chrono::nanoseconds>(duration); };

    Homes homes(loop, std::move(load));
    std::vector<vh::net::Loop::Timer> timers;
    const auto say = [](const char* word) {
        std::printf("%s\n", word);
        std::fflush(stdout);
    };
    std::chrono::nanoseconds cpuBefore{};
    std::chrono::steady_clock::time_point wallBefore;
    double oldest = 0;
    double held = 0;
    std::size_t live = 0;
    const auto finish = [&] {
        homes.stop();
        const auto wall = std::chrono::steady_clock::now() - wallBefore;
        const auto busy =
            100.0 * static_cast<double>((cpuUsed() - cpuBefore).count()) / static_cast<double>(wall.count());
        say("end");
        timers.push_back(loop.after(std::chrono::milliseconds(200), [&, busy] {
            auto& heard = homes.heard();
            const auto frames = heard.soundMs.size();
            std::printf("result p50=%f p99=%f max=%f place99=%f frames=%zu lost=%llu ended=%llu readings=%llu busy=%f "
                        "oldest=%f held=%f live=%zu\n",
                        percentile(heard.soundMs, 0.5), percentile(heard.soundMs, 0.99), percentile(heard.soundMs, 1),
                        percentile(heard.placeMs, 0.99), frames, static_cast<unsigned long long>(heard.lost),
                        static_cast<unsigned long long>(heard.ended),
                        static_cast<unsigned long long>(heard.readingsSent), busy, oldest, held, live);
            std::fflush(stdout);
            loop.stop();
        }));
    };
    homes.join([&] {
        say("joined");
        homes.start();
        timers.push_back(loop.after(std::chrono::milliseconds(300), [&] {
            homes.begin();
            cpuBefore = cpuUsed();
            wallBefore = std::chrono::steady_clock::now();
            say("begin");
            if (stall.count() == 0) {
                timers.push_back(loop.after(in(seconds), finish));
                return;
            }
            homes.home(0).pauseReading();
            timers.push_back(loop.after(in(stall), [&] {
                // What lay in the home's own socket comes at once; a jitter buffer then plays the newest. From its
                // first playout on, everything that arrives counts.
                constexpr auto kFirstPlayout = std::chrono::milliseconds(100);
                const auto back = std::chrono::steady_clock::now();
                homes.watch(0, [&, back](const Stamp& stamp) {
                    if (std::chrono::steady_clock::now() - back < kFirstPlayout) {
                        held += stamp.ageMs() > 1000 ? 1 : 0;
                    } else {
                        oldest = std::max(oldest, stamp.ageMs());
                        ++live;
                    }
                });
                homes.home(0).resumeReading();
                timers.push_back(loop.after(in(seconds), finish));
            }));
        }));
    });
    loop.run();
    char rest = 0;
    return ::read(0, &rest, 1) < 0 ? 1 : 0; // stays until the bench has what it wants
}

// ---- what the bench asks of the two processes

struct Run {
    std::string server = "hall";
    std::size_t homes = 1000;
    double frames = 50;
    double readings = 4;
    double places = 5;
    double seconds = 1.5;
    double stall = 0;
    int receiveBuffer = 0;
};

struct Outcome {
    Values before;
    Values after;
    Values heard;
    [[nodiscard]] double grown(const char* name) const { return after.at(name) - before.at(name); }
    /// Microseconds of the server's processor for each frame delivered or reading taken.
    [[nodiscard]] double cpuMicrosPer(const char* name) const { return grown("cpu") / 1000 / grown(name); }
};

std::pair<double, std::string> addressOf(Process& server, const std::string& kind)
{
    std::string pin = "-";
    if (kind == "hall-tls")
        pin = server.hear().substr(std::strlen("pin "));
    return {server.waitFor("port").at("port"), pin};
}

Outcome run(const Run& what)
{
    Process server({"--serve", what.server}, kServerCore);
    const auto [port, pin] = addressOf(server, what.server);
    const auto text = [](double value) { return std::to_string(value); };
    Process homes({"--homes", text(port), pin, std::to_string(what.homes), text(what.frames), text(what.readings),
                   text(what.places), text(what.seconds), text(what.stall), std::to_string(what.receiveBuffer)},
                  kHomesCore);
    Outcome outcome;
    homes.waitFor("begin");
    server.say("stat");
    outcome.before = server.waitFor("stat");
    homes.waitFor("end");
    server.say("stat");
    outcome.after = server.waitFor("stat");
    outcome.heard = homes.waitFor("result");
    return outcome;
}

void fanOut(const Options& options, Figures& figures)
{
    std::vector<double> ratios, floorMicros, hallMicros, p99, place99, perSend, pairRatios, localRatios;
    double busiest = 0;
    for (int i = 0; i < options.pairs; ++i) {
        Run what;
        what.seconds = options.seconds;
        // In turn, and in turn which goes first.
        Outcome floor, hall;
        for (int half = 0; half < 2; ++half) {
            what.server = (half + i) % 2 == 0 ? "floor" : "hall";
            (what.server == "floor" ? floor : hall) = run(what);
        }
        floorMicros.push_back(floor.cpuMicrosPer("frames"));
        hallMicros.push_back(hall.cpuMicrosPer("frames"));
        ratios.push_back(hallMicros.back() / floorMicros.back());
        const auto pairMicros = sendLoopMicros(Pairs::tcp, what.homes, options.seconds / 2, kServerCore, kHomesCore);
        const auto localMicros = sendLoopMicros(Pairs::local, what.homes, options.seconds / 2, kServerCore, kHomesCore);
        pairRatios.push_back(floorMicros.back() / pairMicros);
        localRatios.push_back(floorMicros.back() / localMicros);
        p99.push_back(hall.heard.at("p99"));
        place99.push_back(hall.heard.at("place99"));
        perSend.push_back(hall.grown("frames") / hall.grown("sends"));
        busiest = std::max(busiest, hall.heard.at("busy"));
        std::printf("# pair %d: floor %.2f us p99 %.1f ms, hall %.2f us p99 %.1f ms lost %.0f, homes' core %.0f %%\n",
                    i + 1, floorMicros.back(), floor.heard.at("p99"), hallMicros.back(), p99.back(),
                    hall.heard.at("lost"), hall.heard.at("busy"));
    }
    const auto pairs = static_cast<std::size_t>(options.pairs);
    Figures::spread("fanout_cpu_ratio", spreadOf(ratios), pairs);
    Figures::spread("fanout_p99_1000", spreadOf(p99), pairs);
    figures.reported("floor_us_per_message", spreadOf(floorMicros).median, "us");
    figures.reported("fanout_us_per_message", spreadOf(hallMicros).median, "us");
    Figures::spread("floor_ratio_to_pairs", spreadOf(pairRatios), pairs);
    // The floor's own reading, waiting and upgrade are in its figure; a pair over TCP pays for the same network stack.
    figures.atMost("floor_ratio_to_pairs", spreadOf(pairRatios).median, "x", 1.1);
    figures.reported("floor_ratio_to_unix_socketpairs", spreadOf(localRatios).median, "x");
    figures.atMost("fanout_cpu_ratio", spreadOf(ratios).median, "x", 1.15);
    if (busiest >= kVoidAbove)
        std::printf("# void: the homes' core was %.0f %% busy\n", busiest);
    figures.atMost("fanout_p99_1000", spreadOf(p99).median, "ms", 25);
    figures.atMost("place_change_p99_1000", spreadOf(place99).median, "ms", 50);
    figures.reported("frames_per_send", spreadOf(perSend).median, "frames");
}

void twoThousand(const Options& options, Figures& figures)
{
    Run what;
    what.homes = 2000;
    what.seconds = 2 * options.seconds;
    const auto outcome = run(what);
    const auto busy = outcome.heard.at("busy");
    std::printf("# 2000 homes: p50 %.1f p99 %.1f max %.1f ms, homes' core %.0f %% busy%s, server %.0f %%\n",
                outcome.heard.at("p50"), outcome.heard.at("p99"), outcome.heard.at("max"), busy,
                busy >= kVoidAbove ? ": VOID" : "", outcome.grown("cpu") / 1e7 / what.seconds);
    figures.atMost("fanout_p99_2000", outcome.heard.at("p99"), "ms", 40);
    figures.atMost("fanout_lost_2000", outcome.heard.at("lost") + outcome.grown("skipped"), "frames", 0);
    figures.reported("frames_per_send_2000", outcome.grown("frames") / outcome.grown("sends"), "frames");
}

void readingsIn(const Options& options, Figures& figures, const char* name, double perSecond)
{
    std::vector<double> ratios, floorMicros, hallMicros;
    for (int i = 0; i < options.pairs; ++i) {
        Run what;
        what.frames = 0;
        what.places = 0;
        what.readings = perSecond;
        what.seconds = options.seconds;
        Outcome floor, hall;
        for (int half = 0; half < 2; ++half) {
            what.server = (half + i) % 2 == 0 ? "floor" : "hall";
            (what.server == "floor" ? floor : hall) = run(what);
        }
        floorMicros.push_back(floor.cpuMicrosPer("readings"));
        hallMicros.push_back(hall.cpuMicrosPer("readings"));
        ratios.push_back(hallMicros.back() / floorMicros.back());
    }
    Figures::spread(name, spreadOf(ratios), static_cast<std::size_t>(options.pairs));
    std::printf("# %s: bare reader %.2f us, ours %.2f us a reading\n", name, spreadOf(floorMicros).median,
                spreadOf(hallMicros).median);
    figures.atMost(name, spreadOf(ratios).median, "x", 1.3);
}

/// (RSS(2000) - RSS(0)) / 2000 after ten frames each way and a rest.
void memory(const Options& options, Figures& figures, const char* server, const char* name, double limit)
{
    constexpr std::size_t kHomes = 2000;
    Process relay({"--serve", server}, kServerCore);
    const auto [port, pin] = addressOf(relay, server);
    relay.say("stat");
    const auto before = relay.waitFor("stat").at("rss");
    // Ten frames and ten readings for each: two seconds at five a second.
    Process homes({"--homes", std::to_string(port), pin, std::to_string(kHomes), "5", "5", "0", "2", "0", "0"},
                  kHomesCore);
    homes.waitFor("result");
    std::this_thread::sleep_for(std::chrono::duration<double>(options.idle));
    relay.say("stat");
    const auto after = relay.waitFor("stat");
    if (after.at("open") < kHomes)
        throw std::runtime_error("not every home is there");
    figures.atMost(name, (after.at("rss") - before) / kHomes, "KiB", limit);
}

void stalled(const Options& options, Figures& figures)
{
    // Once with the smallest socket buffer, so that the relay's own rule is what is seen; once with the kernel's usual
    // one, which swallows all ten seconds and hands them over in one go.
    double oldest = 0;
    for (const int receiveBuffer : {2048, 0}) {
        Run what;
        what.homes = 50;
        what.stall = options.stall;
        what.seconds = 1;
        what.receiveBuffer = receiveBuffer;
        const auto heard = run(what).heard;
        std::printf("# stalled for %.0f s, SO_RCVBUF %d: %.0f stale frames lay in the kernels, then none older than "
                    "%.0f ms\n",
                    options.stall, receiveBuffer, heard.at("held"), heard.at("oldest"));
        if (heard.at("live") < 25) // of some 45
            throw std::runtime_error("the home that stopped hears nothing");
        oldest = std::max(oldest, heard.at("oldest"));
    }
    figures.atMost("stalled_reader_age", oldest / 1000, "s", 1.5);
}

int measure(const Options& options)
{
    Figures figures;
    const auto wanted = [&](const char* name) { return options.only.empty() || options.only == name; };
    if (wanted("fanout"))
        fanOut(options, figures);
    if (wanted("2000"))
        twoThousand(options, figures);
    if (wanted("readings")) {
        readingsIn(options, figures, "readings_in_ratio", 4);
        readingsIn(options, figures, "readings_in_ratio_at_40", 40);
    }
    if (wanted("memory")) {
        memory(options, figures, "hall", "memory_per_home_plain", 12);
        memory(options, figures, "hall-tls", "memory_per_home_tls", 30);
    }
    if (wanted("stalled"))
        stalled(options, figures);
    return figures.exitCode();
}

} // namespace

int main(int count, char** arguments)
{
    if (count > 2 && std::strcmp(arguments[1], "--serve") == 0) {
        raiseDescriptorLimit();
        const std::string what = arguments[2];
        return what == "floor" ? runFloorServer()
                               : runHallServer(what == "hall-tls" ? Transport::tls : Transport::plain);
    }
    if (count > 10 && std::strcmp(arguments[1], "--homes") == 0)
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
    return measure(options);
}
