#pragma once
// The real relay inside the test, in a folder of its own, on a free port of loopback; it can be stopped and started
// again on the same port and data. What an operator does beside it (a group, a one-time link) goes through the store's
// own door for that. The test's thread.
#include "app/link/line.h"
#include "server/ops/relay.h"

#include <QTemporaryDir>
#include <spdlog/spdlog.h>

#include <fstream>
#include <stdexcept>

namespace vh::testing
{

class RelayHere
{
public:
    explicit RelayHere(ops::Tls tls, const Clock* clock = nullptr) : m_clock(clock)
    {
        spdlog::set_level(spdlog::level::off);
        m_config.data = m_folder.filePath("relay").toStdString();
        m_config.port = 0;
        m_config.ops = false;
        m_config.tls = tls;
        if (tls == ops::Tls::certificate)
            makeCertificate();
        start();
    }

    void start()
    {
        m_relay = std::make_unique<ops::Relay>(m_config, m_clock);
        if (const auto started = m_relay->start(); !started)
            throw std::runtime_error(started.error().message);
        m_config.port = m_relay->port(); // where homes look for it again
    }
    void stop() { m_relay.reset(); }

    [[nodiscard]] std::optional<wire::Hash> pin() const { return m_relay->pin(); }

    /// Beside the running relay, or without one.
    template <class Work>
    auto beside(Work work)
    {
        auto opening = store::Store::open(ops::storeOptions(m_config, store::StoreOptions::Hold::alongside));
        if (!opening.store)
            throw std::runtime_error(opening.message);
        return opening.store->run(std::move(work)).value();
    }
    store::GroupRow addGroup(const std::string& name)
    {
        return beside([&](store::Tables& tables) -> Result<store::GroupRow> { return tables.groups.add(name, now()); });
    }
    wire::Token link(GroupId group, store::Role role)
    {
        return beside([&](store::Tables& tables) -> Result<wire::Token> {
            return tables.links.make(group, role, {}, now()).bytes;
        });
    }

    link::Entry entry(link::Entry::How how) const
    {
        link::Entry entry;
        entry.how = how;
        entry.host = "127.0.0.1";
        entry.port = m_config.port;
        entry.name = "Ruth";
        entry.device = "laptop";
        entry.keys = wire::makeKeyPair();
        entry.plain = m_config.tls == ops::Tls::off;
        return entry;
    }
    link::Entry redeeming(GroupId group, store::Role role)
    {
        link::Entry made = entry(link::Entry::How::redeem);
        made.token = link(group, role);
        made.pin = pin();
        return made;
    }
    /// The relay forgets its own key, as after a fire.
    void loseKey()
    {
        std::filesystem::remove(m_config.data / "own-key.pem");
        std::filesystem::remove(m_config.data / "own-certificate.pem");
    }

private:
    /// One that this relay takes for a public one, and nobody else does.
    void makeCertificate()
    {
        const auto made = net::makeSelfSigned({"127.0.0.1"}).value();
        m_config.certificate = m_folder.filePath("chain.pem").toStdString();
        m_config.key = m_folder.filePath("key.pem").toStdString();
        std::ofstream(m_config.certificate) << made.chain;
        std::ofstream(m_config.key) << made.key;
    }
    [[nodiscard]] Instant now() const { return m_clock ? m_clock->now() : SystemClock().now(); }

    QTemporaryDir m_folder;
    const Clock* m_clock;
    ops::Config m_config;
    std::unique_ptr<ops::Relay> m_relay;
};

} // namespace vh::testing
