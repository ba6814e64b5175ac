// A class is published, opened, moved and handed on; everybody follows.
#include "common/base/base64.h"
#include "tests/server/hall/test_relay.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;

namespace
{

bool is(const wire::PlaceNow& now, std::uint16_t section, std::uint16_t step, std::uint16_t round)
{
    return now.place.section == section && now.place.step == step && now.place.round == round;
}

} // namespace

class TestLeading : public QObject
{
    Q_OBJECT
private slots:
    void init()
    {
        m_relay = std::make_unique<TestRelay>();
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

    void aPublishedClassOpensForEverybodyAndItsPartsAreThere()
    {
        const OpenedClass opened = openSmallClass(*m_ann.line);
        const auto about = m_bo->wait<wire::ClassOpen>();
        QVERIFY(about.classId == opened.id);
        QCOMPARE(about.parts, std::vector{opened.script});
        const auto place = m_bo->wait<wire::PlaceNow>();
        QCOMPARE(place.phase, Phase::notStarted);
        QCOMPARE(place.leaderName, std::string("Ann"));
        QVERIFY(place.seq > about.seq);

        m_bo->say(wire::PartAsk{opened.script});
        const std::string part = m_bo->waitBinary([](auto bytes) { return wire::decodePart(bytes).has_value(); });
        QVERIFY(wire::sha256(std::string_view(part).substr(35)) == opened.script);
        m_bo->say(wire::PartAsk{wire::Hash{}});
        QCOMPARE(m_bo->wait<wire::Refused>().code, std::string("part-unknown"));
    }

    void aPartThatDoesNotMatchItsHashIsRefused()
    {
        const std::vector<std::uint8_t> bytes{1, 2, 3};
        QCOMPARE(m_ann->refused(wire::PartPut{RequestId::random(), wire::Hash{}, base64Of(bytes)}).code,
                 std::string("part-altered"));
        QCOMPARE(m_ann->refused(wire::PartPut{RequestId::random(), wire::Hash{}, "%%"}).code,
                 std::string("part-unreadable"));
    }

    void aClassNeedsItsScriptAndOneIsOpenAtATime()
    {
        QCOMPARE(m_ann->refused(wire::OpenClass{RequestId::random(), "A class", {wire::Hash{}}}).code,
                 std::string("part-unknown"));
        QCOMPARE(m_ann->refused(wire::OpenClass{RequestId::random(), "A class", {}}).code, std::string("class-empty"));
        for (const std::string bytes :
             {"a picture", R"({"title":"T","theme":"t","language":"en","minutes":1,"sections":[]})"}) {
            const wire::Hash hash = wire::sha256(bytes);
            m_ann->acked(wire::PartPut{RequestId::random(), hash,
                                       base64Of({reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()})});
            QCOMPARE(m_ann->refused(wire::OpenClass{RequestId::random(), "A class", {hash}}).code,
                     std::string("malformed"));
        }
        const OpenedClass opened = openSmallClass(*m_ann.line);
        QCOMPARE(m_ann->refused(wire::OpenClass{RequestId::random(), "Another", {opened.script}}).code,
                 std::string("class-open"));
    }

    void everybodyHearsOfEveryPlaceWithRisingSeq()
    {
        const OpenedClass opened = openSmallClass(*m_ann.line);
        press(*m_ann.line, CommandKind::start, opened.lease, 0);
        const auto started = m_bo->wait<wire::PlaceNow>([](const auto& now) { return now.phase == Phase::running; });
        QCOMPARE(started.line, HomeLine::classRuns);
        QCOMPARE(started.turnLength, Millis{10'000});
        QCOMPARE(started.turnStartedAt, m_relay->clock.now());
        const wire::Ack ack = press(*m_ann.line, CommandKind::goOn, opened.lease, started.serial);
        const auto next = m_bo->wait<wire::PlaceNow>([](const auto& now) { return is(now, 1, 0, 0); });
        QCOMPARE(next.serial, ack.serial.value());
        QCOMPARE(next.turnSerial, next.serial);
        QVERIFY(next.seq > started.seq);
        press(*m_ann.line, CommandKind::wait, opened.lease, next.serial);
        const auto waiting = m_bo->wait<wire::PlaceNow>([](const auto& now) { return now.phase == Phase::waiting; });
        QCOMPARE(waiting.turnSpent, Millis{0});
        QCOMPARE(waiting.turnSerial, next.turnSerial); // a wait is no other turn
    }

    void aCommandThatIsSentTwiceMovesOnce()
    {
        const OpenedClass opened = openSmallClass(*m_ann.line);
        const wire::Ack started = press(*m_ann.line, CommandKind::start, opened.lease, 0);
        const wire::Lead goOn{RequestId::random(), CommandKind::goOn, opened.lease, started.serial.value()};
        const wire::Ack first = m_ann->acked(goOn);
        const wire::Ack second = m_ann->acked(goOn); // the answer was lost: the same answer
        QCOMPARE(second.serial, first.serial);
        // As a new request of the same belief it is refused: the place it meant has gone.
        QCOMPARE(m_ann->refused(wire::Lead{RequestId::random(), CommandKind::goOn, opened.lease, *started.serial}).code,
                 std::string("old-place"));
        wire::Lead other = goOn;
        other.command = CommandKind::end;
        QCOMPARE(m_ann->refused(other).code, std::string("conflict"));
        const Visitor late = m_relay->again(m_bo);
        QVERIFY(is(*late.welcome.place, 1, 0, 0));
        QCOMPARE(late.welcome.place->serial, *first.serial);
    }

    void aCommandOfAnOldLeaseIsRefused()
    {
        const OpenedClass opened = openSmallClass(*m_ann.line);
        QCOMPARE(m_ann->refused(wire::Lead{RequestId::random(), CommandKind::start, opened.lease + 1, 0}).code,
                 std::string("old-lease"));
        const wire::Ack taken = m_ann->acked(wire::TakePlace{RequestId::random()}); // on her other computer
        QCOMPARE(*taken.lease, opened.lease + 1);
        QCOMPARE(m_ann->refused(wire::Lead{RequestId::random(), CommandKind::start, opened.lease, 0}).code,
                 std::string("old-lease"));
        press(*m_ann.line, CommandKind::start, *taken.lease, 0);
    }

    void aStandInTakesOverOnceTheLeaderIsSilentAndSheFindsTheClassOnReturn()
    {
        const Visitor stan = m_relay->enrol(m_group, Role::standIn, "Stan");
        const OpenedClass opened = openSmallClass(*m_ann.line);
        const wire::Ack started = press(*m_ann.line, CommandKind::start, opened.lease, 0);
        QVERIFY(!stan->wait<wire::LeaseNow>([&](const auto& now) { return now.lease == opened.lease; }).mine);
        QCOMPARE(stan->refused(wire::TakePlace{RequestId::random()}).code, std::string("not-now"));

        m_ann->drop();
        m_relay->clock.advance(Millis{2'900});
        QCOMPARE(stan->refused(wire::TakePlace{RequestId::random()}).code, std::string("not-now"));
        m_relay->clock.advance(Millis{100});
        const wire::Ack taken = stan->acked(wire::TakePlace{RequestId::random()});
        QCOMPARE(*taken.lease, opened.lease + 1);
        const auto led = m_bo->wait<wire::PlaceNow>([&](const auto& now) { return now.lease == *taken.lease; });
        QCOMPARE(led.line, HomeLine::standInLeads);
        QCOMPARE(led.leaderName, std::string("Stan"));
        QVERIFY(stan->wait<wire::LeaseNow>([&](const auto& now) { return now.lease == *taken.lease; }).mine);
        const wire::Ack moved = press(*stan.line, CommandKind::goOn, *taken.lease, *taken.serial);

        const Visitor back = m_relay->again(m_ann);
        QVERIFY(is(*back.welcome.place, 1, 0, 0));
        QCOMPARE(back.welcome.place->serial, *moved.serial);
        const auto lease = back->wait<wire::LeaseNow>();
        QVERIFY(!lease.mine);
        QCOMPARE(lease.holderName, std::string("Stan"));
        QCOMPARE(back->refused(wire::Lead{RequestId::random(), CommandKind::goOn, opened.lease, *moved.serial}).code,
                 std::string("not-leader"));
        const wire::Ack again = back->acked(wire::TakePlace{RequestId::random()});
        QCOMPARE(*again.lease, *taken.lease + 1);
        QVERIFY(*started.serial < *again.serial);
    }

    void homesAreToldWhenTheLeaderVanishesAndTheClockIsHeldAfterHalfAMinute()
    {
        const OpenedClass opened = openSmallClass(*m_ann.line);
        press(*m_ann.line, CommandKind::start, opened.lease, 0);
        // The hall wakes by itself when the three seconds are over; a hand on the clock makes them short.
        const auto ticking = m_bo->wait<wire::PlaceNow>([](const auto& now) { return now.phase == Phase::running; });
        m_relay->clock.advance(Millis{3'000});
        m_bo->wait<wire::PlaceNow>([](const auto& now) { return now.line == HomeLine::leaderAway; });
        m_relay->clock.advance(Millis{27'000});
        m_ann->say(wire::Leading{opened.lease}); // brings the state up to now
        const auto calm = m_bo->wait<wire::PlaceNow>([](const auto& now) { return now.phase == Phase::calmPause; });
        QVERIFY(calm.seq > ticking.seq);
    }

    void aSignOfLifeKeepsTheLease()
    {
        const OpenedClass opened = openSmallClass(*m_ann.line);
        press(*m_ann.line, CommandKind::start, opened.lease, 0);
        const Visitor stan = m_relay->enrol(m_group, Role::standIn, "Stan");
        for (int i = 0; i < 5; ++i) {
            m_relay->clock.advance(Millis{1'000});
            m_ann->say(wire::Leading{opened.lease});
            m_ann->sync();
        }
        QCOMPARE(stan->refused(wire::TakePlace{RequestId::random()}).code, std::string("not-now"));
    }

    void aLaterPlaceThatTheLeaderHasSeenIsTakenOver()
    {
        const OpenedClass opened = openSmallClass(*m_ann.line);
        press(*m_ann.line, CommandKind::start, opened.lease, 0);
        const wire::Reassert later{RequestId::random(), opened.lease, 40, {1, 1, 0, 2}};
        m_ann->acked(later);
        const auto place = m_bo->wait<wire::PlaceNow>([](const auto& now) { return is(now, 1, 1, 0); });
        QCOMPARE(place.place.turn, std::uint16_t{2});
        QVERIFY(place.serial > 40);
        const wire::Reassert older{RequestId::random(), opened.lease, 2, {0, 0, 0, 0}};
        QCOMPARE(m_ann->refused(older).code, std::string("old-place"));
    }

    void theEndIsSummarisedForLeadersAndAnotherClassCanOpen()
    {
        const OpenedClass opened = openSmallClass(*m_ann.line);
        const wire::Ack started = press(*m_ann.line, CommandKind::start, opened.lease, 0);
        m_relay->clock.advance(Millis{2'500});
        press(*m_ann.line, CommandKind::end, opened.lease, *started.serial);
        const auto summary = m_ann->wait<wire::Summary>();
        QCOMPARE(summary.planned, Millis{78'000});
        QCOMPARE(summary.actual, Millis{2'500});
        QCOMPARE(summary.came, 1U);
        m_bo->wait<wire::PlaceNow>([](const auto& now) { return now.line == HomeLine::ended; });
        m_bo->sync();
        QVERIFY(!m_bo->has<wire::Summary>());
        QVERIFY(!m_relay->again(m_bo).welcome.open);
        openSmallClass(*m_ann.line);
    }

private:
    std::unique_ptr<TestRelay> m_relay;
    GroupId m_group;
    Visitor m_ann;
    Visitor m_bo;
};

QTEST_GUILESS_MAIN(TestLeading)
#include "test_leading.moc"
