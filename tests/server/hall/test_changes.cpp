// The plan changes while it is led: jumps, more time, steps left out, corrections of the script.
#include "common/wire/script_json.h"
#include "tests/server/hall/test_relay.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;
using namespace std::chrono_literals;

namespace
{

/// smallClass, of which both steps of phrases may be left out.
ClassScript lightClass()
{
    ClassScript script = smallClass();
    for (Step& step : script.sections[1].steps)
        step.optionalDearness = 1;
    return script;
}

ClassScript corrected(std::string text)
{
    ClassScript script = lightClass();
    script.sections[1].steps[1].text = std::move(text);
    return script;
}

wire::Lead leaving(std::uint32_t lease, std::uint32_t serial, LeftOut steps)
{
    wire::Lead lead{RequestId::random(), CommandKind::leaveOut, lease, serial};
    lead.leftOut = std::move(steps);
    return lead;
}

} // namespace

class TestChanges : public QObject
{
    Q_OBJECT
private slots:
    void init()
    {
        m_relay = std::make_unique<TestRelay>();
        m_group = m_relay->addGroup("Tuesday voices");
        m_ann = m_relay->enrol(m_group, Role::leader, "Ann");
        m_bo = m_relay->enrol(m_group, Role::participant, "Bo");
        m_class = openSmallClass(*m_ann.line, lightClass());
        m_serial = *press(*m_ann.line, CommandKind::start, m_class.lease, 0).serial;
    }
    void cleanup()
    {
        m_ann = {};
        m_bo = {};
        m_relay.reset();
    }

    void aJumpIsHeardByAllAndMadeOnce()
    {
        wire::Lead jump{RequestId::random(), CommandKind::jump, m_class.lease, m_serial};
        jump.to = StepAt{2, 0};
        const wire::Ack first = m_ann->acked(jump);
        QCOMPARE(m_ann->acked(jump).serial, first.serial); // its answer was lost
        const auto there = m_bo->wait<wire::PlaceNow>([](const auto& now) { return now.place.section == 2; });
        QCOMPARE(there.serial, *first.serial);
        QCOMPARE(there.place, (Place{2, 0, 0, 0}));
        jump.id = RequestId::random();
        QCOMPARE(m_ann->refused(jump).code, std::string("old-place"));
        jump = {RequestId::random(), CommandKind::jump, m_class.lease, *first.serial, StepAt{3, 0}};
        QCOMPARE(m_ann->refused(jump).code, std::string("step-unknown"));
    }

    void moreTimeIsToldAndCountsForTheTurnsResult()
    {
        m_relay->clock.advance(1s);
        wire::Lead more{RequestId::random(), CommandKind::stretch, m_class.lease, m_serial};
        more.more = Millis{10s};
        m_ann->acked(more);
        const auto longer = m_bo->wait<wire::PlaceNow>([](const auto& now) { return now.turnLength == Millis{20s}; });
        QCOMPARE(longer.place, Place{});
        QCOMPARE(longer.turnSerial, m_serial); // no other turn
        m_relay->clock.advance(18s);
        m_ann->say(wire::Leading{m_class.lease});
        m_ann->sync();
        QCOMPARE(m_relay->again(m_bo).welcome.place->place, Place{});
    }

    void stepsLeftOutAreToldAndSurviveARestart()
    {
        const wire::Ack ack = m_ann->acked(leaving(m_class.lease, m_serial, {{1, 1}, {1, 0}}));
        const auto told = m_bo->wait<wire::PlaceNow>([&](const auto& now) { return now.serial == *ack.serial; });
        QCOMPARE(told.leftOut, (LeftOut{{1, 0}, {1, 1}}));
        QCOMPARE(m_ann->refused(leaving(m_class.lease, *ack.serial, {{2, 0}})).code, std::string("step-unknown"));
        m_relay->restart();
        const Visitor bo = m_relay->again(m_bo);
        QCOMPARE(bo.welcome.place->leftOut, told.leftOut);
        const Visitor ann = m_relay->again(m_ann);
        press(*ann.line, CommandKind::goOn, m_class.lease, *ack.serial);
        bo->wait<wire::PlaceNow>([](const auto& now) { return now.place.section == 2; });
    }

    void whatTheLeaderSawAsLeftOutComesBackWithHerPlace()
    {
        wire::Reassert seen{RequestId::random(), m_class.lease, m_serial + 5, {1, 0, 0, 0}};
        seen.leftOut = {{1, 1}};
        m_ann->acked(seen);
        const auto now = m_bo->wait<wire::PlaceNow>([](const auto& place) { return place.place.section == 1; });
        QCOMPARE(now.leftOut, (LeftOut{{1, 1}}));
    }

