// The board, calls for help, attendance; and that what is asked twice is done once.
#include "tests/server/hall/test_relay.h"

#include <QtTest>
#include <future>

using namespace vh;
using namespace vh::testing;

class TestDesk : public QObject
{
    Q_OBJECT
private slots:
    void init()
    {
        m_relay = std::make_unique<TestRelay>();
        m_group = m_relay->addGroup("Tuesday voices");
        m_kim = m_relay->enrol(m_group, Role::moderator, "Kim");
        m_bo = m_relay->enrol(m_group, Role::participant, "Bo");
        m_cy = m_relay->enrol(m_group, Role::participant, "Cy");
    }
    void cleanup()
    {
        m_kim = {};
        m_bo = {};
        m_cy = {};
        m_relay.reset();
    }

    void aLineIsHeldUntilAHelperShowsIt()
    {
        const wire::Ack ack = m_bo->acked(wire::Write{RequestId::random(), "Good morning"});
        const wire::DeskItem held = onDesk(m_kim, *ack.item, wire::DeskState::held);
        QCOMPARE(held.text, std::string("Good morning"));
        QCOMPARE(held.name, std::string("Bo"));
        m_cy->sync();
        QVERIFY(!m_cy->has<wire::Board>());

        const wire::Decide show{RequestId::random(), held.item, held.change, wire::Decision::show};
        m_kim->acked(show);
        m_kim->acked(show); // the answer was lost: the same again
        QCOMPARE(onDesk(m_kim, held.item, wire::DeskState::goingUp).by, std::string("Kim"));
        m_cy->sync();
        QVERIFY(!m_cy->has<wire::Board>()); // it can still be taken back
        m_relay->clock.advance(wire::kGoesUpAfter);
        const auto board = m_cy->wait<wire::Board>();
        QCOMPARE(board.items.front().text, std::string("Good morning"));
        QVERIFY(board.items.front().name.empty()); // Bo has not agreed to be seen by name
        QCOMPARE(
            m_kim->refused(wire::Decide{RequestId::random(), held.item, held.change, wire::Decision::setAside}).code,
            std::string("item-changed"));
        m_cy->sync();
        QVERIFY(!m_cy->has<wire::Board>()); // shown once
    }

    void aNameStandsOnTheBoardOnlyIfThatWasAgreed()
    {
        agree(*m_bo.line, AgreementKind::nameSeen, "yes");
        show("Hello");
        QCOMPARE(m_cy->wait<wire::Board>().items.front().name, std::string("Bo"));
    }

    void aLineThatIsSetAsideIsNeverShown()
    {
        const wire::Ack ack = m_bo->acked(wire::Write{RequestId::random(), "Oh"});
        decide(m_kim, onDesk(m_kim, *ack.item, wire::DeskState::held), wire::Decision::setAside);
        m_kim->acked(wire::Notice{RequestId::random(), "Water, please"});
        const auto board = m_cy->wait<wire::Board>();
        QCOMPARE(board.items.front().text, std::string("Water, please"));
        QCOMPARE(board.items.front().kind, wire::ItemKind::notice);
    }

    void comingBackBringsTheBoardSince()
    {
        show("one");
        const std::uint64_t change = m_cy->wait<wire::Board>().items.front().change;
        m_cy->drop();
        show("two");
        const Visitor since = m_relay->again(m_cy, change);
        QCOMPARE(since.welcome.board.size(), std::size_t{1});
        QCOMPARE(since.welcome.board.front().text, std::string("two"));
        QCOMPARE(m_relay->again(m_cy).welcome.board.size(), std::size_t{2});
    }

    void whatCannotBeShownIsTakenOutOfALine()
    {
        const wire::Ack ack = m_bo->acked(wire::Write{RequestId::random(), "a\u202Eb\u0007c"});
        QVERIFY(ack.item);
        QCOMPARE(onDesk(m_kim, *ack.item, wire::DeskState::held).text, std::string("abc"));
        QCOMPARE(m_bo->refused(wire::Write{RequestId::random(), " \n "}).code, std::string("text-empty"));
    }

