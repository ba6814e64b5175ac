// Guessing, and crowding the door: what one address may do, and that nobody known is kept out by it.
#include "tests/server/hall/test_relay.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;

class TestGuessing : public QObject
{
    Q_OBJECT
private slots:
    void init()
    {
        m_relay = std::make_unique<TestRelay>();
        m_group = m_relay->addGroup("Tuesday voices");
    }
    void cleanup() { m_relay.reset(); }

    void oneHouseholdCannotFillTheDoor()
    {
        const auto knockFrom = [this](const std::string& address) {
            auto line = m_relay->connect("X-Forwarded-For: " + address + "\r\n");
            line->hello();
            line->knock(m_relay->codeOf(m_group), wire::makeKeyPair(), "Bo");
            return line;
        };
        std::vector<std::unique_ptr<TestLine>> waiting;
        for (int i = 0; i < 5; ++i) {
            waiting.push_back(knockFrom("203.0.113.7"));
            waiting.back()->wait<wire::AtDoor>();
        }
        QCOMPARE(knockFrom("203.0.113.7")->waitClosed().code, hall::kCloseTryLater);
        knockFrom("203.0.113.8")->wait<wire::AtDoor>();
    }

    void tenWrongCodesCloseTheDoorForThatAddressButNotForKnownDevices()
    {
        const Visitor known = m_relay->enrol(m_group, Role::participant, "Bo");
        const auto guess = [this](const std::string& address) {
            const auto line = m_relay->connect("X-Forwarded-For: " + address + "\r\n");
            line->hello();
            line->knock("QQQQQQ", wire::makeKeyPair(), "Guess");
            return line->waitClosed().code;
        };
        for (int i = 0; i < 10; ++i)
            QCOMPARE(guess("203.0.113.7"), hall::kCloseNotKnown);
        QCOMPARE(guess("203.0.113.7"), hall::kCloseTryLater);
        QCOMPARE(guess("203.0.113.8"), hall::kCloseNotKnown); // a neighbour is not
        // The right code from there waits too, a known device walks in.
        const auto line = m_relay->connect("X-Forwarded-For: 203.0.113.7\r\n");
        line->hello();
        line->knock(m_relay->codeOf(m_group), wire::makeKeyPair(), "Cy");
        QCOMPARE(line->waitClosed().code, hall::kCloseTryLater);
        const auto back = m_relay->connect("X-Forwarded-For: 203.0.113.7\r\n");
        back->hello();
        back->login(m_group, known.keys, Role::participant);
        back->wait<wire::Welcome>();
        m_relay->clock.advance(std::chrono::minutes{10});
        QCOMPARE(guess("203.0.113.7"), hall::kCloseNotKnown);
    }

    void tenUnknownGroupsCloseTheWayToGroupsThatAreNotHere()
    {
        const Visitor known = m_relay->enrol(m_group, Role::participant, "Bo");
        const auto tryOne = [this] {
            const auto line = m_relay->connect();
            line->hello();
            line->login(GroupId::random(), wire::makeKeyPair(), Role::participant);
            return line->waitClosed().code;
        };
        for (int i = 0; i < 10; ++i)
            QCOMPARE(tryOne(), hall::kCloseNotKnown);
        QCOMPARE(tryOne(), hall::kCloseTryLater);
        m_relay->again(known);
    }

    void manyGuessesAtOnceAreNotAllLookedInto()
    {
        const std::string from = "X-Forwarded-For: 203.0.113.7\r\n";
        std::vector<std::unique_ptr<TestLine>> guesses;
        // Where nobody was wrong yet, a room full of people may come at once; after the first wrong guess no longer.
        const auto first = m_relay->connect(from);
        first->hello();
        first->knock("QQQQQQ", wire::makeKeyPair(), "Guess");
        QCOMPARE(first->waitClosed().code, hall::kCloseNotKnown);
        for (int i = 0; i < 14; ++i) {
            guesses.push_back(m_relay->connect(from));
            guesses.back()->hello();
        }
        for (const auto& each : guesses)
            each->knock("QQQQQQ", wire::makeKeyPair(), "Guess");
        const auto late = std::count_if(guesses.begin(), guesses.end(), [](const auto& each) {
            return each->waitClosed().code == hall::kCloseTryLater;
        });
        QCOMPARE(late, std::ptrdiff_t{5});
    }

    void tenUnknownDevicesCloseTheDoorOfThatGroupOnly()
    {
        const Visitor known = m_relay->enrol(m_group, Role::participant, "Bo");
        const GroupId other = m_relay->addGroup("Thursday voices");
        const auto tryOne = [this](GroupId group) {
            const auto line = m_relay->connect();
            line->hello();
            line->login(group, wire::makeKeyPair(), Role::participant);
            return line->waitClosed().code;
        };
        for (int i = 0; i < 10; ++i)
            QCOMPARE(tryOne(m_group), hall::kCloseNotKnown);
        QCOMPARE(tryOne(m_group), hall::kCloseTryLater);
        QCOMPARE(tryOne(other), hall::kCloseNotKnown);
        m_relay->again(known);
    }

private:
    std::unique_ptr<TestRelay> m_relay;
    GroupId m_group;
};

QTEST_GUILESS_MAIN(TestGuessing)
#include "test_guessing.moc"
