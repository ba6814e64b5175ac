// Whose voice everybody hears, over the real relay: the state, the frames in the log's order, and the places between
// them.
#include "app/link/hall_voice.h"
#include "common/base/base64.h"
#include "common/wire/script_json.h"
#include "tests/app/link/relay_here.h"
#include "tests/common/live/scripts.h"

#include <QSignalSpy>
#include <QtTest>

using namespace vh;
using namespace vh::link;
using vh::testing::RelayHere;
using wire::VoiceState;

namespace
{

/// A line, what its hall says of voices, and everything that came of it in order.
struct Party {
    explicit Party(const Clock& clock) : line(clock), voice(line, clock)
    {
        QObject::connect(&voice, &HallVoice::soundArrived, &line,
                         [this](const wire::SoundHead& head, std::span<const std::uint8_t> payload, Instant) {
                             QVERIFY(payload.size() == 1 && payload.front() == 7);
                             order += QStringLiteral("%1:%2").arg(head.stream).arg(head.firstSample);
                         });
        QObject::connect(&line, &Line::received, &line, [this](const wire::ToClient& message) {
            if (const auto* place = std::get_if<wire::PlaceNow>(&message)) {
                order += QStringLiteral("place");
                serial = place->serial;
            }
        });
        QObject::connect(&line, &Line::answered, &line, [this](const RequestId&, const wire::Ack& ack, const Error*) {
            ++answers;
            if (ack.lease)
                lease = *ack.lease;
        });
    }
    void send(std::uint32_t stream, std::uint64_t firstSample)
    {
        line.tellBinary(wire::encodeSound({stream, firstSample}, std::array<std::uint8_t, 1>{7}));
    }
    Line line;
    HallVoice voice;
    QStringList order;
    std::uint32_t serial = 0;
    std::uint32_t lease = 0;
    int answers = 0;
};

} // namespace

class TestHallVoice : public QObject
{
    Q_OBJECT
private:
    SystemClock m_clock;
    std::unique_ptr<RelayHere> m_relay;
    std::unique_ptr<Party> m_ann;
    std::unique_ptr<Party> m_bo;
    std::unique_ptr<Party> m_cy;

    std::unique_ptr<Party> come(GroupId group, store::Role role)
    {
        auto party = std::make_unique<Party>(m_clock);
        party->line.open(m_relay->redeeming(group, role));
        [&] { QTRY_COMPARE(party->line.state(), LineState::in); }();
        return party;
    }

private slots:
    void init()
    {
        m_relay = std::make_unique<RelayHere>(ops::Tls::off);
        const GroupId group = m_relay->addGroup("Lakeside voices").id;
        m_ann = come(group, store::Role::leader);
        m_bo = come(group, store::Role::participant);
        m_cy = come(group, store::Role::participant);
        const std::string text = wire::encodeScript(vh::testing::smallClass());
        const wire::Hash hash = wire::sha256(text);
        m_ann->line.ask(
            wire::PartPut{{}, hash, base64Of({reinterpret_cast<const std::uint8_t*>(text.data()), text.size()})});
        m_ann->line.ask(wire::OpenClass{{}, "A class", {hash}});
        QTRY_COMPARE(m_ann->answers, 2);
        QTRY_COMPARE(m_cy->order.size(), 1);
        QTRY_COMPARE(m_ann->order.size(), 1);
        m_cy->order.clear();
        m_ann->order.clear();
    }
    void cleanup()
    {
        m_ann.reset();
        m_bo.reset();
        m_cy.reset();
        m_relay.reset();
    }

