// What a leader's app makes of the relay's messages and of her presses.
#include "app/lead/lead_model.h"
#include "tests/app/lead/lead_fixture.h"

#include <QTest>

using namespace vh;
using namespace vh::lead;
using namespace vh::testing;
using namespace std::chrono_literals;

namespace
{

LeadView viewOf(const LeadModel& model, Instant now)
{
    return model.view(now, {}, [](const std::string&) { return QImage(); });
}

/// In, with an open class that has not begun.
LeadModel opened(Role role, bool mine)
{
    LeadModel model;
    model.setLine(LeadModel::LineNow::up);
    model.take(welcomeOf(role), kStart);
    model.take(wire::ClassOpen{1, kClass, "Bread", {}}, kStart);
    model.take(placeAt(1, Phase::notStarted, {}, {}, 4s), kStart);
    model.take(leaseOf(mine), kStart);
    model.setScript(smallScript());
    return model;
}

LeadModel leading()
{
    LeadModel model = opened(Role::leader, true);
    model.take(placeAt(2, Phase::running, {}, kStart, 4s), kStart);
    return model;
}

} // namespace

class TestLeadModel : public QObject
{
    Q_OBJECT
private slots:
    void initTestCase() { qputenv("TZ", "UTC"); }

    void stagesFollowTheRelay()
    {
        LeadModel model;
        QCOMPARE(model.stage(), Stage::waiting);
        model.setLine(LeadModel::LineNow::up);
        model.take(welcomeOf(Role::leader), kStart);
        QCOMPARE(model.stage(), Stage::choosing);
        LeadModel led = leading();
        QCOMPARE(opened(Role::leader, true).stage(), Stage::ready);
        QCOMPARE(led.stage(), Stage::inClass);
        led.take(placeAt(9, Phase::ended, {2, 0, 0, 0}, kStart, 10s), kStart);
        QCOMPARE(led.stage(), Stage::over);
        led.leaveSummary();
        QCOMPARE(led.stage(), Stage::choosing);
        LeadModel standIn;
        standIn.setLine(LeadModel::LineNow::up);
        standIn.take(welcomeOf(Role::standIn), kStart);
        QCOMPARE(standIn.stage(), Stage::waiting);
    }

    void theColumnSaysWhatWasIsAndComes()
    {
        LeadModel model = leading();
        LeadView view = viewOf(model, kStart + 1500ms);
        QCOMPARE(view.column.last, QString());
        QCOMPARE(view.column.now.text, std::string("The loaf is warm."));
        QCOMPARE(view.column.note, QString("Smile."));
        QCOMPARE(view.column.next, QString("Who taught you?"));
        QCOMPARE(view.column.turns.current, 0);
        QCOMPARE(view.column.turns.beside, (QStringList{"first time \u00B7 0:03", "0:03"}));

        model.take(placeAt(5, Phase::running, {0, 1, 1, 1}, kStart + 30s, 8s), kStart + 30s);
        view = viewOf(model, kStart + 34s);
        QCOMPARE(view.column.last, QString("The loaf is warm."));
        QCOMPARE(view.column.next, QString("Water pause"));
        QCOMPARE(view.column.turns.beside,
                 (QStringList{"second time, with more voice \u00B7 0:04", "with more voice \u00B7 0:04",
                              "more voice \u00B7 0:04", "0:04"}));

        model.take(placeAt(6, Phase::running, {2, 0, 0, 0}, kStart + 60s, 10s), kStart + 60s);
        view = viewOf(model, kStart + 60s);
        QCOMPARE(view.column.last, QString("Water pause"));
        QCOMPARE(view.column.next, QString("Then the class is over."));
    }

    void theClockSaysWhenItEndsAndHowFarOffThePlan_data()
    {
        QTest::addColumn<int>("lateSeconds");
        QTest::addColumn<QString>("words");
        // 22:13:20 UTC and 70 s.
        QTest::newRow("as planned") << 0 << "ends 22:14, in time";
        QTest::newRow("a little late is in time") << 29 << "ends 22:14, in time";
        QTest::newRow("one over") << 60 << "ends 22:15, one minute over";
        QTest::newRow("three over") << 180 << "ends 22:17, three minutes over";
        QTest::newRow("two early") << -120 << "ends 22:12, two minutes early";
    }
    void theClockSaysWhenItEndsAndHowFarOffThePlan()
    {
        QFETCH(int, lateSeconds);
        LeadModel model = leading(); // which begins the class at kStart
        const Instant turn = kStart + 40s + std::chrono::seconds(lateSeconds);
        model.take(placeAt(8, Phase::running, {1, 0, 0, 0}, turn, 20s), turn);
        QTEST(viewOf(model, turn).clock.value(0), "words");
    }

