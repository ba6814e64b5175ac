#pragma once
// A relay in the test's own process with one group, and programs that come in to it without sound. Thread: the test's.
#include "app/lead/lead_control.h"
#include "app/sound/sound_source.h"
#include "common/wire/login_text.h"
#include "server/ops/relay.h"

#include <QTemporaryDir>

namespace vh::testing
{

/// One program: a line, its leader's room, no sound.
struct Program {
    Program() : line(clock), ears(sound::makeNullBackend()), control(line, clock, ears)
    {
        QObject::connect(&line, &link::Line::received, &control, [this](const wire::ToClient& message) {
            if (const auto* now = std::get_if<wire::HandoutNow>(&message))
                handout = *now;
        });
    }
    SystemClock clock;
    link::Line line;
    sound::Ears ears;
    lead::LeadControl control;
    std::optional<wire::HandoutNow> handout; ///< as the group hears of it
    [[nodiscard]] const lead::LeadView& view() const { return control.view(); }
};

class LeadRelay
{
public:
    /// False where something of it could not be made.
    [[nodiscard]] bool start()
    {
        ops::Config config;
        config.data = m_folder.path().toStdString();
        config.port = 0;
        config.tls = ops::Tls::selfSigned;
        config.logLevel = "warn";
        auto opening = store::Store::open(ops::storeOptions(config, store::StoreOptions::Hold::alone));
        if (!m_folder.isValid() || !opening.store)
            return false;
        const auto group = opening.store->run([&](store::Tables& tables) -> Result<store::GroupRow> {
            const Instant now = SystemClock().now();
            store::GroupRow row = tables.groups.add("Thursday voices", now);
            m_links[Role::leader] = tables.links.make(row.id, store::Role::leader, {}, now).bytes;
            m_links[Role::moderator] = tables.links.make(row.id, store::Role::helper, {}, now).bytes;
            m_links[Role::participant] = tables.links.make(row.id, store::Role::participant, {}, now).bytes;
            return row;
        });
        opening.store.reset();
        m_relay = std::make_unique<ops::Relay>(config);
        return group.has_value() && m_relay->start().has_value();
    }
    void stop()
    {
        if (m_relay)
            m_relay->stop();
    }
    /// Works once.
    [[nodiscard]] wire::Token link(Role role) const { return m_links.at(role); }
    [[nodiscard]] link::Entry entry(const wire::Token& token, const char* name) const
    {
        link::Entry made;
        made.how = link::Entry::How::redeem;
        made.host = "127.0.0.1";
        made.port = m_relay->port();
        made.pin = wire::Hash(*m_relay->pin());
        made.token = token;
        made.name = name;
        made.device = "test";
        made.keys = wire::makeKeyPair();
        return made;
    }

private:
    QTemporaryDir m_folder;
    std::map<Role, wire::Token> m_links;
    std::unique_ptr<ops::Relay> m_relay;
};

} // namespace vh::testing
