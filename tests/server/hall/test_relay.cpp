#include "tests/server/hall/test_relay.h"

#include "common/base/base64.h"
#include "common/wire/limits.h"
#include "common/wire/script_json.h"

#include <future>
#include <stdexcept>

namespace vh::testing
{

namespace
{

/// Runs something on a loop's thread and waits for it.
template <class Task>
auto on(net::Loop& loop, Task task)
{
    std::packaged_task<decltype(task())()> packaged(std::move(task));
    auto done = packaged.get_future();
    loop.post([&packaged] { packaged(); });
    return done.get();
}

} // namespace

TestRelay::TestRelay(unsigned loops, Millis comingIn) : m_loopCount(loops), m_comingIn(comingIn)
{
    start();
}

TestRelay::~TestRelay()
{
    stop();
}

void TestRelay::start()
{
    store::StoreOptions storing;
    storing.file = file();
    auto opening = store::Store::open(storing);
    if (!opening.store)
        throw std::runtime_error(opening.message);
    m_store = std::move(opening.store);
    hall::HallsOptions halls;
    for (unsigned i = 0; i < m_loopCount; ++i) {
        m_loops.push_back(std::make_unique<net::LoopThread>());
        halls.loops.push_back(&m_loops.back()->loop());
    }
    halls.store = m_store.get();
    halls.clock = &clock;
    halls.comingIn = m_comingIn;
    if (!m_photos.empty())
        m_pictures = std::make_unique<hall::PictureWorks>(m_photos);
    halls.pictures = m_pictures.get();
    m_halls = std::make_unique<hall::Halls>(std::move(halls));
    net::ListenerOptions options;
    options.rules = {wire::kPath, wire::kSubprotocol};
    options.proxies.ranges.push_back(*net::AddressRange::parse("127.0.0.0/8"));
    options.makeHandler = [this](net::Connection& connection) { return m_halls->makeSession(connection); };
    net::Loop& loop = m_loops.front()->loop();
    m_listener = on(loop, [&] {
        auto listener = net::Listener::open(loop, std::move(options));
        if (!listener)
            throw std::runtime_error(listener.error().message);
        return std::move(*listener);
    });
    m_port = m_listener->port();
}

void TestRelay::stop()
{
    if (m_loops.empty())
        return;
    on(m_loops.front()->loop(), [this] { m_listener.reset(); });
    for (const auto& loop : m_loops)
        on(loop->loop(), [&] { loop->loop().sayGoodbye(); });
    for (const auto& loop : m_loops)
        on(loop->loop(), [] {});
    if (m_pictures)
        m_pictures->maker.stop();
    m_store->stop();
    on(m_loops.front()->loop(), [this] { m_halls->stop(); });
    for (const auto& loop : m_loops)
        on(loop->loop(), [] {});
    m_loops.clear();
    m_halls.reset();
    m_store.reset();
    m_pictures.reset();
}

void TestRelay::settle()
{
    for (int i = 0; i < 3; ++i) { // a line that is brought to its hall takes three steps
        (void)m_store->run([](store::Tables&) -> Result<bool> { return true; });
        for (const auto& loop : m_loops)
            on(loop->loop(), [] {});
    }
}

GroupId TestRelay::addGroup(const std::string& name)
{
    return m_store
        ->run([&](store::Tables& tables) -> Result<GroupId> { return tables.groups.add(name, clock.now()).id; })
        .value();
}

std::string TestRelay::codeOf(GroupId group)
{
    return m_store
        ->run([&](store::Tables& tables) -> Result<std::string> { return tables.groups.byId(group).value().code; })
        .value();
}

wire::Token TestRelay::link(GroupId group, Role role)
{
    return m_store
        ->run([&](store::Tables& tables) -> Result<wire::Token> {
            return tables.links.make(group, hall::toStore(role), {}, clock.now()).bytes;
        })
        .value();
}

std::unique_ptr<TestLine> TestRelay::connect(const std::string& extraHeaders, int receiveBufferBytes)
{
    net::ClientOptions options;
    options.port = m_port;
    options.rules = {wire::kPath, wire::kSubprotocol};
    options.extraHeaders = extraHeaders;
    options.receiveBufferBytes = receiveBufferBytes;
    return std::make_unique<TestLine>(m_clients.loop(), options);
}

Visitor TestRelay::enrol(GroupId group, Role role, const std::string& name)
{
    Visitor visitor{connect(), wire::makeKeyPair(), {}};
    visitor->hello();
    visitor->redeem(link(group, role), visitor.keys, name);
    visitor.welcome = visitor->wait<wire::Welcome>();
    return visitor;
}

Visitor TestRelay::again(const Visitor& before, std::uint64_t boardSince)
{
    Visitor visitor{connect(), before.keys, {}};
    visitor->hello();
    visitor->login(before.welcome.group, before.keys, before.welcome.role, boardSince);
    visitor.welcome = visitor->wait<wire::Welcome>();
    return visitor;
}

wire::Hash put(TestLine& leader, const ClassScript& script)
{
    const std::string text = wire::encodeScript(script);
    const wire::Hash hash = wire::sha256(text);
    leader.acked(wire::PartPut{RequestId::random(), hash,
                               base64Of({reinterpret_cast<const std::uint8_t*>(text.data()), text.size()})});
    return hash;
}

OpenedClass openSmallClass(TestLine& leader, const ClassScript& script)
{
    OpenedClass opened;
    opened.script = put(leader, script);
    const wire::Ack ack = leader.acked(wire::OpenClass{RequestId::random(), "A walk to the baker", {opened.script}});
    opened.id = ack.classId.value();
    opened.lease = ack.lease.value();
    return opened;
}

wire::Ack press(TestLine& leader, CommandKind command, std::uint32_t lease, std::uint32_t serial)
{
    return leader.acked(wire::Lead{RequestId::random(), command, lease, serial});
}

void agree(TestLine& line, AgreementKind kind, const std::string& value)
{
    line.acked(wire::Agree{RequestId::random(), kind, value, 1});
}

wire::DeskItem onDesk(const Visitor& helper, std::uint64_t item, wire::DeskState state)
{
    wire::DeskItem found;
    helper->wait<wire::OnDesk>([&](const wire::OnDesk& desk) {
        for (const wire::DeskItem& each : desk.items)
            if (each.item == item && each.state == state) {
                found = each;
                return true;
            }
        return false;
    });
    return found;
}

void decide(const Visitor& helper, const wire::DeskItem& seen, wire::Decision decision)
{
    helper->acked(wire::Decide{RequestId::random(), seen.item, seen.change, decision});
}

} // namespace vh::testing
