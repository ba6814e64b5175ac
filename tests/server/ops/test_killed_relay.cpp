// kill -9 of the relay under load: everybody comes back by themselves to the same place, and nothing that was
// acknowledged is missing.
#include "common/base/backoff.h"
#include "common/base/base64.h"
#include "common/wire/join_link.h"
#include "common/wire/script_json.h"
#include "tests/stage/relay_process.h"

#include <QtTest>
#include <future>
#include <random>

using namespace vh;
using namespace vh::testing;

namespace
{

constexpr int kHomes = 50;

/// A home that comes back by itself. Lives on its loop; its numbers may be read from anywhere.
class Home final : public net::ClientHandler, public std::enable_shared_from_this<Home>
{
public:
    Home(net::Loop& loop, net::ClientOptions options, wire::Token token, unsigned number)
        : m_loop(loop), m_options(std::move(options)), m_token(token), m_random(number)
    {
    }
    void connect() { m_client = net::WsClient::connect(m_loop, m_options, shared_from_this()); }
    void stop()
    {
        m_again.cancel();
        m_load.cancel();
        if (auto client = std::exchange(m_client, nullptr))
            client->drop();
    }

    std::atomic<int> welcomes{0};
    std::atomic<std::uint32_t> serial{0};
    std::atomic<std::int64_t> waitedMs{0}; ///< since the line was lost
    std::atomic<std::uint32_t> board{0};

    void onOpen(net::WsClient& client) override { client.sendText(wire::encode(wire::Hello{})); }
    void onText(net::WsClient& client, std::string_view text) override
    {
        const auto message = wire::decodeToClient(text);
        if (const auto* challenge = std::get_if<wire::Challenge>(&*message))
            enter(client, *challenge);
        else if (const auto* welcome = std::get_if<wire::Welcome>(&*message))
            in(*welcome);
        else if (const auto* place = std::get_if<wire::PlaceNow>(&*message))
            serial = (m_place = *place).serial;
    }
    void onClosed(net::WsClient&, wire::CloseCode, std::string_view) override
    {
        m_load.cancel();
        if (!m_client)
            return;
        const Millis wait = m_backoff.next(std::uniform_real_distribution<>(0, 1)(m_random));
        waitedMs += wait.count();
        m_again = m_loop.after(wait, [this] { connect(); });
    }

private:
    void enter(net::WsClient& client, const wire::Challenge& challenge)
    {
        if (m_group) {
            wire::Login login;
            login.group = *m_group;
            login.key = m_keys.publicKey;
            login.signature =
                sign(m_keys, wire::loginText(wire::Purpose::login, m_group->hex(), challenge.nonce, Role::participant));
            client.sendText(wire::encode(login));
            return;
        }
        wire::Redeem redeem;
        redeem.token = m_token;
        redeem.key = m_keys.publicKey;
        redeem.name = "Somebody";
        redeem.signature =
            sign(m_keys, wire::loginText(wire::Purpose::redeem, hexOf(m_token), challenge.nonce, Role::participant));
        client.sendText(wire::encode(redeem));
    }
    void in(const wire::Welcome& welcome)
    {
        if (!m_group) {
            const wire::Agree agree{RequestId::random(), AgreementKind::levelVisible, "leader", 1};
            m_client->sendText(wire::encode(agree));
        }
        m_group = welcome.group;
        if (welcome.place)
            serial = (m_place = *welcome.place).serial;
        board = static_cast<std::uint32_t>(welcome.board.size());
        m_backoff.reset();
        m_load = m_loop.every(std::chrono::milliseconds(20), [this] {
            Reading reading;
            reading.turnSerial = m_place.turnSerial;
            m_client->sendBinary(wire::encodeReading(reading));
        });
        ++welcomes;
    }

    net::Loop& m_loop;
    net::ClientOptions m_options;
    wire::Token m_token;
    wire::KeyPair m_keys = wire::makeKeyPair();
    std::optional<GroupId> m_group;
    wire::PlaceNow m_place;
    std::shared_ptr<net::WsClient> m_client;
    net::Loop::Timer m_again;
    net::Loop::Timer m_load;
    Backoff m_backoff;
    std::mt19937 m_random;
};

ClassScript longClass()
{
    ClassScript script;
    script.title = "A long breath";
    script.theme = "breath";
    script.language = "en";
    script.plannedMinutes = 20;
    Step step;
    step.text = "The whole afternoon";
    step.rounds = {Round{false, {Turn{TurnKind::yours, std::chrono::minutes{10}}}},
                   Round{true, {Turn{TurnKind::yours, std::chrono::minutes{10}}}}};
    script.sections = {Section{SectionKind::phrases, "By the sea", {step}}};
    return script;
}

} // namespace

