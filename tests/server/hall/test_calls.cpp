// Calls for help, the contacts behind them and lines that are lost: who sees what, for which reason, and that a restart
// of the relay loses none of it.
#include "tests/server/hall/test_relay.h"

#include <QtTest>
#include <future>

using namespace vh;
using namespace vh::testing;

namespace
{

const std::string kWhere = "Kitchen, Elm Street 4";
const std::string kRing = "Sam, next door";

wire::ContactAsk look(PersonId person, wire::Because because)
{
    return {RequestId::random(), person, because};
}

/// What the desk did, as the log has it: "who what whom detail".
std::vector<std::string> acts(const Visitor& helper)
{
    helper->say(wire::ActsAsk{});
    std::vector<std::string> all;
    for (const wire::Act& act : helper->wait<wire::Acts>().acts)
        all.push_back(act.who + " " + act.what + " " + act.whom + (act.detail.empty() ? "" : " " + act.detail));
    return all;
}

std::vector<std::string> expected(std::initializer_list<const char*> each)
{
    return {each.begin(), each.end()};
}

} // namespace

class TestCalls : public QObject
{
    Q_OBJECT
private slots:
    void init()
    {
        m_relay = std::make_unique<TestRelay>();
        m_group = m_relay->addGroup("Tuesday voices");
        m_ann = m_relay->enrol(m_group, Role::leader, "Ann");
        m_kim = m_relay->enrol(m_group, Role::moderator, "Kim");
        m_bo = m_relay->enrol(m_group, Role::participant, "Bo");
        m_bo->acked(wire::Contact{RequestId::random(), kWhere, kRing});
    }
    void cleanup()
    {
        m_ann = {};
        m_kim = {};
        m_bo = {};
        m_relay.reset();
    }

    void theContactGoesToWhoeverTakesTheCallAndToNobodyElse()
    {
        const std::uint64_t call = callOf(m_bo);
        QVERIFY(callNow(m_ann, call).takenBy.empty()); // no class is open: it reaches everybody all the same
        m_kim->acked(wire::HelpTake{RequestId::random(), call});
        const auto shown = m_kim->wait<wire::ContactShown>();
        QVERIFY(shown.person == m_bo.welcome.person);
        QCOMPARE(shown.where, kWhere);
        QCOMPARE(shown.ring, kRing);
        QVERIFY(shown.at == m_relay->clock.now());
        QVERIFY(callNow(m_ann, call, "Kim").taker == m_kim.welcome.person);
        QCOMPARE(m_bo->wait<wire::CallStatus>([](const auto& each) { return !each.takenBy.empty(); }).takenBy,
                 std::string("Kim"));
        m_ann->sync();
        QVERIFY(!m_ann->has<wire::ContactShown>());
        QCOMPARE(m_ann->refused(wire::HelpTake{RequestId::random(), call}).code, std::string("call-taken"));
        m_kim->acked(wire::HelpDone{RequestId::random(), call, "rang Sam"});
        QCOMPARE(acts(m_ann), expected({"Kim call-taken Bo", "Kim contact-for-call Bo", "Kim call-done Bo rang Sam"}));
    }

    void nobodyLooksWithoutAReason()
    {
        const PersonId bo = m_bo.welcome.person;
        QCOMPARE(m_ann->refused(look(bo, wire::Because::call)).code, std::string("no-reason"));
        QCOMPARE(m_ann->refused(look(bo, wire::Because::lineLost)).code, std::string("no-reason"));
        QCOMPARE(m_ann->refused(look(PersonId::random(), wire::Because::call)).code, std::string("person-unknown"));
        const std::uint64_t call = callOf(m_bo);
        m_ann->acked(look(bo, wire::Because::call));
        m_bo->acked(wire::HelpTakeBack{RequestId::random(), call});
        QCOMPARE(m_ann->refused(look(bo, wire::Because::call)).code, std::string("no-reason"));
        QVERIFY(m_bo->refused(look(bo, wire::Because::call)).code == "not-allowed");
        QCOMPARE(acts(m_ann), expected({"Ann contact-for-call Bo", "Bo call-taken-back Bo"}));
    }

