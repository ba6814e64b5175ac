// What the leader and the people of a class say to each other besides the board: private words within each person's
// agreement, hellos that are counted, a call for help that is taken back; and results that come after the class is
// over.
#include "tests/server/hall/test_relay.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;

class TestWords : public QObject
{
    Q_OBJECT
private slots:
    void init()
    {
        m_relay = std::make_unique<TestRelay>();
        const GroupId group = m_relay->addGroup("Tuesday voices");
        m_ann = m_relay->enrol(group, Role::leader, "Ann");
        m_bo = m_relay->enrol(group, Role::participant, "Bo");
        m_cy = m_relay->enrol(group, Role::participant, "Cy");
    }
    void cleanup()
    {
        m_ann = {};
        m_bo = {};
        m_cy = {};
        m_relay.reset();
    }

    void aPrivateWordReachesOnePersonOnly()
    {
        agree(*m_bo.line, AgreementKind::addressed, "kind");
        m_ann->acked(word(m_bo, WordKind::kind));
        const auto heard = m_bo->wait<wire::WordHeard>();
        QCOMPARE(heard.text, std::string("That was easy to hear."));
        QCOMPARE(heard.from, std::string("Ann"));
        m_cy->sync();
        QVERIFY(!m_cy->has<wire::WordHeard>());
    }

    void aWordOutsideTheAgreementIsRefused()
    {
        QCOMPARE(m_ann->refused(word(m_bo, WordKind::kind)).code, std::string("not-agreed"));
        agree(*m_bo.line, AgreementKind::addressed, "kind");
        QCOMPARE(m_ann->refused(word(m_bo, WordKind::prompt)).code, std::string("not-agreed"));
        agree(*m_bo.line, AgreementKind::addressed, "prompts");
        m_ann->acked(word(m_bo, WordKind::prompt));
    }

    void aWordAskedForTwiceIsSaidOnce()
    {
        agree(*m_bo.line, AgreementKind::addressed, "kind");
        const wire::PrivateWord once = word(m_bo, WordKind::kind);
        m_ann->acked(once);
        m_ann->acked(once);
        m_bo->wait<wire::WordHeard>();
        m_bo->sync();
        QVERIFY(!m_bo->has<wire::WordHeard>());
        wire::PrivateWord other = once;
        other.text = "Something else under the same id";
        QCOMPARE(m_ann->refused(other).code, std::string("conflict"));
    }

    void aWordToSomebodyWhoIsNotHereIsRefused()
    {
        agree(*m_bo.line, AgreementKind::addressed, "kind");
        m_bo.line.reset();
        m_ann->wait<wire::Seats>([&](const auto& seats) {
            return std::any_of(seats.seats.begin(), seats.seats.end(),
                               [&](const auto& each) { return each.person == m_bo.welcome.person && !each.here; });
        });
        QCOMPARE(m_ann->refused(word(m_bo, WordKind::kind)).code, std::string("not-here"));
    }

    void howSomebodyMayBeAddressedIsForLeadersToKnow()
    {
        agree(*m_bo.line, AgreementKind::addressed, "prompts");
        m_ann->wait<wire::Seats>([&](const auto& seats) {
            return std::any_of(seats.seats.begin(), seats.seats.end(), [&](const auto& each) {
                return each.person == m_bo.welcome.person && each.addressed == Addressed::prompts;
            });
        });
    }

    void hellosCountPeopleNotPresses()
    {
        openSmallClass(*m_ann.line);
        for (int i = 0; i < 3; ++i)
            m_bo->say(wire::Greet{true});
        m_cy->say(wire::Greet{true});
        m_ann->wait<wire::Here>([](const auto& here) { return here.hellos == 2; });
        const Visitor bo = m_relay->again(m_bo);
        QVERIFY(bo.welcome.saidHello);
        QCOMPARE(bo.welcome.hellos, 2U);
        bo->say(wire::Greet{false}); // by mistake: taken back
        m_ann->wait<wire::Here>([](const auto& here) { return here.hellos == 1; });
    }