class TestKilledRelay : public QObject
{
    Q_OBJECT
private slots:
    /// A call, who has it, and that the contact was looked at: each acknowledged, so each is there once after kill -9.
    void aCallItsTakerAndEveryLookAreThereOnce()
    {
        QTemporaryDir folder;
        RelayProcess relay(folder.path(), {"--tls", "off"});
        QVERIFY2(relay.start(), relay.said());
        relay.keepPort();
        const QByteArray added = relay.command({"group", "add", "Voices"});
        const auto link = wire::parseJoinLink(added.mid(added.indexOf("voicehall://")).trimmed().toStdString());
        net::LoopThread loop;
        const auto ann = wire::makeKeyPair();
        const auto bo = wire::makeKeyPair();
        GroupId group;
        wire::HelpTake take{RequestId::random(), 0};
        const wire::HelpCall call{RequestId::random()};
        {
            TestLine leader(loop.loop(), relay.lineOptions());
            leader.hello();
            leader.redeem(link->token.value(), ann, "Ann");
            group = leader.wait<wire::Welcome>().group;
            TestLine home(loop.loop(), relay.lineOptions());
            home.hello();
            home.redeem(leader.acked(wire::Invite{RequestId::random(), Role::participant}).token.value(), bo, "Bo");
            home.wait<wire::Welcome>();
            home.acked(wire::Contact{RequestId::random(), "Mill Lane 3", "Odile, 555 0100"});
            take.call = *home.acked(call).item;
            leader.say(take);
            leader.wait<wire::ContactShown>(); // its answer may be on the way still: the look is on disk
            relay.kill();
            leader.waitClosed();
            home.waitClosed();
        }
        QVERIFY2(relay.start(), relay.said());
        TestLine home(loop.loop(), relay.lineOptions());
        home.hello();
        home.login(group, bo, Role::participant);
        const auto welcome = home.wait<wire::Welcome>();
        QCOMPARE(welcome.calls.size(), std::size_t{1});
        QCOMPARE(welcome.calls.front().takenBy, std::string("Ann"));
        QCOMPARE(*home.acked(call).item, take.call); // asked again, because its answer may have been lost
        TestLine leader(loop.loop(), relay.lineOptions());
        leader.hello();
        leader.login(group, ann, Role::leader);
        QCOMPARE(leader.wait<wire::Calls>().calls.size(), std::size_t{1});
        QCOMPARE(leader.wait<wire::ContactShown>().where, std::string("Mill Lane 3"));
        leader.acked(take);
        leader.say(wire::ActsAsk{});
        std::vector<std::string> acts;
        for (const wire::Act& act : leader.wait<wire::Acts>().acts)
            acts.push_back(act.who + " " + act.what + " " + act.whom);
        QCOMPARE(acts, (std::vector<std::string>{"Ann call-taken Bo", "Ann contact-for-call Bo"}));
        QCOMPARE(relay.stop(), std::optional(0));
    }

    void everybodyIsBackAtTheSamePlaceAndNothingAcknowledgedIsMissing()
    {
        QTemporaryDir folder;
        RelayProcess relay(folder.path(), {"--tls", "off"});
        QVERIFY2(relay.start(), relay.said());
        relay.keepPort();
        const QByteArray added = relay.command({"group", "add", "Voices"});
        const auto link = wire::parseJoinLink(added.mid(added.indexOf("voicehall://")).trimmed().toStdString());
        net::LoopThread loop;
        TestLine leader(loop.loop(), relay.lineOptions());
        leader.hello();
        leader.redeem(link->token.value(), wire::makeKeyPair(), "Ann");
        leader.wait<wire::Welcome>();

        const std::string script = wire::encodeScript(longClass());
        const wire::Hash hash = wire::sha256(script);
        leader.acked(wire::PartPut{RequestId::random(), hash,
                                   base64Of({reinterpret_cast<const std::uint8_t*>(script.data()), script.size()})});
        const std::uint32_t lease =
            leader.acked(wire::OpenClass{RequestId::random(), "A long breath", {hash}}).lease.value();
        std::uint32_t serial =
            leader.acked(wire::Lead{RequestId::random(), CommandKind::start, lease, 0}).serial.value();

        std::vector<std::shared_ptr<Home>> homes;
        for (unsigned i = 0; i < kHomes; ++i) {
            const wire::Ack invited = leader.acked(wire::Invite{RequestId::random(), Role::participant});
            homes.push_back(std::make_shared<Home>(loop.loop(), relay.lineOptions(), invited.token.value(), i));
            loop.loop().post([home = homes.back()] { home->connect(); });
        }
        const auto all = [&homes](auto fits) {
            return std::all_of(homes.begin(), homes.end(), [&](const auto& home) { return fits(*home); });
        };
        QTRY_VERIFY_WITH_TIMEOUT(all([](const Home& home) { return home.welcomes == 1; }), 30'000);
        serial = leader.acked(wire::Lead{RequestId::random(), CommandKind::goOn, lease, serial}).serial.value();
        QTRY_VERIFY_WITH_TIMEOUT(all([&](const Home& home) { return home.serial == serial; }), 30'000);

        // Writing at the moment of the kill: some are acknowledged, some are not.
        std::vector<RequestId> asked;
        for (int i = 0; i < 40; ++i) {
            asked.push_back(RequestId::random());
            leader.say(wire::Notice{asked.back(), "Water"});
        }
        unsigned acknowledged = 0;
        for (; acknowledged < 10; ++acknowledged)
            leader.wait<wire::Ack>([&](const wire::Ack& ack) { return ack.id == asked[acknowledged]; });
        relay.kill();
        leader.waitClosed();
        while (acknowledged < asked.size() && leader.has<wire::Ack>()) {
            leader.wait<wire::Ack>();
            ++acknowledged;
        }
        QElapsedTimer away;
        away.start();
        QVERIFY2(relay.start(), relay.said());
        QTRY_VERIFY_WITH_TIMEOUT(all([](const Home& home) { return home.welcomes == 2; }), 30'000);
        qInfo() << "all" << kHomes << "homes back after" << away.elapsed() << "ms," << acknowledged
                << "notices acknowledged";
        for (const auto& home : homes) {
            QCOMPARE(home->serial.load(), serial);
            QVERIFY(home->board >= acknowledged);
            QVERIFY2(home->waitedMs <= 5'000, "by the rule of coming back, not by the speed of this machine");
        }

        std::promise<void> stopped;
        loop.loop().post([&] {
            for (const auto& home : homes)
                home->stop();
            stopped.set_value();
        });
        stopped.get_future().get();
        QCOMPARE(relay.stop(), std::optional(0));
    }
};

QTEST_GUILESS_MAIN(TestKilledRelay)
#include "test_killed_relay.moc"
