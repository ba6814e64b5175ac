#include "demo/chorus/choir.h"

#include "common/wire/limits.h"
#include "demo/chorus/seeded.h"

#include <algorithm>

namespace vh::chorus
{

namespace
{

net::ClientOptions forHomes(net::ClientOptions options)
{
    options.rules.path = wire::kPath;
    options.rules.subprotocol = wire::kSubprotocol;
    options.maxMessageBytes = wire::kToClient;
    return options;
}

bool isOnTheWay(const Home& home)
{
    return home.hasStarted() && !home.hasBeenIn() && !home.isGone();
}

} // namespace

Choir::Choir(net::Loop& loop, const Clock& clock, const ChoirOptions& options)
    : m_options(options),
      m_workers(options.voices == Voices::canned ? nullptr : std::make_shared<Workers>(options.threads)),
      m_setting(new Setting{loop, clock, forHomes(options.relay), options.voices, m_workers, {}, {}})
{
    for (std::uint32_t index = 0; index < options.homes; ++index)
        m_homes.push_back(std::make_shared<Home>(m_setting, planOf(index, options.seed), options.code));
    m_beat = loop.every(options.beat, [this] { beat(); });
}

/// Lines that are still closing hold on to the setting; the workers go now, while the loop they post to is there.
Choir::~Choir()
{
    stop();
    m_setting->workers.reset();
    m_workers.reset();
}

HelperLine& Choir::addHelper(wire::Token link, DeskDuties duties)
{
    m_helper = std::make_shared<HelperLine>(m_setting, link, duties, mixed({m_options.seed, 0x68656C70}));
    m_helper->start();
    return *m_helper;
}

LeaderLine& Choir::addLeader(wire::Token link, DeskDuties duties)
{
    m_leader = std::make_shared<LeaderLine>(m_setting, link, duties, mixed({m_options.seed, 0x6C656164}));
    m_leader->start();
    return *m_leader;
}

void Choir::start()
{
    m_singing = true;
    m_lateFrom = m_setting->clock.now() + m_options.lateBy;
}

void Choir::stop()
{
    m_singing = false;
    m_beat.cancel();
    for (const auto& home : m_homes)
        home->leave();
    if (m_helper)
        m_helper->leave();
    if (m_leader)
        m_leader->leave();
}

bool Choir::everybodyIn() const
{
    return std::all_of(m_homes.begin(), m_homes.end(), [](const auto& home) { return home->isIn(); });
}

bool Choir::everybodyChecked() const
{
    return std::all_of(m_homes.begin(), m_homes.end(), [](const auto& home) { return home->hasChecked(); });
}

void Choir::beat()
{
    const Instant now = m_setting->clock.now();
    if (m_helper)
        m_helper->beat(now);
    if (m_leader)
        m_leader->beat(now);
    auto onTheWay = static_cast<std::size_t>(
        std::count_if(m_homes.begin(), m_homes.end(), [](const auto& home) { return isOnTheWay(*home); }));
    bool ready = m_singing;
    for (const auto& home : m_homes) {
        const bool late = home->plan().character == Character::lateComer;
        const bool due = m_singing && (!late || now >= m_lateFrom);
        if (due && !home->hasStarted() && onTheWay < m_options.atDoorAtOnce) {
            home->start();
            ++onTheWay;
        }
        home->beat(now);
        ready = ready && (late || (home->isIn() && home->hasChecked() && !home->hasOpenRequests()));
    }
    if (ready && !std::exchange(m_ready, true) && onReady)
        onReady();
}

} // namespace vh::chorus
