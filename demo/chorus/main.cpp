// voicehall-chorus: simulated homes on a real relay, by the real protocol. Each speaks with a synthetic voice that is
// metered by the real code; with --canned nobody speaks, and thousands fit on one machine.
#include "common/base/clock.h"
#include "common/script/reader.h"
#include "common/script/spoken_pace.h"
#include "common/wire/join_link.h"
#include "common/wire/script_json.h"
#include "demo/chorus/choir.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <arpa/inet.h>
#include <csignal>
#include <fstream>
#include <future>
#include <iostream>
#include <netdb.h>
#include <sstream>
#include <sys/resource.h>
#include <thread>
#include <unistd.h>

namespace
{

using namespace vh;
using namespace vh::chorus;

struct Options {
    std::string link;
    std::string helperLink;
    std::string leaderLink;
    std::string leadFile;
    std::uint32_t homes = 27;
    std::uint64_t seed = 1;
    double forSeconds = 0; ///< 0: until told to stop
    double clockSpeed = 1;
    double lateBySeconds = 20;
    bool letIn = false;
    bool tend = false;
    bool plain = false;
    bool canned = false;
    bool onlyAlone = false;
    unsigned threads = std::clamp(std::thread::hardware_concurrency(), 1U, 4U);
};

constexpr int kWrongOptions = 2;

int failed(const std::string& message)
{
    std::cerr << "voicehall-chorus: " << message << '\n';
    return kWrongOptions;
}

/// The first address of a name, as numbers. Waits for the resolver: start-up only.
Result<std::string> addressOf(std::string host)
{
    if (host.starts_with('[') && host.ends_with(']'))
        host = host.substr(1, host.size() - 2);
    addrinfo hints{};
    hints.ai_socktype = SOCK_STREAM;
    addrinfo* found = nullptr;
    if (const int error = ::getaddrinfo(host.c_str(), nullptr, &hints, &found); error != 0)
        return fail("address", "cannot find " + host + ": " + ::gai_strerror(error));
    std::array<char, INET6_ADDRSTRLEN> text{};
    ::getnameinfo(found->ai_addr, found->ai_addrlen, text.data(), text.size(), nullptr, 0, NI_NUMERICHOST);
    ::freeaddrinfo(found);
    return std::string(text.data());
}

Result<net::ClientOptions> relayOf(const wire::JoinLink& link, bool plain)
{
    net::ClientOptions relay;
    auto address = addressOf(link.host);
    if (!address)
        return tl::unexpected<Error>(address.error());
    relay.host = *address;
    relay.hostName = link.host;
    relay.port = link.port;
    if (plain)
        return relay;
    auto tls = net::TlsContext::client(link.pin);
    if (!tls)
        return tl::unexpected<Error>(tls.error());
    relay.tls = *tls;
    return relay;
}

Result<ClassScript> scriptFrom(const std::string& file)
{
    std::ifstream in(file, std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    if (!in)
        return fail("script", "cannot read " + file);
    if (file.ends_with(".json"))
        return wire::decodeScript(text.str());
    auto script = readClassScript(text.str(), file, plannedAsSpoken);
    if (script)
        return std::move(*script);
    const ScriptError& first = script.error().front();
    return fail("script", file + ":" + std::to_string(first.line) + ": " + first.message + " " + first.remedy);
}

Result<std::optional<wire::Token>> tokenOf(const std::string& link)
{
    if (link.empty())
        return std::optional<wire::Token>();
    const auto parsed = wire::parseJoinLink(link);
    if (!parsed)
        return tl::unexpected<Error>(parsed.error());
    if (!parsed->token)
        return fail("link", "This is not a one-time link: " + link);
    return parsed->token;
}

void print(const Totals& totals)
{
    std::cout << "homes in            " << totals.homesIn << " (knocks " << totals.knocks << ")\n"
              << "lines lost, back    " << totals.linesLost << ", " << totals.linesBack << '\n'
              << "scripts fetched     " << totals.scriptsFetched << '\n'
              << "places seen         " << totals.placesSeen << '\n'
              << "readings sent       " << totals.readingsSent << '\n'
              << "results made, acked " << totals.resultsMade << ", " << totals.resultsAcknowledged << '\n'
              << "spoken              " << totals.spoken.count() / 1000 << " s of sound\n"
              << "sound sent, got     " << totals.soundSent << ", " << totals.sound.frames << " frames; lost "
              << totals.sound.lostFrames << " in " << totals.sound.lostStretches
              << " stretches; later than the quickest, p50 " << totals.sound.delayMs(0.5) << " ms, p99 "
              << totals.sound.delayMs(0.99) << " ms\n"
              << "heard by all        " << totals.timesHeardByAll << '\n'
              << "lines written       " << totals.linesWritten << '\n'
              << "calls for help      " << totals.helpCalls << '\n'
              << "frames received     " << totals.framesReceived << " (" << totals.bytesReceived
              << " bytes, unreadable " << totals.unreadable << ")\n"
              << "sent again, given up " << totals.sentAgain << ", " << totals.givenUp << '\n';
    for (const auto& [code, times] : totals.refusals)
        std::cout << "refused             " << code << ": " << times << '\n';
    for (const auto& [why, times] : totals.closings)
        std::cout << "line closed         " << why << ": " << times << '\n';
    std::cout.flush();
}

/// One home needs one descriptor.
void allowManyLines()
{
    rlimit limit{};
    if (::getrlimit(RLIMIT_NOFILE, &limit) == 0) {
        limit.rlim_cur = limit.rlim_max;
        ::setrlimit(RLIMIT_NOFILE, &limit);
    }
}

double processorSeconds()
{
    rusage used{};
    ::getrusage(RUSAGE_SELF, &used);
    const auto seconds = [](const timeval& time) {
        return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
    };
    return seconds(used.ru_utime) + seconds(used.ru_stime);
}

/// Everything below happens on the loop; this thread only waits for the end.
int sing(const Options& options, const ChoirOptions& choirOptions, const std::optional<wire::Token>& helper,
         const std::optional<wire::Token>& leader, const std::optional<ClassScript>& script)
{
    // Every thread inherits the blocked signals; this one alone waits for them.
    sigset_t ends;
    sigemptyset(&ends);
    for (const int signal : {SIGTERM, SIGINT})
        sigaddset(&ends, signal);
    pthread_sigmask(SIG_BLOCK, &ends, nullptr);
    std::signal(SIGPIPE, SIG_IGN);

    const FastClock clock(options.clockSpeed);
    std::unique_ptr<Choir> choir;
    net::LoopThread thread;
    const auto began = std::chrono::steady_clock::now();
    thread.loop().post([&] {
        choir = std::make_unique<Choir>(thread.loop(), clock, choirOptions);
        choir->onReady = [&] {
            const std::chrono::duration<double> took = std::chrono::steady_clock::now() - began;
            std::cout << "ready after " << took.count() << " s" << std::endl;
            if (script && choir->leader())
                choir->leader()->lead(*script);
        };
        const bool leaderLetsIn = options.letIn && !helper;
        if (helper)
            choir->addHelper(*helper, {options.letIn, options.tend});
        if (leader)
            choir->addLeader(*leader, {leaderLetsIn, options.tend && !helper});
        choir->start();
    });

    if (options.forSeconds > 0) {
        const auto whole = std::chrono::duration<double>(options.forSeconds);
        const auto seconds = std::chrono::duration_cast<std::chrono::seconds>(whole);
        const timespec wait{seconds.count(),
                            std::chrono::duration_cast<std::chrono::nanoseconds>(whole - seconds).count()};
        while (::sigtimedwait(&ends, nullptr, &wait) < 0 && errno == EINTR) {
        }
    } else {
        int signal = 0;
        sigwait(&ends, &signal);
    }
    std::promise<Totals> last;
    double voiceSeconds = 0;
    thread.loop().post([&] {
        voiceSeconds = choir->voiceSeconds();
        last.set_value(choir->totals());
        choir.reset();
    });
    print(last.get_future().get());
    const std::chrono::duration<double> wall = std::chrono::steady_clock::now() - began;
    std::cout << "cores used          " << processorSeconds() / wall.count() << " (voices "
              << voiceSeconds / wall.count() << ")" << std::endl;
    return 0;
}

int run(const Options& options)
{
    const auto link = wire::parseJoinLink(options.link);
    if (!link)
        return failed(link.error().message);
    if (link->code.empty())
        return failed("The link has no code in it. It looks like voicehall://host/#c=CODE.");
    const auto helper = tokenOf(options.helperLink);
    const auto leader = tokenOf(options.leaderLink);
    if (!helper || !leader)
        return failed((helper ? leader : helper).error().message);
    if ((options.letIn || options.tend) && !*helper && !*leader)
        return failed("Somebody has to do that: give --helper-link or --leader-link.");
    std::optional<ClassScript> script;
    if (!options.leadFile.empty()) {
        if (!*leader)
            return failed("To lead a class takes --leader-link.");
        auto read = scriptFrom(options.leadFile);
        if (!read)
            return failed(read.error().message);
        script = std::move(*read);
    }
    auto relay = relayOf(*link, options.plain);
    if (!relay)
        return failed(relay.error().message);
    allowManyLines();

    ChoirOptions choir;
    choir.relay = std::move(*relay);
    choir.code = link->code;
    choir.homes = options.homes;
    choir.seed = options.seed;
    choir.voices = options.canned ? Voices::canned : options.onlyAlone ? Voices::whenAlone : Voices::always;
    choir.threads = options.threads;
    choir.lateBy = Millis{static_cast<Millis::rep>(options.lateBySeconds * 1000)};
    choir.beat = std::chrono::nanoseconds(static_cast<std::int64_t>(20e6 / options.clockSpeed));
    return sing(options, choir, *helper, *leader, script);
}

} // namespace

int main(int argc, char** argv)
{
    Options options;
    CLI::App app{"Simulated homes for a relay of Voicehall: real lines, synthetic voices, real metering."};
    app.add_option("--link", options.link, "The group's link, with its code: voicehall://HOST:PORT/#c=CODE&k=PIN")
        ->required();
    app.add_option("--homes", options.homes, "How many")->capture_default_str()->check(CLI::Range(1, 20'000));
    app.add_option("--seed", options.seed, "The same seed, the same people and numbers")->capture_default_str();
    app.add_option("--helper-link", options.helperLink, "A helper's one-time link: opens a helper's line as well");
    app.add_option("--leader-link", options.leaderLink, "A leader's one-time link: opens a leader's line as well");
    app.add_flag("--let-in", options.letIn, "The helper (or leader) lets these homes in, and nobody else");
    app.add_flag("--tend", options.tend, "The helper (or leader) lets lines through and answers calls for help");
    app.add_option("--lead", options.leadFile, "A class script (YAML, or .json): opened and led once all are in");
    app.add_option("--for", options.forSeconds, "Stop after so many seconds; 0: on SIGTERM or SIGINT")
        ->check(CLI::NonNegativeNumber);
    app.add_option("--late-by", options.lateBySeconds, "Seconds after which the late comers come")
        ->capture_default_str()
        ->check(CLI::NonNegativeNumber);
    app.add_option("--clock-speed", options.clockSpeed, "For a relay whose clock runs so many times as fast, too")
        ->capture_default_str()
        ->check(CLI::Range(0.1, 100.0));
    app.add_flag("--canned", options.canned,
                 "Nobody speaks: readings from a table instead of measured ones, for load with thousands of homes");
    app.add_flag("--only-alone", options.onlyAlone, "Speak only in turns in which the leader is silent: quicker");
    app.add_option("--threads", options.threads, "That speak and measure")
        ->capture_default_str()
        ->check(CLI::Range(1, 64));
    app.add_flag("--plain", options.plain, "Without TLS: only for a relay on this machine that has none");
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) { // also --help, which is none
        return app.exit(error) == 0 ? 0 : kWrongOptions;
    }
    return run(options);
}
