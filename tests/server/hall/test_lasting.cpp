// What survives: a stop and a start of the relay, a line that fell behind, a peer that sends nonsense.
#include "server/hall/state_codec.h"
#include "tests/server/hall/test_relay.h"

#include <QtTest>
#include <SQLiteCpp/SQLiteCpp.h>

using namespace vh;
using namespace vh::testing;

namespace
{
/// A message of this type, made long by a field that nobody knows.
std::string padded(const std::string& type, std::size_t size)
{
    return R"json({"sent": 1, "type": ")json" + type + R"json(", "more": ")json" + std::string(size, 'x') + "\"}";
}
} // namespace

class TestLasting : public QObject
{
    Q_OBJECT
private slots:
    void init()
    {
        m_relay = std::make_unique<TestRelay>(2);
        m_group = m_relay->addGroup("Tuesday voices");
        m_ann = m_relay->enrol(m_group, Role::leader, "Ann");
        m_bo = m_relay->enrol(m_group, Role::participant, "Bo");
    }
    void cleanup()
    {
        m_ann = {};
        m_bo = {};
        m_relay.reset();
    }

    void aRestartLosesNothingThatWasAcknowledged()
    {
        const OpenedClass opened = openSmallClass(*m_ann.line);
        agree(*m_bo.line, AgreementKind::levelVisible, "leader");
        const wire::Ack started = press(*m_ann.line, CommandKind::start, opened.lease, 0);
        const wire::Ack moved = press(*m_ann.line, CommandKind::goOn, opened.lease, *started.serial);
        m_bo->acked(wire::Write{RequestId::random(), "still there?"});
        const HallEpoch epoch = m_bo.welcome.epoch;

        m_relay->restart();
        QCOMPARE(m_bo->waitClosed().code, wire::CloseCode::goingAway);
        const Visitor bo = m_relay->again(m_bo);
        QVERIFY(bo.welcome.epoch != epoch);
        QVERIFY(bo.welcome.open->classId == opened.id);
        QCOMPARE(bo.welcome.open->title, std::string("A walk to the baker"));
        QCOMPARE(bo.welcome.place->serial, *moved.serial);
        QCOMPARE(bo.welcome.place->place.section, std::uint16_t{1});
        QCOMPARE(bo.welcome.place->phase, Phase::running);
        QCOMPARE(bo.welcome.agreements.size(), std::size_t{1});
        bo->say(wire::PartAsk{opened.script});
        bo->waitBinary([](auto bytes) { return wire::decodePart(bytes).has_value(); });

        const Visitor ann = m_relay->again(m_ann);
        QCOMPARE(ann->wait<wire::OnDesk>().items.size(), std::size_t{1});
        press(*ann.line, CommandKind::goOn, opened.lease, *moved.serial); // and she leads on
        bo->wait<wire::PlaceNow>([&](const auto& now) { return now.serial > *moved.serial; });
    }

