// Sound over the real relay as a process: from the leader to fifty homes in the order in which it was said, across a
// kill -9 in mid-speech, with one invited person, and with senders who mean no good.
#include "common/wire/join_link.h"
#include "tests/server/hall/test_relay.h"
#include "tests/stage/relay_process.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;
using wire::VoiceState;

namespace
{

constexpr int kHomes = 50;
constexpr std::uint32_t kAnns = 71;
constexpr std::uint32_t kGuests = 72;

std::string frameOf(std::uint32_t stream, std::uint64_t number)
{
    return wire::encodeSound({stream, number * 960}, std::vector<std::uint8_t>(70, 0x5A));
}

bool isLast(std::span<const std::uint8_t> bytes, std::uint32_t stream, std::uint64_t number)
{
    const auto sound = wire::decodeSound(bytes);
    return sound && sound->head.stream == stream && sound->head.firstSample == number * 960;
}

const auto kOn = [](const wire::Speaking& speaking) { return speaking.on; };
const auto kOff = [](const wire::Speaking& speaking) { return !speaking.on; };

} // namespace

class TestCarriedSound : public QObject
{
    Q_OBJECT
private:
    QTemporaryDir m_folder;
    RelayProcess m_relay{m_folder.path(), {"--tls", "off"}};
    net::LoopThread m_loop;
    Visitor m_ann;
    std::vector<Visitor> m_homes;
    OpenedClass m_opened;
    std::uint32_t m_serial = 0;

    Visitor come(const wire::Token& token, const std::string& name)
    {
        Visitor visitor;
        visitor.keys = wire::makeKeyPair();
        visitor.line = std::make_unique<TestLine>(m_loop.loop(), m_relay.lineOptions());
        visitor->hello();
        visitor->redeem(token, visitor.keys, name);
        visitor.welcome = visitor->wait<wire::Welcome>();
        return visitor;
    }
    void comeBack(Visitor& visitor)
    {
        const auto before =
            std::exchange(visitor.line, std::make_unique<TestLine>(m_loop.loop(), m_relay.lineOptions()));
        visitor->hello();
        visitor->login(visitor.welcome.group, visitor.keys, visitor.welcome.role);
        visitor.welcome = visitor->wait<wire::Welcome>();
    }
    void everyHomeHears(std::uint32_t stream, std::uint64_t number)
    {
        for (const Visitor& home : m_homes)
            home->waitBinary([&](auto bytes) { return isLast(bytes, stream, number); });
    }
    void letSpeak(const Visitor& guest, std::uint32_t stream)
    {
        m_ann->acked(wire::InviteToSpeak{RequestId::random(), guest.welcome.person});
        guest->wait<wire::InvitedToSpeak>([](const auto& question) { return question.on; });
        guest->acked(wire::SpeakAnswer{RequestId::random(), true, stream});
    }

private slots:
    void initTestCase()
    {
        QVERIFY2(m_relay.start(), m_relay.said());
        m_relay.keepPort();
        const QByteArray added = m_relay.command({"group", "add", "Voices"});
        const auto link = wire::parseJoinLink(added.mid(added.indexOf("voicehall://")).trimmed().toStdString());
        m_ann = come(link->token.value(), "Ann");
        m_opened = openSmallClass(*m_ann.line);
        m_serial = *press(*m_ann.line, CommandKind::start, m_opened.lease, 0).serial;
        for (int i = 0; i < kHomes; ++i) {
            const wire::Ack ack = m_ann->acked(wire::Invite{RequestId::random(), Role::participant});
            m_homes.push_back(come(ack.token.value(), "Home " + std::to_string(i)));
        }
    }

    void soundReachesEveryHomeInOrderWithThePlacesBetween()
    {
        m_ann->say(wire::Voice{VoiceState::carried, kAnns});
        // The class may not move by itself while this looks at it.
        m_serial = *press(*m_ann.line, CommandKind::wait, m_opened.lease, m_serial).serial;
        for (const Visitor& home : m_homes)
            home->wait<wire::PlaceNow>([&](const auto& now) { return now.serial == m_serial; });
        std::vector<std::vector<std::string>> expected;
        for (const Visitor& home : m_homes)
            expected.push_back(home->order());
        std::vector<std::string> said;
        for (std::uint64_t i = 0; i < 120; ++i) {
            m_ann->sayBinary(frameOf(kAnns, i));
            said.push_back("sound " + std::to_string(i * 960));
            if (i % 40 == 20) { // unasked-for answers would slow her down
                const bool waits = i % 80 == 20;
                m_ann->say(wire::Lead{RequestId::random(), waits ? CommandKind::resume : CommandKind::wait,
                                      m_opened.lease, m_serial});
                said.push_back("place " + std::to_string(++m_serial));
            }
        }
        everyHomeHears(kAnns, 119);
        for (std::size_t i = 0; i < m_homes.size(); ++i) {
            expected[i].insert(expected[i].end(), said.begin(), said.end());
            QCOMPARE(m_homes[i]->order(), expected[i]);
        }
        // She hears her own: what she sees is that they can hear her.
        m_ann->waitBinary([](auto bytes) { return isLast(bytes, kAnns, 119); });
    }