    void framesAndPlacesComeInTheOrderOfTheLog()
    {
        QSignalSpy changed(&m_cy->voice, &HallVoice::changed);
        m_ann->line.ask(wire::Lead{{}, CommandKind::start, m_ann->lease, m_ann->serial});
        QTRY_COMPARE(m_cy->order, QStringList{"place"});
        m_ann->line.tell(wire::Voice{VoiceState::carried, 5});
        m_ann->send(5, 0);
        m_ann->send(5, 960);
        m_ann->line.ask(wire::Lead{{}, CommandKind::onceMore, m_ann->lease, m_ann->serial});
        m_ann->send(5, 1920);
        m_ann->send(6, 0); // no stream that was spoken of
        m_ann->line.tell(wire::Voice{VoiceState::carried, 9});
        m_ann->send(9, 48'000);
        const QStringList expected{"place", "5:0", "5:960", "place", "5:1920", "9:48000"};
        QTRY_COMPARE(m_cy->order, expected);
        QCOMPARE(changed.size(), 2);
        QCOMPARE(m_cy->voice.leader().stream, 9U);
        QVERIFY(m_cy->voice.whose(9) == HallVoice::Whose::leaders);
        QVERIFY(m_cy->voice.whose(5) == HallVoice::Whose::nobodys);
        QTRY_COMPARE(m_ann->order, expected); // she hears that they hear her
    }

    void theInvitedPersonIsAskedHeardAndKnownAsThemselves()
    {
        m_ann->line.tell(wire::Voice{VoiceState::carried, 5});
        m_ann->line.ask(wire::InviteToSpeak{{}, m_bo->line.welcome()->person});
        QTRY_VERIFY(m_bo->voice.invitation());
        QVERIFY(!m_cy->voice.invitation());
        QSignalSpy told(&m_bo->line, &Line::received);
        m_bo->line.ask(wire::SpeakAnswer{{}, true, 8});
        m_bo->send(8, 960);
        m_ann->send(5, 960);
        QTRY_COMPARE(m_cy->order.size(), 2);
        QVERIFY(m_cy->order.contains("8:960") && m_cy->order.contains("5:960"));
        QTRY_VERIFY(m_bo->voice.speaking().on);
        QVERIFY(m_bo->voice.speaking().you && !m_bo->voice.invitation());
        QVERIFY(!m_cy->voice.speaking().you && m_cy->voice.speaking().name.empty());
        QCOMPARE(m_ann->voice.speaking().name, m_bo->line.welcome()->name);
        QVERIFY(m_cy->voice.whose(8) == HallVoice::Whose::speakers);
        m_ann->line.ask(wire::EndSpeaking{});
        QTRY_VERIFY(!m_cy->voice.speaking().on);
        QTRY_VERIFY(!m_bo->voice.speaking().on);
        const auto said = std::count_if(told.begin(), told.end(), [](const QList<QVariant>& each) {
            return std::holds_alternative<wire::Speaking>(each.front().value<wire::ToClient>());
        });
        QCOMPARE(said, 2); // on, off: the one for all is not told again
    }

    void whileTheLineIsDownNobodyIsHeardAndAfterwardsItIsAsTheHallSays()
    {
        m_ann->line.tell(wire::Voice{VoiceState::carried, 5});
        m_ann->send(5, 0);
        QTRY_COMPARE(m_cy->order.size(), 1);
        m_cy->line.pullCable();
        QVERIFY(m_cy->voice.leader().state == VoiceState::none);
        QVERIFY(m_cy->voice.whose(5) == HallVoice::Whose::nobodys);
        QTRY_COMPARE(m_cy->line.state(), LineState::in);
        QVERIFY(m_cy->voice.leader().state == VoiceState::carried);
        m_ann->send(5, 4800);
        QTRY_COMPARE(m_cy->order.last(), QStringLiteral("5:4800"));
        // The leader's own line: everybody hears that it is gone, and she says it anew.
        m_ann->line.pullCable();
        QTRY_VERIFY(m_cy->voice.leader().state == VoiceState::none);
        QTRY_COMPARE(m_ann->line.state(), LineState::in);
        m_ann->line.tell(wire::Voice{VoiceState::muted, 5});
        QTRY_VERIFY(m_cy->voice.leader().state == VoiceState::muted);
    }
};

QTEST_GUILESS_MAIN(TestHallVoice)
#include "test_hall_voice.moc"
