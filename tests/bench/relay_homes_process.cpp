#include "tests/bench/relay_homes_process.h"

#include "common/base/text.h"
#include "tests/bench/relay_hall_dialect.h"
#include "tests/bench/relay_homes.h"

#include <algorithm>
#include <cstdio>
#include <stdexcept>
#include <unistd.h>

namespace vh::bench
{

namespace
{

double percentile(std::vector<double>& values, double share)
{
    if (values.empty())
        return 0;
    const auto at = static_cast<std::size_t>(share * static_cast<double>(values.size() - 1));
    std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(at), values.end());
    return values[at];
}

HomesPlan planFrom(char** arguments)
{
    const auto number = [&](int i) { return std::stod(arguments[i]); };
    return {static_cast<std::uint16_t>(number(0)),
            arguments[1],
            arguments[2],
            static_cast<std::size_t>(number(3)),
            number(4),
            number(5),
            number(6),
            number(7),
            number(8),
            static_cast<int>(number(9))};
}

Load loadOf(const HomesPlan& plan)
{
    Load load;
    load.options.port = plan.port;
    load.options.receiveBufferBytes = plan.receiveBuffer;
    if (const auto bytes = bytesOfHex(plan.pin); bytes && bytes->size() == net::KeyPin().size()) {
        net::KeyPin pin;
        std::copy(bytes->begin(), bytes->end(), pin.begin());
        load.options.tls = net::TlsContext::client(pin).value();
    }
    if (const auto group = GroupId::fromHex(plan.group)) {
        load.options.rules = {wire::kPath, wire::kSubprotocol};
        load.dialect = std::make_shared<HallDialect>(*group);
    } else {
        load.dialect = std::make_shared<BareDialect>();
    }
    load.homes = plan.homes;
    load.framesPerSecond = plan.frames;
    load.readingsPerSecond = plan.readings;
    load.placesPerSecond = plan.places;
    return load;
}

void say(const char* word)
{
    std::printf("%s\n", word);
    std::fflush(stdout);
}

/// One run from the first line to the result.
class Course
{
public:
    explicit Course(HomesPlan plan) : Course(plan, loadOf(plan)) {}
    void run()
    {
        m_homes.lead([this] {
            say("led");
            char line[16];
            if (::read(0, line, sizeof line) <= 0)
                return m_loop.stop();
            m_homes.join([this] {
                say("joined");
                // Until what coming in has left behind is done.
                later(std::chrono::milliseconds(500), [this] {
                    m_homes.start();
                    later(std::chrono::milliseconds(300), [this] { begin(); });
                });
            });
        });
        m_loop.run();
    }

private:
    Course(HomesPlan plan, Load load)
        : m_plan(std::move(plan)), m_dialect(load.dialect), m_homes(m_loop, std::move(load))
    {
    }
    static std::chrono::nanoseconds secondsOf(double value)
    {
        return std::chrono::duration_cast<std::chrono::nanoseconds>(std::chrono::duration<double>(value));
    }
    void later(std::chrono::nanoseconds delay, std::function<void()> task)
    {
        m_timers.push_back(m_loop.after(delay, std::move(task)));
    }
    void begin()
    {
        m_homes.begin();
        m_cpuBefore = cpuUsed();
        m_wallBefore = std::chrono::steady_clock::now();
        say("begin");
        if (m_plan.stall == 0)
            return later(secondsOf(m_plan.seconds), [this] { finish(); });
        m_homes.home(0).pauseReading();
        later(secondsOf(m_plan.stall), [this] {
            comeBack();
            later(secondsOf(m_plan.seconds), [this] { finish(); });
        });
    }
    /// What lay in the home's own socket comes at once; a jitter buffer then plays the newest. From its first playout
    /// on, everything that arrives counts.
    void comeBack()
    {
        static constexpr auto kFirstPlayout = std::chrono::milliseconds(100);
        m_homes.watch(0, [this, back = std::chrono::steady_clock::now()](const Stamp& stamp) {
            if (std::chrono::steady_clock::now() - back < kFirstPlayout) {
                m_held += stamp.ageMs() > 1000 ? 1 : 0;
            } else {
                m_oldest = std::max(m_oldest, stamp.ageMs());
                ++m_live;
            }
        });
        m_homes.home(0).resumeReading();
    }
    void finish()
    {
        m_homes.stop();
        const auto wall = std::chrono::steady_clock::now() - m_wallBefore;
        const auto busy =
            100.0 * static_cast<double>((cpuUsed() - m_cpuBefore).count()) / static_cast<double>(wall.count());
        say("end");
        later(std::chrono::milliseconds(200), [this, busy] { result(busy); });
    }
    void result(double busy)
    {
        // Each home's level at least once, or the readings were not taken.
        if (const auto levels = m_dialect->levelsShown(); levels && m_plan.readings > 0 && *levels < m_plan.homes)
            throw std::runtime_error("the leader does not see the homes' levels");
        auto& heard = m_homes.heard();
        std::printf("result p50=%f p99=%f max=%f place99=%f places=%zu frames=%zu lost=%llu ended=%llu readings=%llu "
                    "busy=%f oldest=%f held=%f live=%zu\n",
                    percentile(heard.soundMs, 0.5), percentile(heard.soundMs, 0.99), percentile(heard.soundMs, 1),
                    percentile(heard.placeMs, 0.99), heard.placeMs.size(), heard.soundMs.size(),
                    static_cast<unsigned long long>(heard.lost), static_cast<unsigned long long>(heard.ended),
                    static_cast<unsigned long long>(heard.readingsSent), busy, m_oldest, m_held, m_live);
        std::fflush(stdout);
        // The lines stay open, and the leader goes on saying that she leads, until the bench has what it wants.
        m_input = std::make_unique<Input>(m_loop);
    }

    struct Input final : net::PollTarget {
        explicit Input(net::Loop& onLoop) : loop(onLoop) { added = loop.poller().add(0, *this, EPOLLIN); }
        void onReady(std::uint32_t) override
        {
            loop.poller().remove(0, *this);
            loop.stop();
        }
        net::Loop& loop;
        bool added = false;
    };

    HomesPlan m_plan;
    std::shared_ptr<Dialect> m_dialect;
    net::Loop m_loop;
    Homes m_homes;
    std::vector<net::Loop::Timer> m_timers;
    std::chrono::nanoseconds m_cpuBefore{};
    std::chrono::steady_clock::time_point m_wallBefore;
    double m_oldest = 0;
    double m_held = 0;
    std::size_t m_live = 0;
    std::unique_ptr<Input> m_input;
};

} // namespace

Process startHomes(const HomesPlan& plan, int core)
{
    const auto text = [](double value) { return std::to_string(value); };
    return Process("/proc/self/exe",
                   {"--homes", std::to_string(plan.port), plan.pin, plan.group, std::to_string(plan.homes),
                    text(plan.frames), text(plan.readings), text(plan.places), text(plan.seconds), text(plan.stall),
                    std::to_string(plan.receiveBuffer)},
                   core);
}

int runHomes(char** arguments)
{
    raiseDescriptorLimit();
    Course(planFrom(arguments)).run();
    return 0;
}

} // namespace vh::bench