    void aResultOfATurnBeforeTheRestartIsStillTaken()
    {
        const OpenedClass opened = openSmallClass(*m_ann.line);
        agree(*m_bo.line, AgreementKind::resultsKept, "yes");
        const wire::Ack started = press(*m_ann.line, CommandKind::start, opened.lease, 0);
        press(*m_ann.line, CommandKind::goOn, opened.lease, *started.serial);
        m_relay->clock.advance(Millis{10'000}); // listen, ready and with me are over
        m_ann->say(wire::Leading{opened.lease});
        const auto yours = m_bo->wait<wire::PlaceNow>([](const auto& now) { return now.place.turn == 3; });
        m_relay->clock.advance(Millis{5'000});
        m_ann->say(wire::Leading{opened.lease});
        m_bo->wait<wire::PlaceNow>([&](const auto& now) { return now.turnSerial > yours.turnSerial; });
        m_relay->restart();
        const Visitor bo = m_relay->again(m_bo);
        wire::TurnDone done;
        done.id = RequestId::random();
        done.classId = opened.id;
        done.result.reading.turnSerial = yours.turnSerial;
        done.result.reading.elapsedMs = done.result.reading.heardMs = done.result.reading.voicedMs = 4'000;
        done.result.reading.leqOverUsualDb = 5;
        bo->acked(done);
        const auto rows = m_relay->store().run([&](store::Tables& tables) -> Result<std::vector<store::TurnResultRow>> {
            return tables.results.ofPerson(bo.welcome.person);
        });
        QCOMPARE(rows->size(), std::size_t{1});
        QCOMPARE(rows->front().sectionKind, std::string("phrases"));
    }

    void aPressWhosePlaceCouldNotBeStoredIsStoredWhenAskedAgain()
    {
        const OpenedClass opened = openSmallClass(*m_ann.line);
        const wire::Ack started = press(*m_ann.line, CommandKind::start, opened.lease, 0);
        const wire::Lead on{RequestId::random(), CommandKind::goOn, opened.lease, *started.serial};
        sql("CREATE TRIGGER full BEFORE INSERT ON places BEGIN SELECT RAISE(ABORT, 'full'); END");
        QCOMPARE(m_ann->refused(on).code, std::string("busy"));
        const auto moved = m_bo->wait<wire::PlaceNow>([](const auto& now) { return now.place.section == 1; });
        QCOMPARE(m_ann->refused(on).code, std::string("busy"));
        sql("DROP TRIGGER full");
        QCOMPARE(*m_ann->acked(on).serial, moved.serial);
        m_relay->restart();
        QCOMPARE(m_relay->again(m_bo).welcome.place->serial, moved.serial);
    }

    void aLinkThatCouldNotBeStoredIsGoodALittleLater()
    {
        const wire::Token token = m_relay->link(m_group, Role::participant);
        const auto redeem = [&] {
            auto line = m_relay->connect();
            line->hello();
            line->redeem(token, wire::makeKeyPair(), "Cy");
            return line;
        };
        sql("CREATE TRIGGER full BEFORE INSERT ON people BEGIN SELECT RAISE(ABORT, 'full'); END");
        const auto turnedOff = redeem();
        QCOMPARE(turnedOff->wait<wire::Refused>().code, std::string("store-failed"));
        QCOMPARE(turnedOff->waitClosed().code, hall::kCloseTryLater);
        sql("DROP TRIGGER full");
        redeem()->wait<wire::Welcome>();
    }

    void theSummaryKnowsOfTheTimeBeforeARestartAndWaitsForALeader()
    {
        const OpenedClass opened = openSmallClass(*m_ann.line);
        agree(*m_bo.line, AgreementKind::levelVisible, "leader");
        agree(*m_bo.line, AgreementKind::resultsKept, "yes");
        m_bo->acked(wire::HelpCall{RequestId::random()});
        const wire::Ack started = press(*m_ann.line, CommandKind::start, opened.lease, 0);
        press(*m_ann.line, CommandKind::goOn, opened.lease, *started.serial);
        m_relay->clock.advance(Millis{10'000});
        m_ann->say(wire::Leading{opened.lease});
        const auto yours = m_bo->wait<wire::PlaceNow>([](const auto& now) { return now.place.turn == 3; });
        wire::TurnDone done;
        done.id = RequestId::random();
        done.classId = opened.id;
        done.result.reading.turnSerial = yours.turnSerial;
        done.result.reading.elapsedMs = done.result.reading.heardMs = done.result.reading.voicedMs = 4'000;
        done.result.reading.leqOverUsualDb = 5;
        m_bo->acked(done);
        m_relay->restart();
        const Visitor ann = m_relay->again(m_ann);
        press(*ann.line, CommandKind::end, opened.lease, ann.welcome.place->serial);
        ann->wait<wire::Summary>();
        const auto summary = m_relay->again(ann)->wait<wire::Summary>();
        QCOMPARE(summary.calls, 1U);
        QCOMPARE(summary.judgedTurns, 1U);
    }

    void theEndOfAClassIsStoredOnceThatIsPossible()
    {
        const OpenedClass opened = openSmallClass(*m_ann.line);
        const wire::Ack started = press(*m_ann.line, CommandKind::start, opened.lease, 0);
        sql("CREATE TRIGGER full BEFORE UPDATE ON classes BEGIN SELECT RAISE(ABORT, 'full'); END");
        const wire::Lead end{RequestId::random(), CommandKind::end, opened.lease, *started.serial};
        m_ann->acked(end);
        m_relay->settle();
        QCOMPARE(m_ann->refused(end).code, std::string("busy")); // its answer was lost; the end is not yet on disk
        sql("DROP TRIGGER full");
        const auto isStored = [&] {
            return m_relay->store()
                .run([&](store::Tables& tables) -> Result<bool> {
                    return tables.classes.byId(opened.id)->endedAt.has_value();
                })
                .value();
        };
        QTRY_VERIFY_WITH_TIMEOUT(isStored(), 10'000);
        m_ann->acked(end);
        openSmallClass(*m_ann.line);
    }

    void aClassThatEndedJustBeforeTheRelayDiedIsClosedOnReturn()
    {
        const OpenedClass opened = openSmallClass(*m_ann.line);
        const wire::Ack started = press(*m_ann.line, CommandKind::start, opened.lease, 0);
        press(*m_ann.line, CommandKind::end, opened.lease, *started.serial);
        m_relay->settle();
        // As if the power had gone between the last place of a class and the end in its own row.
        m_relay->restart();
        const auto half = m_relay->store().run([&](store::Tables& tables) -> Result<bool> {
            ClassState state = openClass(smallClass(), 1, m_ann.welcome.person, {}, m_relay->clock.now());
            state.phase = Phase::ended;
            state.endedAt = m_relay->clock.now();
            const auto row =
                tables.classes.open(m_group, m_ann.welcome.person, "Cut short", opened.script, m_relay->clock.now());
            return tables.classes.putPlace({row.value().id, 1, 1, hall::encodeState(state), m_relay->clock.now()})
                .has_value();
        });
        QVERIFY(half.value());
        const Visitor ann = m_relay->again(m_ann);
        m_relay->settle();
        openSmallClass(*ann.line);
    }

    void aLongAbsenceOfTheRelayEndsInACalmPauseNotInAnEndedClass()
    {
        const OpenedClass opened = openSmallClass(*m_ann.line);
        press(*m_ann.line, CommandKind::start, opened.lease, 0);
        m_relay->stop();
        m_relay->clock.advance(std::chrono::minutes{20});
        m_relay->start();
        QCOMPARE(m_relay->again(m_bo).welcome.place->phase, Phase::calmPause);
    }

    void whoeverFellBehindGetsAFreshSnapshot()
    {
        const OpenedClass opened = openSmallClass(*m_ann.line);
        m_bo.line = m_relay->connect({}, 4096);
        m_bo->hello();
        m_bo->login(m_group, m_bo.keys, Role::participant);
        QCOMPARE(m_bo->wait<wire::Welcome>().place->phase, Phase::notStarted);
        m_bo->pauseReading(true);
        const std::string sound = wire::encodeSound({1, 0}, std::vector<std::uint8_t>(wire::kSoundBytes));
        const auto fill = [&] {
            m_ann = m_relay->again(m_ann); // with all that a sender may send at once
            m_ann->say(wire::Voice{wire::VoiceState::carried, 1});
            for (int i = 0; i < 240; ++i) // 310 KB: more than the hall's log
                m_ann->sayBinary(sound);
            m_ann->sync();
        };
        fill();
        press(*m_ann.line, CommandKind::start, opened.lease, 0);
        m_ann->acked(wire::Notice{RequestId::random(), "Good morning"});
        fill();
        m_bo->pauseReading(false);
        const auto snapshot = m_bo->wait<wire::Welcome>();
        QCOMPARE(snapshot.place->phase, Phase::running);
        QCOMPARE(snapshot.board.size(), std::size_t{1});
        QVERIFY(!m_bo->has<wire::Board>()); // never both: what was missed came with the snapshot
        m_ann->acked(wire::Notice{RequestId::random(), "Here we go"});
        const auto board = m_bo->wait<wire::Board>();
        QCOMPARE(board.items.front().text, std::string("Here we go"));
        QVERIFY(board.seq > snapshot.seq);
    }

    void aMalformedMessageClosesThatLineOnly()
    {
        for (
            const std::string_view wrong :
            {"not json", "[]", "{}", R"json({"type":7})json", R"json({"type":"write"})json",
             R"json({"type":"write","id":"x","text":"a"})json",
             R"json({"type":"agree","id":"00000000000000000000000000000001","kind":"level","value":"no","wording":1})json"}) {
            const Visitor cy = m_relay->enrol(m_group, Role::participant, "Cy");
            cy->sayText(std::string(wrong));
            const Closing closing = cy->waitClosed();
            QCOMPARE(closing.code, wire::CloseCode::policy);
            QVERIFY(!closing.reason.empty());
        }
        const Visitor cy = m_relay->enrol(m_group, Role::participant, "Cy");
        cy->sayBinary("\x01");
        QCOMPARE(cy->waitClosed().code, wire::CloseCode::policy);
        m_bo->sync();
        m_ann->sync();
    }

    void anOversizedMessageClosesThatLineOnly()
    {
        const auto fresh = m_relay->connect();
        fresh->sayText(padded("hello", 5'000));
        QCOMPARE(fresh->waitClosed().code, wire::CloseCode::tooBig);
        const Visitor cy = m_relay->enrol(m_group, Role::participant, "Cy");
        cy->sayText(padded("write", 70'000));
        QCOMPARE(cy->waitClosed().code, wire::CloseCode::tooBig);
        // Within the line's limit, above this message's own.
        m_ann->sayText(padded("clock", 5'000));
        QCOMPARE(m_ann->waitClosed().code, wire::CloseCode::tooBig);
        m_bo->sync();
    }

    void bytesThatAreNoFrameCloseThatLineOnly()
    {
        const Visitor cy = m_relay->enrol(m_group, Role::participant, "Cy");
        cy->sayRaw("\xFF\xFF\xFF\xFF");
        QCOMPARE(cy->waitClosed().code, wire::CloseCode::protocolError);
        m_bo->sync();
    }

    void anUnknownMessageIsAnsweredAndTheLineStaysUp()
    {
        m_bo->sayText(R"json({"type":"sing","song":1})json");
        QCOMPARE(m_bo->wait<wire::Unsupported>().what, std::string("sing"));
        m_bo->sayBinary(std::string("\xF0\x01\x00 of later", 12));
        m_bo->sayText(R"json({"type":"clock","sent":5,"ofLater":{"a":[1]}})json");
        m_bo->wait<wire::ClockAnswer>([](const auto& answer) { return answer.sent == 5; });
    }

    void byeEndsTheLineInPeace()
    {
        m_bo->say(wire::Bye{});
        QCOMPARE(m_bo->waitClosed().code, wire::CloseCode::normal);
    }

private:
    /// From beside the relay, as a disk that is full would come from outside.
    void sql(const char* text)
    {
        SQLite::Database beside(m_relay->file(), SQLite::OPEN_READWRITE, 5'000);
        beside.exec(text);
    }

    std::unique_ptr<TestRelay> m_relay;
    GroupId m_group;
    Visitor m_ann;
    Visitor m_bo;
};

QTEST_GUILESS_MAIN(TestLasting)
#include "test_lasting.moc"