    void aLookIsOnDiskBeforeItsAnswerLeaves()
    {
        callOf(m_bo);
        std::promise<void> gate;
        m_relay->store().submit(
            [opened = gate.get_future().share()](store::Tables&) -> Result<bool> {
                opened.wait();
                return true;
            },
            [](const Result<bool>&) {}, [](const std::function<void()>& task) { task(); });
        const auto ask = look(m_bo.welcome.person, wire::Because::call);
        m_ann->say(ask);
        m_ann->sync();
        QVERIFY(!m_ann->has<wire::ContactShown>());
        gate.set_value();
        QCOMPARE(m_ann->wait<wire::ContactShown>().where, kWhere);
        QCOMPARE(acts(m_ann), expected({"Ann contact-for-call Bo"}));
        m_ann->acked(ask); // its answer was lost on the way: shown again, logged once
        QCOMPARE(m_ann->wait<wire::ContactShown>().where, kWhere);
        QCOMPARE(acts(m_ann), expected({"Ann contact-for-call Bo"}));
    }

    void aLostLineIsRungOnlyWhereThatWasAgreed()
    {
        openSmallClass(*m_ann.line);
        const PersonId bo = m_bo.welcome.person;
        m_bo->drop();
        QVERIFY(!lost(m_kim, bo).mayRing);
        QCOMPARE(m_kim->refused(look(bo, wire::Because::lineLost)).code, std::string("not-agreed"));
        m_bo = m_relay->again(m_bo);
        m_kim->wait<wire::LostLines>([](const auto& now) { return now.lines.empty(); });
        agree(*m_bo.line, AgreementKind::mayRing, "yes");
        QCOMPARE(m_kim->refused(look(bo, wire::Because::lineLost)).code, std::string("no-reason"));
        m_bo->drop();
        QVERIFY(lost(m_kim, bo).mayRing);
        m_kim->acked(look(bo, wire::Because::lineLost));
        QCOMPARE(m_kim->wait<wire::ContactShown>().ring, kRing);
        m_ann->wait<wire::LostLines>(
            [](const auto& now) { return !now.lines.empty() && now.lines.front().seenBy == "Kim"; });
        m_bo = m_relay->again(m_bo); // here again: it is still to be said what was done
        m_kim->wait<wire::LostLines>([](const auto& now) { return !now.lines.empty() && now.lines.front().back; });
        m_kim->acked(wire::LineDone{RequestId::random(), bo, "rang Sam, all is well"});
        m_kim->wait<wire::LostLines>([](const auto& now) { return now.lines.empty(); });
        QCOMPARE(m_kim->refused(wire::LineDone{RequestId::random(), bo, "again"}).code, std::string("not-now"));
        QCOMPARE(acts(m_kim),
                 expected({"Kim contact-for-lost-line Bo", "Kim contact-dealt-with Bo rang Sam, all is well"}));
    }

    void whoLeavesOnPurposeOrIsBackInTimeIsNotLost()
    {
        openSmallClass(*m_ann.line);
        const Visitor cy = m_relay->enrol(m_group, Role::participant, "Cy");
        const Visitor di = m_relay->enrol(m_group, Role::participant, "Di");
        cy->say(wire::Bye{});
        cy->waitClosed();
        di->drop();
        const Visitor again = m_relay->again(di);
        m_bo->drop();
        QCOMPARE(lostNow(m_kim, m_bo.welcome.person).lines.size(), std::size_t{1});
    }