    void aLineThatAsksTooMuchAtOnceIsToldToAskAgain()
    {
        std::promise<void> gate;
        const auto opened = gate.get_future().share();
        m_relay->store().submit(
            [opened](store::Tables&) -> Result<bool> {
                opened.wait();
                return true;
            },
            [](const Result<bool>&) {}, [](const std::function<void()>& task) { task(); });
        std::vector<wire::Contact> asked(17);
        for (wire::Contact& each : asked) {
            each = {RequestId::random(), "Kitchen", "Sam"};
            m_bo->say(each);
        }
        const auto refused = m_bo->wait<wire::Refused>();
        QCOMPARE(refused.code, std::string("busy"));
        QVERIFY(refused.id == asked.back().id);
        gate.set_value();
        for (int i = 0; i < 16; ++i)
            m_bo->wait<wire::Ack>();
        m_bo->acked(asked.back());
    }

    void nobodyFillsTheDesk()
    {
        for (int i = 0; i < 20; ++i)
            m_bo->acked(wire::Write{RequestId::random(), "again"});
        QCOMPARE(m_bo->refused(wire::Write{RequestId::random(), "again"}).code, std::string("many-held"));
        m_cy->acked(wire::Write{RequestId::random(), "hello"});
    }

    void aCallStaysUntilSomebodyHasDealtWithIt()
    {
        m_bo->acked(wire::Contact{RequestId::random(), "Kitchen, Elm Street 4", "Sam, next door"});
        const wire::Ack call = m_bo->acked(wire::HelpCall{RequestId::random()});
        const auto calls = m_kim->wait<wire::Calls>([](const auto& each) { return !each.calls.empty(); });
        QCOMPARE(calls.calls.front().name, std::string("Bo"));
        QCOMPARE(*m_bo->acked(wire::HelpCall{RequestId::random()}).item, *call.item); // pressed again: the same call

        m_relay->restart();
        const Visitor kim = m_relay->again(m_kim);
        const auto still = kim->wait<wire::Calls>();
        QCOMPARE(still.calls.size(), std::size_t{1});
        QCOMPARE(still.calls.front().call, *call.item);
        const Visitor bo = m_relay->again(m_bo);
        QCOMPARE(bo.welcome.calls.size(), std::size_t{1});
        kim->acked(wire::HelpTake{RequestId::random(), *call.item});
        QCOMPARE(bo->wait<wire::CallStatus>().takenBy, std::string("Kim"));
        kim->acked(wire::HelpDone{RequestId::random(), *call.item, "rang Sam"});
        QVERIFY(bo->wait<wire::CallStatus>().done);
        QVERIFY(m_relay->again(bo).welcome.calls.empty());
    }

    void aCallOfAnotherGroupIsNotKnownHere()
    {
        const wire::Ack call = m_bo->acked(wire::HelpCall{RequestId::random()});
        const GroupId other = m_relay->addGroup("Thursday voices");
        const Visitor lu = m_relay->enrol(other, Role::moderator, "Lu");
        QCOMPARE(lu->refused(wire::HelpTake{RequestId::random(), *call.item}).code, std::string("call-unknown"));
        QCOMPARE(lu->refused(wire::HelpDone{RequestId::random(), *call.item, ""}).code, std::string("call-unknown"));
        const wire::Ack line = m_bo->acked(wire::Write{RequestId::random(), "Hello"});
        const wire::DeskItem held = onDesk(m_kim, *line.item, wire::DeskState::held);
        QCOMPARE(lu->refused(wire::Decide{RequestId::random(), held.item, held.change, wire::Decision::show}).code,
                 std::string("item-unknown"));
        m_kim->acked(wire::HelpTake{RequestId::random(), *call.item});
        decide(m_kim, held, wire::Decision::show);
    }

