// The voice of whoever holds the place: carried as she says, and nobody else's.
#include "tests/server/hall/sound_cast.h"

using namespace vh;
using namespace vh::testing;

class TestSound : public QObject, private SoundCast
{
    Q_OBJECT
private slots:
    void init() { gather(); }
    void cleanup() { disperse(); }

    void onlyWhoeverHoldsThePlaceIsHeardAndOnlyAsSheSaid()
    {
        const Visitor stan = m_relay->enrol(m_group, Role::standIn, "Stan");
        stan->say(wire::Voice{wire::VoiceState::carried, 9});
        stan->sayBinary(frameOf(9, 1));
        m_bo->sayBinary(frameOf(kBos, 1));
        stan->sync();
        m_bo->sync();
        m_ann->sayBinary(frameOf(kAnns + 1, 1)); // no stream that she spoke of
        m_ann->say(wire::Voice{wire::VoiceState::muted, kAnns + 1});
        m_ann->sayBinary(frameOf(kAnns, 2));
        m_ann->say(wire::Voice{wire::VoiceState::elsewhere, kAnns});
        m_ann->sayBinary(frameOf(kAnns, 3));
        m_ann->say(wire::Voice{wire::VoiceState::carried, kAnns});
        m_ann->sayBinary(frameOf(kAnns, 4));
        QCOMPARE(m_cy->waitBinary(isSound), frameOf(kAnns, 4));
        QCOMPARE(m_cy->wait<wire::VoiceNow>().state, wire::VoiceState::muted);
        QCOMPARE(m_cy->wait<wire::VoiceNow>().state, wire::VoiceState::elsewhere);
        const auto now = m_cy->wait<wire::VoiceNow>();
        QCOMPARE(now.state, wire::VoiceState::carried);
        QCOMPARE(now.stream, kAnns);
        QCOMPARE(now.name, std::string("Ann"));
    }

    void aMuteLetsWhatIsUnderWayFadeOutAndThenNothing()
    {
        m_ann->say(wire::Voice{wire::VoiceState::muted, kAnns});
        for (std::uint64_t i = 0; i < 20; ++i)
            m_ann->sayBinary(frameOf(kAnns, i));
        m_ann->say(wire::Voice{wire::VoiceState::carried, kAnns});
        m_ann->sayBinary(frameOf(kAnns, 100));
        int heard = 0;
        while (m_cy->waitBinary(isSound) != frameOf(kAnns, 100))
            ++heard;
        QCOMPARE(heard, 10);
    }

    void whatIsSaidAgainIsToldOnceAndWhoeverComesLateKnows()
    {
        m_ann->say(wire::Voice{wire::VoiceState::carried, kAnns});
        m_ann->say(wire::Voice{wire::VoiceState::muted, kAnns});
        QCOMPARE(m_cy->wait<wire::VoiceNow>().state, wire::VoiceState::muted);
        const Visitor late = m_relay->enrol(m_group, Role::participant, "Di");
        QVERIFY(late.welcome.voice);
        QCOMPARE(late.welcome.voice->state, wire::VoiceState::muted);
        QCOMPARE(late.welcome.voice->stream, kAnns);
        QCOMPARE(late.welcome.voice->name, std::string("Ann"));
        QVERIFY(!late.welcome.speaking);
    }

    void homesHearWhenTheHoldersLineIsGoneAndWhenSheIsBack()
    {
        m_ann->drop();
        const auto gone = m_cy->wait<wire::VoiceNow>();
        QCOMPARE(gone.state, wire::VoiceState::none);
        QVERIFY(gone.name.empty());
        m_ann = m_relay->again(m_ann);
        QVERIFY(!m_ann.welcome.voice);
        m_ann->sayBinary(frameOf(20, 1)); // before she has said what it is
        m_ann->say(wire::Voice{wire::VoiceState::carried, 20});
        m_ann->sayBinary(frameOf(20, 2));
        QCOMPARE(m_cy->waitBinary(isSound), frameOf(20, 2));
        QCOMPARE(m_cy->wait<wire::VoiceNow>().stream, 20U);
    }

    void theVoiceEndsWhereThePlaceGoesToSomebodyElse()
    {
        const Visitor stan = m_relay->enrol(m_group, Role::standIn, "Stan");
        press(*m_ann.line, CommandKind::start, m_opened.lease, 0);
        m_relay->clock.advance(Millis{3'500});
        stan->acked(wire::TakePlace{RequestId::random()});
        QCOMPARE(m_cy->wait<wire::VoiceNow>().state, wire::VoiceState::none);
        m_ann->sayBinary(frameOf(kAnns, 1));
        m_ann->say(wire::Voice{wire::VoiceState::carried, kAnns});
        m_ann->sync();
        stan->say(wire::Voice{wire::VoiceState::carried, 9});
        stan->sayBinary(frameOf(9, 1));
        QCOMPARE(m_cy->waitBinary(isSound), frameOf(9, 1));
        QCOMPARE(m_cy->wait<wire::VoiceNow>().name, std::string("Stan"));
        // Her own, taken back: said anew.
        m_ann->acked(wire::TakePlace{RequestId::random()});
        QCOMPARE(m_cy->wait<wire::VoiceNow>().state, wire::VoiceState::none);
    }

    void theVoiceEndsWithTheClass()
    {
        const wire::Ack started = press(*m_ann.line, CommandKind::start, m_opened.lease, 0);
        press(*m_ann.line, CommandKind::end, m_opened.lease, *started.serial);
        m_ann->say(wire::Voice{wire::VoiceState::carried, kAnns});
        m_ann->sayBinary(frameOf(kAnns, 1));
        const auto ended = m_cy->wait<wire::PlaceNow>([](const auto& now) { return now.phase == Phase::ended; });
        const auto none = m_cy->wait<wire::VoiceNow>(isState(wire::VoiceState::none));
        QVERIFY(none.seq > ended.seq);
        m_ann->sync();
        m_cy->sync();
        QVERIFY(!m_cy->has<wire::VoiceNow>());
        openSmallClass(*m_ann.line);
        m_ann->say(wire::Voice{wire::VoiceState::carried, kAnns});
        m_ann->sayBinary(frameOf(kAnns, 2));
        QCOMPARE(m_cy->waitBinary(isSound), frameOf(kAnns, 2));
    }

    void placeStandsAmongTheFramesAsTheHallHeardThem()
    {
        const wire::Ack started = press(*m_ann.line, CommandKind::start, m_opened.lease, 0);
        std::uint32_t serial = *started.serial;
        m_cy->wait<wire::PlaceNow>([&](const auto& now) { return now.serial == serial; });
        std::vector<std::string> expected = m_cy->order();
        std::uint64_t frame = 0;
        for (int round = 0; round < 5; ++round) {
            for (int i = 0; i <= round; ++i, ++frame) {
                m_ann->sayBinary(frameOf(kAnns, frame));
                expected.push_back("sound " + std::to_string(frame * 960));
            }
            m_ann->say(wire::Lead{RequestId::random(), CommandKind::onceMore, m_opened.lease, serial});
            expected.push_back("place " + std::to_string(++serial));
        }
        m_ann->sayBinary(frameOf(kAnns, frame));
        expected.push_back("sound " + std::to_string(frame * 960));
        m_cy->waitBinary([&](auto bytes) {
            const auto sound = wire::decodeSound(bytes);
            return sound && sound->head.firstSample == frame * 960;
        });
        QCOMPARE(m_cy->order(), expected);
    }
};

QTEST_GUILESS_MAIN(TestSound)
#include "test_sound.moc"