    void anAgreementTakenBackEndsEveryLook()
    {
        openSmallClass(*m_ann.line);
        agree(*m_bo.line, AgreementKind::mayRing, "yes");
        const PersonId bo = m_bo.welcome.person;
        m_bo->drop();
        lost(m_kim, bo);
        m_kim->acked(look(bo, wire::Because::lineLost));
        m_bo = m_relay->again(m_bo);
        agree(*m_bo.line, AgreementKind::mayRing, "no");
        m_bo->drop();
        m_kim->wait<wire::LostLines>([](const auto& now) {
            return !now.lines.empty() && !now.lines.front().mayRing && !now.lines.front().back;
        });
        QCOMPARE(m_kim->refused(look(bo, wire::Because::lineLost)).code, std::string("not-agreed"));
        m_kim->acked(wire::LineDone{RequestId::random(), bo, "not rung"});
    }

    void aRestartForgetsNoLookAndNoLostLine()
    {
        openSmallClass(*m_ann.line);
        agree(*m_bo.line, AgreementKind::mayRing, "yes");
        const Visitor cy = m_relay->enrol(m_group, Role::participant, "Cy");
        agree(*cy.line, AgreementKind::mayRing, "yes");
        const PersonId bo = m_bo.welcome.person;
        m_bo->drop();
        lost(m_kim, bo);
        m_kim->acked(look(bo, wire::Because::lineLost));
        m_relay->settle();
        m_relay->restart();

        const Visitor kim = m_relay->again(m_kim);
        kim->wait<wire::LostLines>([](const auto& now) {
            return now.lines.size() == 1 && now.lines.front().seenBy == "Kim" && now.lines.front().name == "Bo";
        });
        QCOMPARE(kim->wait<wire::ContactShown>().ring, kRing); // the same look
        m_relay->clock.advance(wire::kLineLostAfter);
        lost(kim, cy.welcome.person); // was here when the relay went, and has not come back
        kim->acked(wire::LineDone{RequestId::random(), bo, "is at the shops"});
        QCOMPARE(acts(kim), expected({"Kim contact-for-lost-line Bo", "Kim contact-dealt-with Bo is at the shops"}));
    }

    void aRestartForgetsNoCallAndNotWhoHasIt()
    {
        const std::uint64_t call = callOf(m_bo);
        m_kim->acked(wire::HelpTake{RequestId::random(), call});
        m_relay->restart();
        const Visitor bo = m_relay->again(m_bo);
        QCOMPARE(bo.welcome.calls.front().takenBy, std::string("Kim"));
        const Visitor kim = m_relay->again(m_kim);
        QVERIFY(kim->wait<wire::Calls>().whole);
        QCOMPARE(kim->wait<wire::ContactShown>().where, kWhere);
        QCOMPARE(acts(kim), expected({"Kim call-taken Bo", "Kim contact-for-call Bo"}));
    }