    void attendanceIsKeptByNameOnlyIfAgreedAndByHandToo()
    {
        agree(*m_bo.line, AgreementKind::attendanceNamed, "yes");
        QCOMPARE(m_kim->refused(wire::AttendByHand{RequestId::random(), "Dot"}).code, std::string("no-class"));
        const Visitor ann = m_relay->enrol(m_group, Role::leader, "Ann");
        const OpenedClass opened = openSmallClass(*ann.line);
        const wire::AttendByHand dot{RequestId::random(), "Dot, by telephone"};
        m_kim->acked(dot);
        m_kim->acked(dot);
        const auto attendance = ann->wait<wire::Attendance>();
        std::vector<std::string> names;
        for (const auto& present : attendance.present)
            names.push_back(present.name + (present.byHand ? " by hand" : ""));
        std::sort(names.begin(), names.end());
        QCOMPARE(names, (std::vector<std::string>{"", "Bo", "Dot, by telephone by hand"}));

        m_relay->restart(); // those without a name are not counted again when they come back
        const Visitor cy = m_relay->again(m_cy);
        const Visitor bo = m_relay->again(m_bo);
        const Visitor back = m_relay->again(ann);
        press(*back.line, CommandKind::start, opened.lease, 0);
        press(*back.line, CommandKind::end, opened.lease, 1);
        QCOMPARE(back->wait<wire::Summary>().came, 3U);
    }

    void takingBackTheNameTakesItOutOfTheAttendance()
    {
        agree(*m_bo.line, AgreementKind::attendanceNamed, "yes");
        const Visitor ann = m_relay->enrol(m_group, Role::leader, "Ann");
        openSmallClass(*ann.line);
        m_kim->acked(wire::AttendByHand{RequestId::random(), "Dot"});
        const auto named = [](const wire::Attendance& each) {
            return std::any_of(each.present.begin(), each.present.end(),
                               [](const auto& present) { return present.name == "Bo"; });
        };
        QVERIFY(named(ann->wait<wire::Attendance>()));
        agree(*m_bo.line, AgreementKind::attendanceNamed, "no");
        m_kim->acked(wire::AttendByHand{RequestId::random(), "Eve"});
        const auto after = ann->wait<wire::Attendance>([](const auto& each) { return each.present.size() == 4; });
        QVERIFY(!named(after)); // still counted, without the name
    }

    void theSameIdWithOtherWordsIsAConflict()
    {
        const RequestId id = RequestId::random();
        const wire::Ack first = m_bo->acked(wire::Write{id, "one"});
        QCOMPARE(*m_bo->acked(wire::Write{id, "one"}).item, *first.item);
        QCOMPARE(m_bo->refused(wire::Write{id, "two"}).code, std::string("conflict"));
        QVERIFY(*m_cy->acked(wire::Write{id, "one"}).item != *first.item); // an id is one person's own
        m_relay->restart();
        const Visitor bo = m_relay->again(m_bo);
        QCOMPARE(*bo->acked(wire::Write{id, "one"}).item, *first.item);
    }

    void namesAreForTheDeskOnly()
    {
        const auto seats = m_kim->wait<wire::Seats>([](const auto& each) { return each.whole; });
        // Those who speak in class have a seat to be seen at; who only leads or helps has none.
        QVERIFY(
            std::none_of(seats.seats.begin(), seats.seats.end(), [](const auto& seat) { return seat.name == "Kim"; }));
        m_kim->wait<wire::Seats>([](const auto& each) {
            return std::any_of(each.seats.begin(), each.seats.end(),
                               [](const auto& seat) { return seat.name == "Cy" && seat.here; });
        });
        m_bo->wait<wire::Here>([](const auto& each) { return each.here == 2 && each.helpers == 1; });
        QVERIFY(!m_bo->has<wire::Seats>());
    }

private:
    void show(const std::string& text)
    {
        const wire::Ack ack = m_bo->acked(wire::Write{RequestId::random(), text});
        const wire::DeskItem held = onDesk(m_kim, *ack.item, wire::DeskState::held);
        decide(m_kim, held, wire::Decision::show);
        m_relay->clock.advance(wire::kGoesUpAfter);
        onDesk(m_kim, held.item, wire::DeskState::shown);
    }

    std::unique_ptr<TestRelay> m_relay;
    GroupId m_group;
    Visitor m_kim;
    Visitor m_bo;
    Visitor m_cy;
};

QTEST_GUILESS_MAIN(TestDesk)
#include "test_desk.moc"