    void aCallForHelpCanBeTakenBackByTheCallerOnly()
    {
        const wire::Ack call = m_bo->acked(wire::HelpCall{RequestId::random()});
        m_ann->wait<wire::Calls>([&](const auto& calls) { return !calls.calls.empty() && !calls.calls.front().done; });
        QCOMPARE(m_cy->refused(wire::HelpTakeBack{RequestId::random(), *call.item}).code, std::string("call-unknown"));
        m_bo->acked(wire::HelpTakeBack{RequestId::random(), *call.item});
        m_ann->wait<wire::Calls>([&](const auto& calls) { return !calls.calls.empty() && calls.calls.front().done; });
        QVERIFY(m_bo->wait<wire::CallStatus>([](const auto& status) { return status.done; }).done);
    }

    void aResultThatComesAfterTheClassIsJudgedAndKept()
    {
        const OpenedClass opened = openSmallClass(*m_ann.line);
        agree(*m_bo.line, AgreementKind::levelVisible, "leader");
        agree(*m_bo.line, AgreementKind::resultsKept, "yes");
        const auto yours = untilYours(opened);
        press(*m_ann.line, CommandKind::end, opened.lease, yours.serial);
        QCOMPARE(m_ann->wait<wire::Summary>().judgedTurns, 0U);
        wire::TurnDone done = doneOf(opened.id, yours.turnSerial);
        m_bo->acked(done);
        const auto summary = m_ann->wait<wire::Summary>([](const auto& each) { return each.judgedTurns == 1; });
        QCOMPARE(summary.easyTurns, 1U);
        const auto rows = m_relay->store().run([&](store::Tables& tables) -> Result<std::vector<store::TurnResultRow>> {
            return tables.results.ofPerson(m_bo.welcome.person);
        });
        QCOMPARE(rows->size(), std::size_t{1});
    }

    void aResultOfAnotherClassIsNotTakenForOneOfThis()
    {
        const OpenedClass opened = openSmallClass(*m_ann.line);
        agree(*m_bo.line, AgreementKind::levelVisible, "leader");
        const auto yours = untilYours(opened);
        m_bo->acked(doneOf(ClassId::random(), yours.turnSerial));
        m_bo->acked(doneOf(opened.id, yours.turnSerial));
        press(*m_ann.line, CommandKind::end, opened.lease, yours.serial);
        QCOMPARE(m_ann->wait<wire::Summary>().judgedTurns, 1U);
    }

private:
    static wire::PrivateWord word(const Visitor& to, WordKind kind)
    {
        return {RequestId::random(), to.welcome.person, kind, "That was easy to hear."};
    }
    static wire::TurnDone doneOf(ClassId id, std::uint32_t turn)
    {
        wire::TurnDone done;
        done.id = RequestId::random();
        done.classId = id;
        done.result.reading.turnSerial = turn;
        done.result.reading.elapsedMs = done.result.reading.heardMs = done.result.reading.voicedMs = 4'000;
        done.result.reading.leqOverUsualDb = 5;
        return done;
    }
    /// From the start to the first turn that is theirs.
    wire::PlaceNow untilYours(const OpenedClass& opened)
    {
        const wire::Ack started = press(*m_ann.line, CommandKind::start, opened.lease, 0);
        press(*m_ann.line, CommandKind::goOn, opened.lease, *started.serial);
        m_relay->clock.advance(Millis{10'000}); // listen, ready and with me are over
        m_ann->say(wire::Leading{opened.lease});
        return m_bo->wait<wire::PlaceNow>([](const auto& now) { return now.place.turn == 3; });
    }

    std::unique_ptr<TestRelay> m_relay;
    Visitor m_ann;
    Visitor m_bo;
    Visitor m_cy;
};

QTEST_GUILESS_MAIN(TestWords)
#include "test_words.moc"
