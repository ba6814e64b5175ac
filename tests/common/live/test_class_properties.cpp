#include "tests/common/live/scripts.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;

namespace
{

/// What people and the clock do to a class, at random; every step is checked against what must always hold.
class Walk
{
public:
    explicit Walk(std::uint32_t seed) : m_random(seed), m_script(randomClass(m_random))
    {
        m_state = openClass(m_script, 1, kLeader, {kStandIn}, m_now);
    }

    void run(int steps)
    {
        for (int i = 0; i < steps && !QTest::currentTestFailed(); ++i)
            step();
    }
    int moves() const { return m_moves; }

private:
    int upTo(int most) { return std::uniform_int_distribution<int>(0, most)(m_random); }

    void step()
    {
        m_now += Millis{upTo(3) == 0 ? upTo(20'000) : upTo(1500)};
        if (upTo(20) == 0)
            m_now -= Millis{upTo(5000)}; // clocks are set back, too
        switch (upTo(9)) {
        case 0:
            takeIt();
            break;
        case 1:
        case 2:
            follow(tick(m_script, m_state, m_now));
            break;
        case 3:
        case 4:
            follow(leaderSeen(m_script, m_state, m_state.lease.holder, m_now));
            break;
        default:
            press();
        }
    }

    void takeIt()
    {
        const PersonId who = person(static_cast<std::uint8_t>(1 + upTo(3)));
        const Outcome outcome = takePlace(m_script, m_state, who, Role::participant, m_now);
        QCOMPARE(outcome.state.lease.epoch > m_state.lease.epoch, outcome.refusal == Refusal::none);
        follow(outcome.state);
    }

    void press()
    {
        // Rarely `end`, or nothing much would happen; sometimes with an old serial.
        const auto kind = static_cast<CommandKind>(upTo(40) == 0 ? 7 : upTo(6));
        const auto seen =
            m_state.serial - std::min(m_state.serial, static_cast<std::uint32_t>(upTo(2) == 0 ? upTo(4) : 0));
        Command command{kind, m_state.lease.holder, m_state.lease.epoch, seen};
        if (upTo(2) == 0)
            change(command);
        const Outcome outcome = apply(m_script, m_state, command, m_now);
        QVERIFY(!(outcome.moved && outcome.refusal != Refusal::none));
        const std::uint32_t byClock = tick(m_script, m_state, m_now).serial;
        QCOMPARE(outcome.state.serial, byClock + (outcome.moved ? 1 : 0));
        follow(outcome.state);
        m_moves += outcome.moved ? 1 : 0;

        // The same press again, at once or later: never a second move.
        const Outcome again = apply(m_script, m_state, command, m_now + Millis{upTo(1) * upTo(4000)});
        QVERIFY(!(outcome.moved && again.moved));
    }

    /// A press that changes what is planned; sometimes one that makes no sense.
    void change(Command& command)
    {
        const StepAt step{static_cast<std::uint16_t>(upTo(4)), static_cast<std::uint16_t>(upTo(4))};
        switch (upTo(2)) {
        case 0:
            command.kind = CommandKind::jump;
            command.to = step;
            break;
        case 1:
            command.kind = CommandKind::stretch;
            command.more = Millis{upTo(20'000)};
            break;
        default:
            command.kind = CommandKind::leaveOut;
            command.leftOut = {step, step};
        }
    }

    void follow(const ClassState& next)
    {
        QVERIFY(turnAt(m_script, next.place));
        QVERIFY(std::ranges::is_sorted(next.leftOut));
        QVERIFY(!isLeftOut(next.leftOut, stepOf(next.place)));
        for (const StepAt step : next.leftOut)
            QVERIFY(stepAt(m_script, step) && stepAt(m_script, step)->optionalDearness);
        QVERIFY(next.serial >= m_state.serial);
        const bool changed = next.place != m_state.place || next.phase != m_state.phase;
        QVERIFY(!changed || next.serial > m_state.serial);
        QVERIFY(next.turnSerial <= next.serial && next.turnSerial >= m_state.turnSerial);
        QVERIFY(next.pressedSerial <= next.serial && next.pressedSerial >= m_state.pressedSerial);
        QVERIFY(next.lease.lastSeen >= m_state.lease.lastSeen);
        QVERIFY(next.turnSpent >= Millis{0} && next.turnSpent <= next.turnLength);
        if (next.turnSerial != m_state.turnSerial)
            QVERIFY(next.turnStartedAt >= m_state.turnStartedAt);
        QCOMPARE(next.endedAt.has_value(), next.phase == Phase::ended);
        if (m_state.phase == Phase::ended)
            QCOMPARE(next, m_state);
        const auto due = nextChangeAt(next);
        QCOMPARE(due.has_value(), next.phase != Phase::ended && !(next.phase != Phase::running &&
                                                                  next.phase != Phase::waiting && next.silentSince));
        m_state = next;
    }

    std::mt19937 m_random;
    ClassScript m_script;
    Instant m_now = kNoon;
    ClassState m_state;
    int m_moves = 0;
};

} // namespace

class TestClassProperties : public QObject
{
    Q_OBJECT
private slots:
    void whateverIsPressedTheClassStaysInItsScript()
    {
        int moves = 0;
        for (std::uint32_t seed = 1; seed <= 400 && !QTest::currentTestFailed(); ++seed) {
            Walk walk(seed);
            walk.run(150);
            moves += walk.moves();
            if (QTest::currentTestFailed())
                qWarning("seed %u", seed);
        }
        QVERIFY(moves > 4000); // the walks did walk
    }
};

QTEST_APPLESS_MAIN(TestClassProperties)
#include "test_class_properties.moc"