    void whoComesLaterKnowsThePlanToo()
    {
        LeadModel model;
        model.setLine(LeadModel::LineNow::up);
        wire::Welcome welcome = welcomeOf(Role::leader);
        welcome.open = wire::ClassOpen{1, kClass, "Bread", {}};
        welcome.place = placeAt(8, Phase::running, {1, 0, 0, 0}, kStart + 40s, 20s);
        model.take(welcome, kStart + 40s);
        model.setScript(smallScript());
        QCOMPARE(viewOf(model, kStart + 45s).clock.value(0), QString("ends 22:14, in time"));
    }

    void theRailIsFilledByPlannedTime()
    {
        LeadModel model = leading();
        model.take(placeAt(8, Phase::running, {1, 0, 0, 0}, kStart + 90s, 20s), kStart + 90s);
        const ScriptRail::State rail = viewOf(model, kStart + 95s).rail;
        QCOMPARE(rail.parts.size(), 3U);
        QVERIFY(rail.parts[1].pause);
        QCOMPARE(rail.current, 1);
        QCOMPARE(rail.done, Millis{45s});
    }

    void aPressSaysWhatSheHasSeen()
    {
        LeadModel model = leading();
        const auto lead = model.press(CommandKind::onceMore, kStart);
        QVERIFY(lead);
        QCOMPARE(lead->serial, 2U);
        QCOMPARE(lead->lease, 1U);
        QCOMPARE(lead->command, CommandKind::onceMore);
    }

    void theSamePressTwiceGoesOutOnceUntilItIsAnswered()
    {
        LeadModel model = leading();
        QVERIFY(model.press(CommandKind::goOn, kStart));
        QVERIFY(!model.press(CommandKind::goOn, kStart + 200ms));
        model.pressAnswered(model.pressNumber(), nullptr, kStart);
        QVERIFY(model.press(CommandKind::goOn, kStart + 300ms));
        model.take(placeAt(3, Phase::running, {0, 0, 1, 0}, kStart, 2s), kStart);
        QVERIFY(model.press(CommandKind::goOn, kStart + 400ms));
    }

    void nothingGoesOutThatCannotCount()
    {
        LeadModel model = leading();
        model.setLine(LeadModel::LineNow::lost);
        QVERIFY(!model.press(CommandKind::goOn, kStart));
        QVERIFY(!viewOf(model, kStart).notice.words.isEmpty());
        LeadModel follower = leading();
        follower.take(leaseOf(false), kStart);
        QVERIFY(!follower.press(CommandKind::goOn, kStart));
        QCOMPARE(viewOf(follower, kStart).notice.words, QString("Anna leads now, so your press did not count."));
        QVERIFY(!opened(Role::leader, true).press(CommandKind::goOn, kStart));
        QVERIFY(opened(Role::leader, true).press(CommandKind::start, kStart));
    }

    void aRefusalIsSaidKindlyAndGoesByItself()
    {
        LeadModel model = leading();
        const Error refused{"old-place", "The class has already moved on.", {}};
        model.pressAnswered(model.pressNumber(), &refused, kStart);
        QVERIFY(viewOf(model, kStart + 1s).notice.words.startsWith("The class had just moved on."));
        QCOMPARE(viewOf(model, kStart + 9s).notice.words, QString());
    }

    void endNeedsTwoPressesAndForgetsTheFirst()
    {
        LeadModel model = leading();
        QVERIFY(!model.pressEnd(kStart));
        QVERIFY(viewOf(model, kStart + 1s).endArmed);
        QVERIFY(model.pressEnd(kStart + 2s));
        QVERIFY(!model.pressEnd(kStart + 3s));
        QVERIFY(!viewOf(model, kStart + 12s).endArmed);
        QVERIFY(!model.pressEnd(kStart + 12s)); // too long ago
        model.forgetEnd();
        QVERIFY(!model.pressEnd(kStart + 13s)); // something else was pressed in between
    }

    void whoMayTakeThePlace_data()
    {
        QTest::addColumn<int>("role");
        QTest::addColumn<bool>("mine");
        QTest::addColumn<bool>("silent");
        QTest::addColumn<bool>("mayTake");
        const auto leader = static_cast<int>(Role::leader);
        const auto standIn = static_cast<int>(Role::standIn);
        QTest::newRow("leader, has it") << leader << true << false << false;
        QTest::newRow("leader, a stand-in leads") << leader << false << false << true;
        QTest::newRow("stand-in, the leader is there") << standIn << false << false << false;
        QTest::newRow("stand-in, the leader is silent") << standIn << false << true << true;
        QTest::newRow("stand-in, has it") << standIn << true << false << false;
    }
    void whoMayTakeThePlace()
    {
        QFETCH(int, role);
        QFETCH(bool, mine);
        QFETCH(bool, silent);
        LeadModel model = opened(static_cast<Role>(role), mine);
        model.take(placeAt(2, Phase::running, {}, kStart, 4s), kStart);
        model.take(leaseOf(mine, silent), kStart);
        QTEST(viewOf(model, kStart).mayTake, "mayTake");
    }

