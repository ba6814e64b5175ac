#include "tests/bench/let_through_homes.h"

#include "common/wire/codec.h"
#include "tests/bench/relay_hall_dialect.h"
#include "tests/bench/relay_homes.h"
#include "tests/bench/relay_process.h"
#include "tests/bench/relay_seed.h"

#include <algorithm>
#include <charconv>
#include <cstdio>
#include <stdexcept>

namespace vh::bench
{

namespace
{

constexpr std::string_view kBoard = R"({"type":"board")";
constexpr std::string_view kItem = R"("item":)";
constexpr auto kRest = std::chrono::milliseconds(500); ///< after a thousand have come in

/// When each item was due, on this machine's steady clock; what homes hear of the board is measured against it.
class BoardDialect final : public HallDialect
{
public:
    using HallDialect::HallDialect;

    void isDue(std::uint64_t item, Instant due)
    {
        const auto ago = std::chrono::system_clock::now().time_since_epoch() - due.time_since_epoch();
        m_due[item] = Stamp::now(0).steadyNs - std::chrono::nanoseconds(ago).count();
    }
    /// Thousands hear each of them, so only the number that counts is read.
    std::optional<Stamp> placeStamp(std::string_view text) override
    {
        const auto at = text.starts_with(kBoard) ? text.find(kItem) : std::string_view::npos;
        if (at == std::string_view::npos)
            return {};
        std::uint64_t item = 0;
        std::from_chars(text.data() + at + kItem.size(), text.data() + text.size(), item);
        const auto due = m_due.find(item);
        return due == m_due.end() ? std::nullopt
                                  : std::optional<Stamp>({static_cast<std::uint32_t>(item), due->second});
    }

private:
    std::unordered_map<std::uint64_t, std::int64_t> m_due;
};

class Helper final : public net::ClientHandler
{
public:
    Helper(GroupId group, BoardDialect& dialect, std::function<void()> whenIn)
        : m_group(group), m_dialect(dialect), m_whenIn(std::move(whenIn))
    {
    }
    void onOpen(net::WsClient& client) override { client.sendText(wire::encode(wire::Hello{})); }
    void onText(net::WsClient& client, std::string_view text) override
    {
        const auto message = wire::decodeToClient(text);
        if (!message || std::holds_alternative<wire::Refused>(*message))
            throw std::runtime_error("the relay said: " + std::string(text));
        if (const auto* challenge = std::get_if<wire::Challenge>(&*message))
            comeIn(client, *challenge);
        else if (std::holds_alternative<wire::Welcome>(*message))
            m_whenIn();
        else if (const auto* desk = std::get_if<wire::OnDesk>(&*message))
            for (const wire::DeskItem& item : desk->items)
                letThrough(client, item);
    }

private:
    void comeIn(net::WsClient& client, const wire::Challenge& challenge) const
    {
        const auto keys = keysOf(kHelperNumber);
        wire::Login login;
        login.group = m_group;
        login.key = keys.publicKey;
        login.role = Role::moderator;
        login.signature =
            sign(keys, wire::loginText(wire::Purpose::login, m_group.hex(), challenge.nonce, Role::moderator));
        client.sendText(wire::encode(login));
    }
    void letThrough(net::WsClient& client, const wire::DeskItem& item)
    {
        if (item.state == wire::DeskState::held)
            client.sendText(
                wire::encode(wire::Decide{RequestId::random(), item.item, item.change, wire::Decision::show}));
        else if (item.state == wire::DeskState::goingUp)
            m_dialect.isDue(item.item, item.due.value());
    }

    GroupId m_group;
    BoardDialect& m_dialect;
    std::function<void()> m_whenIn;
};

class Class
{
public:
    explicit Class(const LetThroughPlan& plan)
        : m_plan(plan), m_group(GroupId::fromHex(plan.group).value()),
          m_dialect(std::make_shared<BoardDialect>(m_group)), m_homes(m_loop, load())
    {
    }
    void run()
    {
        m_homes.lead([this] { m_homes.join([this] { later(kRest, [this] { helperComes(); }); }); });
        m_loop.run();
    }

private:
    Load load()
    {
        m_options.port = m_plan.port;
        m_options.rules = {wire::kPath, wire::kSubprotocol};
        return {m_options, m_dialect, m_plan.homes, m_plan.frames, m_plan.readings, 0};
    }
    void later(std::chrono::nanoseconds delay, std::function<void()> task)
    {
        m_timers.push_back(m_loop.after(delay, std::move(task)));
    }
    void helperComes()
    {
        auto helper = std::make_shared<Helper>(m_group, *m_dialect, [this] {
            m_homes.start();
            later(kRest, [this] { begin(); });
        });
        m_helper = net::WsClient::connect(m_loop, m_options, helper);
    }
    void begin()
    {
        m_homes.begin();
        m_cpuBefore = cpuUsed();
        m_wallBefore = std::chrono::steady_clock::now();
        const auto each = std::chrono::nanoseconds(static_cast<std::int64_t>(1e9 / m_plan.linesPerSecond));
        m_writing = m_loop.every(each, [this] { write(); });
    }
    void write()
    {
        if (m_written == m_plan.lines) {
            m_writing.cancel();
            return later(wire::kGoesUpAfter + std::chrono::seconds(1), [this] { result(); });
        }
        auto& home = m_homes.home(static_cast<std::size_t>(m_written) * 7 % m_plan.homes);
        home.sendText(wire::encode(wire::Write{RequestId::random(), "Line " + std::to_string(++m_written)}));
    }
    void result()
    {
        const auto wall = std::chrono::steady_clock::now() - m_wallBefore;
        const auto busy =
            100.0 * static_cast<double>((cpuUsed() - m_cpuBefore).count()) / static_cast<double>(wall.count());
        m_homes.stop();
        auto& ages = m_homes.heard().placeMs;
        std::sort(ages.begin(), ages.end());
        const auto at = [&](double share) {
            return ages.empty() ? 0 : ages[static_cast<std::size_t>(share * static_cast<double>(ages.size() - 1))];
        };
        std::printf("result p50=%f p99=%f max=%f shown=%zu ended=%llu busy=%f\n", at(0.5), at(0.99), at(1), ages.size(),
                    static_cast<unsigned long long>(m_homes.heard().ended), busy);
        std::fflush(stdout);
        m_loop.stop();
    }

    LetThroughPlan m_plan;
    GroupId m_group;
    net::ClientOptions m_options;
    std::shared_ptr<BoardDialect> m_dialect;
    net::Loop m_loop;
    Homes m_homes;
    std::shared_ptr<net::WsClient> m_helper;
    std::vector<net::Loop::Timer> m_timers;
    net::Loop::Timer m_writing;
    std::chrono::nanoseconds m_cpuBefore{};
    std::chrono::steady_clock::time_point m_wallBefore;
    int m_written = 0;
};

} // namespace

int runLetThroughHomes(const LetThroughPlan& plan)
{
    raiseDescriptorLimit();
    Class(plan).run();
    return 0;
}

} // namespace vh::bench