    void aCorrectionReachesTheHomesAndWhoeverComesLater()
    {
        const auto before = m_bo->wait<wire::PlaceNow>([](const auto& now) { return now.phase == Phase::running; });
        (void)m_bo->wait<wire::ClassOpen>();
        const wire::Hash script = put(*m_ann.line, corrected("Two rolls, please"));
        const wire::ReviseClass revise{RequestId::random(), m_class.lease, 1, {script}};
        const wire::Ack ack = m_ann->acked(revise);
        QCOMPARE(m_ann->acked(revise).serial, ack.serial); // its answer was lost: the same
        const auto about = m_bo->wait<wire::ClassOpen>();
        QVERIFY(about.classId == m_class.id);
        QCOMPARE(about.parts, std::vector{script});
        const auto place = m_bo->wait<wire::PlaceNow>([](const auto& now) { return now.revision == 2; });
        QVERIFY(place.seq > about.seq);
        QCOMPARE(place.serial, *ack.serial);
        QCOMPARE(place.turnSerial, before.turnSerial);
        QCOMPARE(place.turnStartedAt, before.turnStartedAt);

        m_bo->say(wire::PartAsk{m_class.script});
        QCOMPARE(m_bo->wait<wire::Refused>().code, std::string("part-unknown"));
        m_bo->say(wire::PartAsk{script});
        const std::string part = m_bo->waitBinary([](auto bytes) { return wire::decodePart(bytes).has_value(); });
        QCOMPARE(wire::decodeScript(std::string_view(part).substr(35))->sections[1].steps[1].text,
                 std::string("Two rolls, please"));
        const Visitor late = m_relay->enrol(m_group, Role::standIn, "Stan");
        QCOMPARE(late.welcome.open->parts, std::vector{script});
        QCOMPARE(late.welcome.place->revision, 2U);
    }

    void aCorrectionSurvivesARestartAndIsNotMadeAgain()
    {
        const wire::Hash script = put(*m_ann.line, corrected("Two rolls, please"));
        const wire::ReviseClass revise{RequestId::random(), m_class.lease, 1, {script}};
        const wire::Ack ack = m_ann->acked(revise);
        m_relay->restart();
        const Visitor ann = m_relay->again(m_ann);
        QCOMPARE(ann.welcome.open->parts, std::vector{script});
        QCOMPARE(ann.welcome.place->revision, 2U);
        QCOMPARE(ann->acked(revise).serial, ack.serial);
        QCOMPARE(m_relay->again(m_bo).welcome.place->revision, 2U);
        const wire::Hash next = put(*ann.line, corrected("Three rolls, please"));
        ann->acked(wire::ReviseClass{RequestId::random(), m_class.lease, 2, {next}});
    }

    void aCorrectionThatDoesNotFitIsRefusedWithAReason()
    {
        const auto refusal = [&](const ClassScript& script, std::uint32_t revision = 1) {
            const wire::Hash hash = put(*m_ann.line, script);
            return m_ann->refused(wire::ReviseClass{RequestId::random(), m_class.lease, revision, {hash}}).code;
        };
        ClassScript other = lightClass();
        other.sections[0].steps[0].rounds[0].turns[0].kind = TurnKind::withMe;
        QCOMPARE(refusal(other), std::string("other-past"));
        QCOMPARE(refusal(corrected("Too late"), 2), std::string("old-revision"));
        const auto ofParts = [&](std::vector<wire::Hash> parts) {
            return m_ann->refused(wire::ReviseClass{RequestId::random(), m_class.lease, 1, std::move(parts)}).code;
        };
        QCOMPARE(ofParts({}), std::string("class-empty"));
        QCOMPARE(ofParts({wire::Hash{}}), std::string("part-unknown"));
        QCOMPARE(ofParts({m_class.script, wire::Hash{}}), std::string("part-unknown"));
        m_bo->sync();
        QCOMPARE(m_relay->again(m_bo).welcome.place->revision, 1U);
    }

    void onlyWhoeverHoldsThePlaceCorrects()
    {
        const Visitor other = m_relay->enrol(m_group, Role::leader, "Ben");
        const wire::Hash script = put(*other.line, corrected("Two rolls, please"));
        QCOMPARE(other->refused(wire::ReviseClass{RequestId::random(), m_class.lease, 1, {script}}).code,
                 std::string("not-leader"));
        QCOMPARE(m_ann->refused(wire::ReviseClass{RequestId::random(), m_class.lease + 1, 1, {script}}).code,
                 std::string("old-lease"));
    }

    void withoutAClassThereIsNothingToCorrect()
    {
        const wire::Hash script = put(*m_ann.line, corrected("Two rolls, please"));
        press(*m_ann.line, CommandKind::end, m_class.lease, m_serial);
        (void)m_ann->wait<wire::Summary>();
        QCOMPARE(m_ann->refused(wire::ReviseClass{RequestId::random(), m_class.lease, 1, {script}}).code,
                 std::string("no-class"));
    }

private:
    std::unique_ptr<TestRelay> m_relay;
    GroupId m_group;
    Visitor m_ann;
    Visitor m_bo;
    OpenedClass m_class;
    std::uint32_t m_serial = 0;
};

QTEST_GUILESS_MAIN(TestChanges)
#include "test_changes.moc"
