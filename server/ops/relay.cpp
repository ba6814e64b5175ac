#include "server/ops/relay.h"

#include "common/wire/join_link.h"
#include "server/ops/metrics.h"

#include <fstream>
#include <future>
#include <spdlog/spdlog.h>
#include <sstream>

namespace vh::ops
{

namespace
{

constexpr std::chrono::seconds kGoodbye{1};
/// What a desk is sent on joining (seats of thousands, all that is to read) and parts that were asked for.
constexpr std::size_t kBulkBytes = 4 * 1024 * 1024;
constexpr std::chrono::hours kSweepEvery{24};

/// Asks something on a loop's own thread; nothing when the loop does not answer in a second.
template <class Ask>
auto askOn(net::Loop& loop, Ask ask) -> std::optional<decltype(ask())>
{
    auto promise = std::make_shared<std::promise<decltype(ask())>>();
    auto answer = promise->get_future();
    loop.post([promise, ask = std::move(ask)] { promise->set_value(ask()); });
    if (answer.wait_for(std::chrono::seconds(1)) != std::future_status::ready)
        return std::nullopt;
    return answer.get();
}

std::string contentsOf(const std::filesystem::path& file)
{
    std::ifstream in(file, std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

Result<void> writePrivately(const std::filesystem::path& file, const std::string& text)
{
    std::ofstream(file).close();
    std::error_code error;
    std::filesystem::permissions(file, std::filesystem::perms::owner_read | std::filesystem::perms::owner_write, error);
    std::ofstream out(file, std::ios::binary);
    out << text;
    if (error || !out.flush())
        return fail("certificate", "cannot write " + file.string());
    return {};
}

} // namespace

store::StoreOptions storeOptions(const Config& config, store::StoreOptions::Hold hold)
{
    store::StoreOptions options;
    options.file = config.data / "voicehall.sqlite";
    options.hold = hold;
    return options;
}

Result<net::CertificatePem> readCertificate(const Config& config)
{
    net::CertificatePem pem{contentsOf(config.certificate), contentsOf(config.key)};
    if (pem.chain.empty() || pem.key.empty())
        return fail("certificate", "cannot read " + config.certificate.string() + " or " + config.key.string());
    return pem;
}

Result<net::CertificatePem> ownCertificate(const Config& config)
{
    const auto chainFile = config.data / "own-certificate.pem";
    const auto keyFile = config.data / "own-key.pem";
    if (std::filesystem::exists(chainFile) && std::filesystem::exists(keyFile))
        return net::CertificatePem{contentsOf(chainFile), contentsOf(keyFile)};
    std::vector<std::string> names{"localhost", "127.0.0.1"};
    if (!config.host.empty())
        names.push_back(config.host);
    auto pem = net::makeSelfSigned(names);
    if (!pem)
        return pem;
    if (auto written = writePrivately(keyFile, pem->key); !written)
        return tl::unexpected<Error>(written.error());
    if (auto written = writePrivately(chainFile, pem->chain); !written)
        return tl::unexpected<Error>(written.error());
    return pem;
}

Relay::Relay(Config config, const Clock* clock) : m_config(std::move(config)), m_clock(clock ? *clock : m_ownClock) {}

Relay::~Relay()
{
    stop();
}

Result<void> Relay::openStore()
{
    std::error_code error;
    std::filesystem::create_directories(m_config.data, error);
    if (error)
        return fail("data", "cannot make the folder " + m_config.data.string() + ": " + error.message());
    auto opening = store::Store::open(storeOptions(m_config, store::StoreOptions::Hold::alone));
    if (!opening.store)
        return fail("store", opening.message);
    spdlog::info("store {}", store::nameOf(opening.outcome));
    m_store = std::move(opening.store);
    return {};
}

Result<void> Relay::openTls()
{
    if (m_config.tls == Tls::off)
        return {};
    const auto pem = m_config.tls == Tls::certificate ? readCertificate(m_config) : ownCertificate(m_config);
    if (!pem)
        return tl::unexpected<Error>(pem.error());
    auto context = net::TlsContext::server(*pem);
    if (!context)
        return tl::unexpected<Error>(context.error());
    m_tls = *context;
    if (m_config.tls == Tls::selfSigned)
        m_pin = m_tls->pin();
    return {};
}

void Relay::openPictures()
{
    auto works = std::make_unique<hall::PictureWorks>(photos::photosProgram());
    if (const auto tried = works->maker.tryOut())
        m_pictures = std::move(works);
    else
        spdlog::warn("no pictures are taken: {}. Everything else works.", tried.error().message);
}

Result<void> Relay::start()
{
    if (auto right = check(m_config); !right)
        return right;
    if (auto opened = openStore(); !opened)
        return opened;
    if (auto opened = openTls(); !opened)
        return opened;
    openPictures();

    hall::HallsOptions halls;
    for (unsigned i = 0; i < m_config.loops; ++i) {
        m_loops.push_back(std::make_unique<net::LoopThread>());
        halls.loops.push_back(&m_loops.back()->loop());
    }
    halls.store = m_store.get();
    halls.clock = &m_clock;
    halls.pictures = m_pictures.get();
    if (m_pin) {
        const auto words = wire::fourWords(*m_pin);
        halls.keyWords.assign(words.begin(), words.end());
    }
    m_halls = std::make_unique<hall::Halls>(std::move(halls));

    net::ListenerOptions options;
    options.address = {m_config.address, m_config.port, m_config.unixPath};
    options.rules.path = wire::kPath;
    options.rules.subprotocol = wire::kSubprotocol;
    options.tls = m_tls;
    options.proxies.local = !m_config.unixPath.empty();
    for (const std::string& proxy : m_config.proxies)
        if (auto range = net::AddressRange::parse(proxy))
            options.proxies.ranges.push_back(*range);
    options.maxConnections = m_config.maxConnections;
    options.limits.outgoing.bulkBytes = kBulkBytes;
    options.makeHandler = [this](net::Connection& connection) { return m_halls->makeSession(connection); };
    net::Loop& accepting = m_loops.front()->loop();
    auto listening = std::make_shared<std::promise<Result<void>>>();
    accepting.post([this, &accepting, options, listening]() mutable {
        auto listener = net::Listener::open(accepting, std::move(options));
        if (listener)
            m_listener = std::move(*listener);
        listening->set_value(listener ? Result<void>() : tl::unexpected<Error>(listener.error()));
    });
    if (auto listens = listening->get_future().get(); !listens)
        return listens;

    accepting.post([this, &accepting] {
        m_sweep = accepting.every(kSweepEvery, [this] {
            m_store->submit(
                [at = m_clock.now()](store::Tables& tables) -> Result<std::int64_t> { return tables.sweep(at); },
                [](const Result<std::int64_t>& gone) {
                    if (gone)
                        spdlog::info("swept {} rows whose time was over", *gone);
                },
                [](const std::function<void()>& task) { task(); });
        });
    });

    if (m_config.ops) {
        OpsAnswers answers;
        answers.isWell = [this] {
            return askOn(m_loops.front()->loop(), [] { return true; }).has_value() &&
                   !m_store->stats().lastCommitFailed;
        };
        answers.metrics = [this] {
            Numbers numbers;
            for (const auto& loop : m_loops)
                if (const auto counters = askOn(loop->loop(), [&l = loop->loop()] { return l.counters(); }))
                    numbers.net = numbers.net + *counters;
            numbers.halls = askOn(m_loops.front()->loop(), [this] { return m_halls->hallCount(); }).value_or(0);
            numbers.store = m_store->stats();
            if (m_pictures)
                numbers.pictures = m_pictures->maker.counts();
            return prometheusText(numbers);
        };
        auto ops = OpsPort::open(m_config.opsPort, std::move(answers));
        if (!ops)
            return tl::unexpected<Error>(ops.error());
        m_ops = std::move(*ops);
    }
    return {};
}

std::uint16_t Relay::port() const
{
    return m_listener ? m_listener->port() : std::uint16_t{0};
}

std::uint16_t Relay::opsPort() const
{
    return m_ops ? m_ops->port() : std::uint16_t{0};
}

void Relay::stop()
{
    if (m_loops.empty())
        return;
    m_ops.reset();
    // No more come in; those who are in are told, and have a moment to hear it.
    (void)askOn(m_loops.front()->loop(), [this] {
        m_listener.reset();
        m_sweep.cancel();
        return true;
    });
    for (const auto& loop : m_loops)
        loop->loop().post([&l = loop->loop()] { l.sayGoodbye(); });
    const auto until = std::chrono::steady_clock::now() + kGoodbye;
    for (const auto& loop : m_loops)
        while (std::chrono::steady_clock::now() < until &&
               askOn(loop->loop(), [&l = loop->loop()] { return l.counters().open; }).value_or(0) > 0)
            std::this_thread::sleep_for(std::chrono::milliseconds(10));
    if (m_pictures)
        m_pictures->maker.stop(); // its answers go to the loops
    m_store->stop();
    (void)askOn(m_loops.front()->loop(), [this] {
        m_halls->stop();
        return true;
    });
    for (const auto& loop : m_loops)
        (void)askOn(loop->loop(), [] { return true; }); // by now each hall has let its loop go
    m_loops.clear();
    m_halls.reset();
    m_store.reset();
    m_pictures.reset();
}

} // namespace vh::ops