    void afterAKillInMidSpeechTheVoiceComesBackWithTheLeader()
    {
        letSpeak(m_homes[1], kGuests);
        m_homes[2]->wait<wire::Speaking>(kOn);
        for (std::uint64_t i = 120; i < 140; ++i) {
            m_ann->sayBinary(frameOf(kAnns, i));
            m_homes[1]->sayBinary(frameOf(kGuests, i));
        }
        everyHomeHears(kAnns, 125);
        m_relay.kill();
        m_ann->waitClosed();
        QVERIFY2(m_relay.start(), m_relay.said());
        for (int i = 0; i < kHomes / 2; ++i) // before her
            comeBack(m_homes[static_cast<std::size_t>(i)]);
        QVERIFY(!m_homes[0].welcome.voice && !m_homes[0].welcome.speaking); // nothing of it was stored
        comeBack(m_ann);
        QVERIFY(!m_ann.welcome.voice);
        m_ann->say(wire::Voice{VoiceState::carried, kAnns}); // the same stream: it counted on meanwhile
        m_ann->sync();
        for (int i = kHomes / 2; i < kHomes; ++i) // after her
            comeBack(m_homes[static_cast<std::size_t>(i)]);
        QCOMPARE(m_homes.back().welcome.voice->stream, kAnns);
        QCOMPARE(m_homes.front()->wait<wire::VoiceNow>().state, VoiceState::carried);
        m_homes[1]->sayBinary(frameOf(kGuests, 900)); // agreed before the kill: no longer
        m_homes[1]->sync();
        m_ann->sayBinary(frameOf(kAnns, 900));
        everyHomeHears(kAnns, 900);
        m_ann->sync();
        for (const Visitor& home : m_homes)
            for (const std::string& each : home->order())
                QVERIFY(each != "sound " + std::to_string(1800 * 960));
        QCOMPARE(m_homes[1]->refused(wire::SpeakAnswer{RequestId::random(), true, kGuests}).code,
                 std::string("not-invited"));
    }

    void anInvitedPersonIsHeardByAllUntilTheirLineIsGone()
    {
        letSpeak(m_homes[3], kGuests);
        for (const Visitor& home : m_homes)
            QCOMPARE(home->wait<wire::Speaking>(kOn).you, &home == &m_homes[3]);
        for (std::uint64_t i = 0; i < 30; ++i) {
            m_homes[3]->sayBinary(frameOf(kGuests, i));
            m_ann->sayBinary(frameOf(kAnns, 1000 + i));
        }
        everyHomeHears(kGuests, 29);
        everyHomeHears(kAnns, 1029);
        m_homes[3]->drop();
        for (std::size_t i = 4; i < m_homes.size(); ++i)
            m_homes[i]->wait<wire::Speaking>(kOff);
        QCOMPARE(m_ann->wait<wire::InviteOver>().why, wire::InviteEnd::lineLost);
        comeBack(m_homes[3]);
        // And again, until she ends it.
        letSpeak(m_homes[3], kGuests + 1);
        m_homes[4]->wait<wire::Speaking>(kOn);
        m_ann->acked(wire::EndSpeaking{RequestId::random()});
        for (std::size_t i = 3; i < m_homes.size(); ++i)
            m_homes[i]->wait<wire::Speaking>(kOff);
    }

    void whoMeansNoGoodIsNotHeardAndTheClassGoesOn()
    {
        const Visitor& stranger = m_homes[5];
        for (std::uint64_t i = 0; i < 2'000; ++i)
            stranger->sayBinary(frameOf(kAnns, 5'000 + i)); // as if she were the leader
        letSpeak(m_homes[6], kGuests + 2);
        for (std::uint64_t i = 0; i < 2'000; ++i)
            m_homes[6]->sayBinary(frameOf(kGuests + 2, i)); // forty seconds at once
        m_homes[6]->sync();
        stranger->sync();
        m_ann->sayBinary(frameOf(kAnns, 10'000));
        everyHomeHears(kAnns, 10'000);
        for (const Visitor& home : m_homes)
            for (const std::string& each : home->order())
                QVERIFY(each != "sound " + std::to_string(5'000 * 960));
        const QByteArray metrics = httpGet(m_relay.opsPort(), "/metrics");
        const qsizetype at = metrics.indexOf("\nvoicehall_sound_over_limit_total ");
        QVERIFY(at > 0);
        QVERIFY(metrics.mid(at).simplified().split(' ').at(1).toInt() > 1'000);
        m_homes[6]->sayBinary(frameOf(kGuests + 2, 1).substr(0, 12));
        QCOMPARE(m_homes[6]->waitClosed().code, wire::CloseCode::policy);
        m_homes[7]->wait<wire::Speaking>(kOff);
        m_ann->sayBinary(frameOf(kAnns, 10'001));
        m_homes[7]->waitBinary([](auto bytes) { return isLast(bytes, kAnns, 10'001); });
    }

    void everythingEndsCleanly()
    {
        m_homes.clear();
        m_ann = {};
        QCOMPARE(m_relay.stop(), std::optional(0));
    }
    void cleanupTestCase()
    {
        m_homes.clear();
        m_ann = {};
    }
};

QTEST_GUILESS_MAIN(TestCarriedSound)
#include "test_carried_sound.moc"