    void aStandInSeesNoLevelsAndNoTable()
    {
        LeadModel model = opened(Role::standIn, false);
        wire::SeatName ruth;
        ruth.name = "Ruth";
        ruth.person = PersonId::random();
        ruth.here = true;
        model.take(wire::Seats{true, {ruth}}, kStart);
        QVERIFY(viewOf(model, kStart).hall.seats.empty());
        QCOMPARE(viewOf(model, kStart).hall.counts, SeatCounts{});
    }

    void theCountsAreOfThoseInClass()
    {
        LeadModel model = leading();
        wire::SeatName ruth{0, PersonId::random(), "Ruth", true, 0};
        wire::SeatName helper{1, PersonId::random(), "Ben", true, 0};
        model.take(wire::Seats{true, {ruth, helper}}, kStart);
        model.take(wire::Here{1, 1}, kStart);
        wire::RosterEntry easy;
        easy.standing = Standing::inBand;
        easy.hasLevel = true;
        easy.overUsualDb = 6.2F;
        model.take(wire::Roster{true, {easy}});
        const LeadView view = viewOf(model, kStart);
        QCOMPARE(view.hall.counts, (SeatCounts{1, 1, 0, 0}));
        QCOMPARE(view.hall.seats.front().overUsualDb, std::optional(6.2F));
        QCOMPARE(view.here, QString("One person is here, one helper"));
    }

    void aRelayThatComesBackOlderIsToldWhereTheClassWas()
    {
        LeadModel model = leading();
        model.take(placeAt(7, Phase::running, {0, 1, 0, 1}, kStart + 25s, 6s), kStart + 25s);
        wire::Welcome welcome = welcomeOf(Role::leader);
        welcome.open = wire::ClassOpen{1, kClass, "Bread", {}};
        welcome.place = placeAt(5, Phase::running, {0, 0, 1, 0}, kStart + 10s, 2s);
        const auto reassert = model.take(welcome, kStart + 30s);
        QVERIFY(reassert);
        QCOMPARE(reassert->serial, 7U);
        QCOMPARE(reassert->place, (Place{0, 1, 0, 1}));
        // What the relay says now is what is shown until it has answered; and a welcome that is not behind needs
        // nothing.
        QCOMPARE(model.place()->serial, 5U);
        QVERIFY(!model.take(welcome, kStart + 31s));
    }

    void whoDoesNotHoldThePlaceReassertsNothing()
    {
        LeadModel model = leading();
        model.take(placeAt(7, Phase::running, {0, 1, 0, 1}, kStart + 25s, 6s), kStart + 25s);
        model.take(leaseOf(false), kStart + 25s);
        wire::Welcome welcome = welcomeOf(Role::leader);
        welcome.open = wire::ClassOpen{1, kClass, "Bread", {}};
        welcome.place = placeAt(5, Phase::running, {0, 0, 1, 0}, kStart + 10s, 2s);
        QVERIFY(!model.take(welcome, kStart + 30s));
    }

    void theGroupSeesTheCueAndNothingElse()
    {
        LeadModel model = leading();
        QCOMPARE(viewOf(model, kStart).group.cue, (CueBadge::State{TurnKind::listen, false, {}}));
        model.take(placeAt(3, Phase::running, {0, 0, 1, 1}, kStart, 8s), kStart);
        QCOMPARE(viewOf(model, kStart).group.cue, (CueBadge::State{TurnKind::yours, true, {}}));
        model.take(placeAt(4, Phase::waiting, {0, 0, 1, 1}, kStart, 8s), kStart);
        QCOMPARE(viewOf(model, kStart).group.cue.words, QString("We wait a moment"));
        model.take(placeAt(5, Phase::running, {1, 0, 0, 0}, kStart, 20s), kStart);
        QCOMPARE(viewOf(model, kStart).group.cue.words, QString("Water pause"));
    }

    void theSummaryCountsAndRanksNobody()
    {
        LeadModel model = leading();
        wire::Summary summary;
        summary.planned = 20min;
        summary.actual = 21min;
        summary.came = 27;
        summary.judgedTurns = 412;
        summary.easyTurns = 331;
        summary.cantTellTurns = 24;
        summary.calls = 1;
        model.take(summary, kStart);
        const SummaryView view = viewOf(model, kStart).summary;
        QCOMPARE(view.lines, (QStringList{"Planned: 20 minutes. It took 21 minutes.", "27 people came.",
                                          "Of 412 turns alone by people who share their level, 331 were easy to hear; "
                                          "in 24 the reading could not be trusted.",
                                          "One call for help."}));
    }
};

QTEST_GUILESS_MAIN(TestLeadModel)
#include "test_lead_model.moc"
