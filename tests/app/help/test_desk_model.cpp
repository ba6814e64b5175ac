// What a helper's app makes of the relay's messages.
#include "app/help/desk_model.h"
#include "tests/app/lead/lead_fixture.h"

#include <QTest>

using namespace vh;
using namespace vh::help;
using namespace vh::testing;
using namespace std::chrono_literals;

namespace
{

DeskModel in()
{
    DeskModel model;
    model.setLine(DeskModel::LineNow::up);
    wire::Welcome welcome = welcomeOf(Role::moderator);
    welcome.here = 27;
    welcome.open = wire::ClassOpen{1, kClass, "Bread", {}};
    welcome.place = placeAt(2, Phase::running, {0, 1, 0, 0}, kStart, 4s);
    model.take(welcome, kStart);
    return model;
}

} // namespace

class TestDeskModel : public QObject
{
    Q_OBJECT
private slots:
    void theClassLineCountsSteps_data()
    {
        QTest::addColumn<int>("phase");
        QTest::addColumn<int>("section");
        QTest::addColumn<QString>("words");
        QTest::newRow("not begun") << int(Phase::notStarted) << 0 << "Bread, not begun yet";
        QTest::newRow("first section") << int(Phase::running) << 0 << "Bread, step 1 of 4";
        QTest::newRow("third section") << int(Phase::waiting) << 2 << "Bread, step 4 of 4";
        QTest::newRow("over") << int(Phase::ended) << 2 << "Bread, over";
    }
    void theClassLineCountsSteps()
    {
        QFETCH(int, phase);
        QFETCH(int, section);
        DeskModel model = in();
        model.setScript(smallScript());
        model.take(placeAt(3, static_cast<Phase>(phase), {static_cast<std::uint16_t>(section), 0, 0, 0}, kStart, 4s),
                   kStart);
        QTEST(model.view(kStart).classLine, "words");
    }

    void whatIsToReadStandsOldestFirstUntilItIsDecided()
    {
        DeskModel model = in();
        const auto line = [](std::uint64_t item, const char* name, const char* text, Instant at) {
            wire::DeskItem held;
            held.item = item;
            held.change = item;
            held.name = name;
            held.text = text;
            held.at = at;
            return held;
        };
        model.take(
            wire::OnDesk{true,
                         {line(4, "Edda", "Is it the same?", kStart - 9s), line(3, "Rolf", "Slugs.", kStart - 12s)}},
            kStart);
        model.take(wire::OnDesk{false, {line(5, "", "<b>Beans</b>", kStart)}}, kStart);
        auto toRead = model.view(kStart).toRead;
        QCOMPARE(toRead.size(), 3U);
        QCOMPARE(toRead[0].head, QString("Rolf"));
        QCOMPARE(toRead[0].aside, QString("12 s"));
        QCOMPARE(toRead[2].head, QString("Somebody"));
        QCOMPARE(toRead[2].text, QString("<b>Beans</b>"));
        QCOMPARE(model.decide(3, wire::Decision::show)->change, 3U);
        wire::DeskItem decided = line(3, "Rolf", "Slugs.", kStart - 12s);
        decided.state = wire::DeskState::goingUp;
        model.take(wire::OnDesk{false, {decided}}, kStart);
        QVERIFY(!model.decide(3, wire::Decision::show));
        QCOMPARE(model.view(kStart).toRead.front().id, 4U);
    }

    void theBoardTakesEachItemOnce()
    {
        DeskModel model = in();
        const wire::BoardItem line{7, 1, wire::ItemKind::line, "Ruth", "Rain.", kStart, false};
        const wire::BoardItem notice{8, 2, wire::ItemKind::notice, "", "Welcome.", kStart, false};
        model.take(wire::Board{1, {line, notice}}, kStart);
        wire::BoardItem gone{9, 3, wire::ItemKind::line, "", "", kStart, false};
        model.take(wire::Board{2, {gone}}, kStart);
        gone.gone = true;
        model.take(wire::Board{3, {gone}}, kStart);
        const auto board = model.view(kStart).board;
        QCOMPARE(board.size(), 2U);
        QCOMPARE(board[0].head, QString("Ruth"));
        QVERIFY(board[1].quiet);
    }

    void lostLinesAreNamedWithTheirTime()
    {
        DeskModel model = in();
        wire::SeatName jonas{1, PersonId::random(), "Jonas", true, 0};
        model.take(wire::Seats{true, {{0, PersonId::random(), "Ruth", true, 0}, jonas}}, kStart);
        jonas.here = false;
        model.take(wire::Seats{false, {jonas}}, kStart);
        const DeskView view = model.view(kStart + 20s);
        QCOMPARE(view.hereWords, QString("Here: 27, line lost: 1"));
        QCOMPARE(view.lost, QString("Jonas: line lost 20 s ago"));
        QCOMPARE(view.names, QString("Ruth"));
    }

    void theLeadersAbsenceIsSaid()
    {
        DeskModel model = in();
        QCOMPARE(model.view(kStart).notice.words, QString());
        wire::PlaceNow place = placeAt(2, Phase::running, {}, kStart, 4s);
        place.line = HomeLine::leaderAway;
        model.take(place, kStart);
        QVERIFY(model.view(kStart).notice.words.startsWith("The line of Anna is lost."));
        model.setLine(DeskModel::LineNow::lost);
        QVERIFY(model.view(kStart).notice.words.startsWith("Your line is lost"));
    }
};

QTEST_GUILESS_MAIN(TestDeskModel)
#include "test_desk_model.moc"