    void whoTookACallAndIsGoneHasItNoMore()
    {
        m_ann->wait<wire::Calls>([](const auto& calls) { return calls.whole; });
        const std::uint64_t call = callOf(m_bo);
        callNow(m_ann, call);
        m_kim->acked(wire::HelpTake{RequestId::random(), call});
        callNow(m_ann, call, "Kim");
        QVERIFY(m_bo->wait<wire::CallStatus>().takenBy.empty());
        QCOMPARE(m_bo->wait<wire::CallStatus>().takenBy, std::string("Kim"));
        m_kim->drop();
        m_ann->wait<wire::Here>([](const auto& here) { return here.helpers == 0; });
        // The relay looks once a second since when; then the time passes.
        QTRY_VERIFY_WITH_TIMEOUT(
            (m_relay->clock.advance(wire::kTakerAwayFor), m_ann->sync(), m_ann->has<wire::Calls>()), 10'000);
        QVERIFY(callNow(m_ann, call).takenBy.empty());
        QVERIFY(m_bo->wait<wire::CallStatus>().takenBy.empty());
        m_ann->acked(wire::HelpTake{RequestId::random(), call});
        QVERIFY(m_ann->has<wire::ContactShown>());
    }

    void callsReachAStandInWhoIsAloneOrLeads()
    {
        const Visitor sol = m_relay->enrol(m_group, Role::standIn, "Sol");
        const OpenedClass opened = openSmallClass(*m_ann.line);
        press(*m_ann.line, CommandKind::start, opened.lease, 0);
        const std::uint64_t call = callOf(m_bo);
        callNow(m_ann, call);
        sol->sync();
        QVERIFY(!sol->has<wire::Calls>());
        QCOMPARE(sol->refused(wire::HelpTake{RequestId::random(), call}).code, std::string("not-leader"));

        m_kim->drop();
        m_ann->drop(); // nobody else is there
        callNow(sol, call);
        sol->wait<wire::Here>([](const auto& here) { return here.leaders == 1; });
        const Visitor kim = m_relay->again(m_kim);
        sol->wait<wire::Calls>([](const auto& calls) { return calls.whole && calls.calls.empty(); });

        m_relay->clock.advance(std::chrono::seconds{5}); // the leader is silent: the stand-in may lead
        sol->wait<wire::LeaseNow>([](const auto& lease) { return lease.silent; });
        sol->acked(wire::TakePlace{RequestId::random()});
        callNow(sol, call);
        sol->acked(wire::HelpTake{RequestId::random(), call});
        QCOMPARE(sol->wait<wire::ContactShown>().where, kWhere);
    }

    void whomToRingIsTheGroupsAndIsKept()
    {
        QVERIFY(m_bo.welcome.whomToRing.empty());
        QCOMPARE(m_bo.welcome.leaders, 1U);
        m_ann->acked(wire::SetWhomToRing{RequestId::random(), "The clinic, 555 0142"});
        QCOMPARE(m_bo->wait<wire::WhomToRing>().text, std::string("The clinic, 555 0142"));
        QVERIFY(m_kim->refused(wire::SetWhomToRing{RequestId::random(), "me"}).code == "not-allowed");
        m_relay->restart();
        QCOMPARE(m_relay->again(m_bo).welcome.whomToRing, std::string("The clinic, 555 0142"));
    }

private:
    static std::uint64_t callOf(const Visitor& home) { return *home->acked(wire::HelpCall{RequestId::random()}).item; }
    /// Waits until the call stands so.
    static wire::Call callNow(const Visitor& helper, std::uint64_t call, const std::string& takenBy = {})
    {
        const auto is = [&](const wire::Call& each) { return each.call == call && each.takenBy == takenBy; };
        const auto calls = helper->wait<wire::Calls>(
            [&](const auto& now) { return std::any_of(now.calls.begin(), now.calls.end(), is); });
        return *std::find_if(calls.calls.begin(), calls.calls.end(), is);
    }
    /// The line has been away for long enough; waits until that has been told.
    wire::LostLines lostNow(const Visitor& helper, PersonId person)
    {
        helper->wait<wire::Seats>([&](const auto& seats) {
            return std::any_of(seats.seats.begin(), seats.seats.end(),
                               [&](const auto& seat) { return seat.person == person && !seat.here; });
        });
        m_relay->clock.advance(wire::kLineLostAfter);
        return helper->wait<wire::LostLines>([&](const auto& now) {
            return std::any_of(now.lines.begin(), now.lines.end(),
                               [&](const auto& line) { return line.person == person; });
        });
    }
    wire::LostLine lost(const Visitor& helper, PersonId person)
    {
        const wire::LostLines now = lostNow(helper, person);
        return *std::find_if(now.lines.begin(), now.lines.end(),
                             [&](const auto& line) { return line.person == person; });
    }

    std::unique_ptr<TestRelay> m_relay;
    GroupId m_group;
    Visitor m_ann;
    Visitor m_kim;
    Visitor m_bo;
};

QTEST_APPLESS_MAIN(TestCalls)
#include "test_calls.moc"
