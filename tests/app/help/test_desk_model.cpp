// What a helper's app makes of the relay's messages: three lists in which nothing moves, people, and words.
#include "app/help/desk_model.h"
#include "app/help/ready_replies.h"
#include "tests/app/help/desk_scenes.h"
#include "tests/app/lead/lead_fixture.h"

#include <QAbstractItemModelTester>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

using namespace vh;
using namespace vh::help;
using namespace vh::testing;
using namespace std::chrono_literals;
using wire::DeskState;

namespace
{

DeskModel in()
{
    DeskModel model;
    model.setLine(DeskModel::LineNow::up);
    wire::Welcome welcome = welcomeOf(Role::moderator);
    welcome.name = "Kim";
    welcome.here = 27;
    welcome.open = wire::ClassOpen{1, kClass, "Bread", {}};
    welcome.place = placeAt(2, Phase::running, {0, 1, 0, 0}, kStart, 4s);
    model.take(welcome, kStart);
    return model;
}

QString namesIn(const WordsModel& words)
{
    QStringList names;
    for (const WordRow& row : words.rows())
        names << row.name;
    return names.join(' ');
}

wire::SeatName seat(std::uint32_t number, const char* name, bool here)
{
    return {number, deskPerson(name), name, here, 0, Addressed::notAtAll};
}

QString wordsAbout(const PeopleModel& people, const QString& name)
{
    for (const PersonRow& row : people.rows())
        if (row.name == name)
            return people.wordsOf(row);
    return "nobody";
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

    void whatIsToReadStandsOldestFirst()
    {
        DeskModel model = in();
        WordsModel& toRead = model.words().toRead();
        const QAbstractItemModelTester tester(&toRead, QAbstractItemModelTester::FailureReportingMode::QtTest);
        model.take(wire::OnDesk{true, {deskLine(4, "Edda", "The same?", 9), deskLine(3, "Rolf", "Slugs.", 12)}},
                   kDeskNow);
        model.take(wire::OnDesk{false, {deskLine(5, "", "<b>Beans</b>")}}, kDeskNow);
        QCOMPARE(namesIn(toRead), QString("Rolf Edda Somebody"));
        QCOMPARE(toRead.rows()[2].text, QString("<b>Beans</b>"));
        QCOMPARE(model.view(kDeskNow).toReadWords, QString("To read: 3"));
        QCOMPARE(model.words().decide(3, wire::Decision::show)->change, 3U);
    }

    void whatWasDealtWithKeepsItsPlaceAndSaysSo()
    {
        DeskModel model = in();
        WordsModel& toRead = model.words().toRead();
        const QAbstractItemModelTester tester(&toRead, QAbstractItemModelTester::FailureReportingMode::QtTest);
        model.take(wire::OnDesk{true,
                                {deskLine(1, "Rolf", "Slugs."), deskLine(2, "Edda", "The same?"),
                                 deskLine(3, "Kofi", "Yams."), deskLine(4, "Omar", "Hm.")}},
                   kDeskNow);
        const QSignalSpy moved(&toRead, &QAbstractItemModel::rowsRemoved);
        model.take(wire::OnDesk{false,
                                {dealtWith(deskLine(1, "Rolf", "Slugs."), DeskState::setAside, "Ines"),
                                 dealtWith(deskLine(2, "Edda", "The same?"), DeskState::withLeader, "Kim"),
                                 dealtWith(deskLine(3, "Kofi", "Yams."), DeskState::goingUp, "Kim"),
                                 dealtWith(deskLine(4, "Omar", "Hm."), DeskState::setAside, "Omar")}},
                   kDeskNow);
        QCOMPARE(moved.size(), 0);
        QCOMPARE(namesIn(toRead), QString("Rolf Edda Kofi Omar"));
        QCOMPARE(toRead.waiting(), 0);
        QCOMPARE(toRead.stateWords(toRead.rows()[0]), QString("Ines has set it aside"));
        QCOMPARE(toRead.stateWords(toRead.rows()[1]), QString("With the leader"));
        QCOMPARE(toRead.stateWords(toRead.rows()[2]), QString("Going up in 3 s"));
        QCOMPARE(toRead.stateWords(toRead.rows()[3]), QString("Omar has taken it back"));
        QCOMPARE(namesIn(model.words().inHand()), QString("Edda Kofi")); // what is going up stands last
        model.take(wire::Here{}, kDeskNow + 1500ms);
        QCOMPARE(toRead.stateWords(toRead.rows()[2]), QString("Going up in 2 s"));
    }

    void onlyWhatIsOutOfSightGoes()
    {
        DeskModel model = in();
        WordsModel& toRead = model.words().toRead();
        wire::OnDesk many{true, {}};
        for (std::uint64_t item = 1; item <= 10; ++item)
            many.items.push_back(deskLine(item, "Rolf", "Slugs."));
        model.take(many, kDeskNow);
        for (const std::uint64_t item : {1U, 2U, 4U, 5U, 9U})
            model.take(wire::OnDesk{false, {dealtWith(deskLine(item, "Rolf", "Slugs."), DeskState::setAside, "Kim")}},
                       kDeskNow);
        toRead.forgetSettled(3, 5); // rows in sight: items 4, 5, 6
        QStringList left;
        for (const WordRow& row : toRead.rows())
            left << QString::number(row.item);
        QCOMPARE(left.join(' '), QString("3 4 5 6 7 8 10"));
        QCOMPARE(toRead.waiting(), 5);
    }

    void theLastOfWhatWasDealtWithGoesWhenNothingIsRead()
    {
        DeskModel model = in();
        WordsModel& toRead = model.words().toRead();
        model.take(wire::OnDesk{true, {deskLine(1, "Rolf", "Slugs.")}}, kDeskNow);
        model.take(wire::OnDesk{false, {dealtWith(deskLine(1, "Rolf", "Slugs."), DeskState::setAside, "Kim")}},
                   kDeskNow);
        toRead.forgetSettled(0, 0);
        QCOMPARE(toRead.rows().size(), 1U);
        toRead.setNow(kDeskNow + 20s);
        toRead.forgetSettled(0, 0);
        QVERIFY(toRead.rows().empty());
        QCOMPARE(model.words().decide(1, wire::Decision::hold)->change, 1001U); // and can still be taken back
    }

    void aPictureIsALineWithRoomForOne()
    {
        DeskModel model = in();
        wire::DeskItem picture = deskLine(1, "Kofi", "Our first yams");
        picture.kind = wire::ItemKind::picture;
        model.take(wire::OnDesk{true, {picture}}, kDeskNow);
        QVERIFY(model.words().toRead().rows()[0].isPicture);
        QImage small(4, 3, QImage::Format_RGB32);
        small.fill(Qt::darkGreen);
        model.words().setPicture(1, small);
        model.take(wire::OnDesk{false, {dealtWith(picture, DeskState::forWindow, "Kim")}}, kDeskNow);
        const WordRow& inHand = model.words().inHand().rows()[0];
        QCOMPARE(model.words().inHand().stateWords(inHand), QString("For the group's window"));
        QCOMPARE(model.words().toRead().rows()[0].picture, small); // what is known of it stays
    }

    void whatIsTakenBackIsToReadAgainAtItsPlace()
    {
        DeskModel model = in();
        model.take(wire::OnDesk{true, {deskLine(1, "Rolf", "Slugs."), deskLine(2, "Edda", "The same?")}}, kDeskNow);
        model.take(wire::OnDesk{false, {dealtWith(deskLine(1, "Rolf", "Slugs."), DeskState::withClinician, "Kim")}},
                   kDeskNow);
        QCOMPARE(namesIn(model.words().inHand()), QString("Rolf"));
        model.words().toRead().remove(1); // out of sight meanwhile
        wire::DeskItem back = deskLine(1, "Rolf", "Slugs.");
        back.change = 1002;
        model.take(wire::OnDesk{false, {back}}, kDeskNow);
        QCOMPARE(namesIn(model.words().toRead()), QString("Rolf Edda"));
        QVERIFY(model.words().inHand().rows().empty());
        QVERIFY(!model.words().decide(1, wire::Decision::hold)); // it is so already
    }

    void whoReadsIsSaidInWords()
    {
        DeskModel model = in();
        WordsModel& toRead = model.words().toRead();
        model.take(wire::OnDesk{true, {deskLine(1, "Rolf", "Slugs."), deskLine(2, "Edda", "The same?")}}, kDeskNow);
        model.take(wire::Claimed{1, "Ines"}, kDeskNow);
        model.take(wire::Claimed{2, "Kim"}, kDeskNow); // that is here
        QCOMPARE(toRead.stateWords(toRead.rows()[0]), QString("Ines is reading this"));
        QCOMPARE(toRead.stateWords(toRead.rows()[1]), QString());
        QVERIFY(toRead.index(0).data(Qt::AccessibleTextRole).toString().endsWith("Ines is reading this"));
        model.take(wire::Claimed{1, ""}, kDeskNow);
        QCOMPARE(toRead.stateWords(toRead.rows()[0]), QString());
    }

    void afterABrokenLineRowsStayWhereTheyAre()
    {
        DeskModel model = in();
        WordsModel& toRead = model.words().toRead();
        model.take(
            wire::OnDesk{
                true, {deskLine(1, "Rolf", "Slugs."), deskLine(2, "Edda", "The same?"), deskLine(3, "Kofi", "Yams.")}},
            kDeskNow);
        model.take(wire::Claimed{2, "Ines"}, kDeskNow);
        model.take(wire::DeskNow{}, kDeskNow);
        const QSignalSpy reset(&toRead, &QAbstractItemModel::modelReset);
        model.take(wire::OnDesk{true, {deskLine(1, "Rolf", "Slugs.")}}, kDeskNow);
        model.take(wire::OnDesk{false, {deskLine(3, "Kofi", "Yams."), deskLine(4, "Lena", "Beans.")}}, kDeskNow);
        QCOMPARE(namesIn(toRead), QString("Rolf Edda Kofi Lena"));
        QCOMPARE(toRead.rows()[1].readBy, QString());
        model.take(wire::DeskNow{}, kDeskNow); // the last of what is said on coming in
        QCOMPARE(namesIn(toRead), QString("Rolf Kofi Lena"));
        QCOMPARE(reset.size(), 0);
    }

    void theBoardTakesEachItemOnceAndKnowsWhoseItIs()
    {
        DeskModel model = in();
        model.take(wire::OnDesk{false, {dealtWith(deskLine(7, "Ruth", "Rain."), DeskState::shown, "")}}, kDeskNow);
        const wire::BoardItem line{7, 1, wire::ItemKind::line, "Ruth", "Rain.", kStart, false};
        const wire::BoardItem notice{8, 2, wire::ItemKind::notice, "", "Welcome.", kStart, false};
        model.take(wire::Board{1, {line, notice}}, kStart);
        wire::BoardItem gone{9, 3, wire::ItemKind::line, "", "", kStart, false};
        model.take(wire::Board{2, {gone}}, kStart);
        gone.gone = true;
        model.take(wire::Board{3, {gone}}, kStart);
        const auto& board = model.words().board().rows();
        QCOMPARE(board.size(), 2U);
        QCOMPARE(board[0].person, deskPerson("Ruth"));
        QCOMPARE(model.words().decide(7, wire::Decision::setAside)->change, 1U);
        QVERIFY(board[1].isNotice);
        QVERIFY(!model.words().decide(8, wire::Decision::setAside));
    }

    void theBoardKeepsItsTail()
    {
        DeskModel model = in();
        for (std::uint64_t item = 1; item <= wire::kBoardTail + 7; ++item)
            model.take(wire::Board{item, {{item, item, wire::ItemKind::line, "Ruth", "Rain.", kStart, false}}}, kStart);
        QCOMPARE(model.words().board().rows().size(), wire::kBoardTail);
        QCOMPARE(model.words().board().rows().front().item, 8U);
    }

    void theLastOwnActCanBeTakenBackWhileItStands()
    {
        DeskModel model = in();
        model.take(wire::OnDesk{true, {deskLine(1, "Rolf", "Slugs."), deskLine(2, "Edda", "The same?")}}, kDeskNow);
        model.acts().did(1);
        model.acts().rested(deskPerson("Omar"));
        model.acts().did(2);
        for (const std::uint64_t item : {1U, 2U})
            model.take(wire::OnDesk{false, {dealtWith(deskLine(item, "Rolf", "x"), DeskState::setAside, "Kim")}},
                       kDeskNow);
        wire::DeskItem back = deskLine(2, "Edda", "The same?"); // by somebody else
        back.change = 5000;
        model.take(wire::OnDesk{false, {back}}, kDeskNow);
        QCOMPARE(model.acts().takeLast(model.words())->person, deskPerson("Omar"));
        QCOMPARE(model.acts().takeLast(model.words())->item, 1U);
        QVERIFY(!model.acts().takeLast(model.words()));
        model.acts().did(2); // and what is still on its way
        model.words().setOnItsWay(2, true);
        QCOMPARE(model.acts().takeLast(model.words())->item, 2U);
    }

    void peopleStandBySeatAndNobodyMoves()
    {
        DeskModel model = in();
        PeopleModel& people = model.people();
        const QAbstractItemModelTester tester(&people, QAbstractItemModelTester::FailureReportingMode::QtTest);
        model.take(wire::Seats{true, {seat(0, "Ruth", true), seat(1, "Jonas", true), seat(2, "Ida", false)}}, kDeskNow);
        model.take(wire::DeskNow{}, kDeskNow);
        QCOMPARE(people.rowCount(), 2); // Ida has not come
        model.take(wire::Seats{false, {seat(1, "Jonas", false)}}, kDeskNow);
        model.take(wire::Seats{false, {seat(2, "Ida", true)}}, kDeskNow + 20s);
        QCOMPARE(people.rowCount(), 3);
        QCOMPARE(wordsAbout(people, "Jonas"), QString("line lost 20 s"));
        QVERIFY(wordsAbout(people, "Ida").startsWith("came late at "));
        const DeskView view = model.view(kDeskNow + 20s);
        QCOMPARE(view.hereWords, QString("Here: 27, line lost: 1"));
        QCOMPARE(view.came, QString("Just came: Ida"));
        QCOMPARE(model.view(kDeskNow + 2min).came, QString());
    }

    void whoIsQuietOrOutIsShownUntilItIsOver()
    {
        DeskModel model = in();
        PeopleModel& people = model.people();
        model.take(wire::Seats{true, {seat(0, "Ruth", true), seat(1, "Omar", false)}}, kDeskNow);
        wire::DeskNow desk;
        desk.resting = {{deskPerson("Ruth"), "Ruth", wire::Rest::tenMinutes, kDeskNow + 10min},
                        {deskPerson("Omar"), "Omar", wire::Rest::out, kDeskNow + 6h}};
        model.take(desk, kDeskNow);
        QVERIFY(wordsAbout(people, "Ruth").startsWith("quiet until "));
        QCOMPARE(wordsAbout(people, "Omar"), QString("out of this class"));
        QVERIFY(people.index(0).data(PeopleModel::restsRole).toBool());
        model.take(wire::Here{}, kDeskNow + 11min);
        QCOMPARE(wordsAbout(people, "Ruth"), QString());
        QCOMPARE(people.resting(), 1);
    }

    void standingsAreShownOnlyWithLeave()
    {
        DeskModel model = in();
        PeopleModel& people = model.people();
        model.take(wire::Seats{true, {seat(0, "Ruth", true), seat(1, "Ida", true)}}, kDeskNow);
        model.take(wire::Roster{true, {{0, Standing::inBand}, {1, Standing::private_}}});
        QCOMPARE(wordsAbout(people, "Ruth"), QString());
        wire::DeskNow desk;
        desk.levels = true;
        model.take(desk, kDeskNow);
        QCOMPARE(wordsAbout(people, "Ruth"), QString("easy to hear"));
        QCOMPARE(wordsAbout(people, "Ida"), QString());
        desk.levels = false;
        model.take(desk, kDeskNow);
        QCOMPARE(wordsAbout(people, "Ruth"), QString());
    }

    void aNameThatLooksLikeAnothersIsMarkedAtTheDoor()
    {
        DeskModel model = in();
        wire::Door door;
        door.waiting = {{1, "Marta", "tablet", kDeskNow, ""}, {2, "R\u03BFlf", "laptop", kDeskNow, "Rolf"}};
        model.take(door, kDeskNow);
        auto state = model.view(kDeskNow).door;
        QCOMPARE(state.rows[0].heed, QString());
        QVERIFY(state.rows[1].heed.startsWith("Looks like Rolf"));
        door.waiting.assign(30, {1, "Marta", "tablet", kDeskNow, ""});
        model.take(door, kDeskNow);
        state = model.view(kDeskNow).door;
        QCOMPARE(state.rows.size(), 5U);
        QCOMPARE(state.more, QString("and 25 more"));
    }

    void whetherTheBoardIsOpenIsSaid()
    {
        DeskModel model = in();
        QCOMPARE(model.view(kDeskNow).boardWords, QString("The board: lines read first"));
        wire::DeskNow desk;
        desk.boardOpen = true;
        model.take(desk, kDeskNow);
        QCOMPARE(model.view(kDeskNow).boardWords, QString("The open board: lines unread"));
        model.take(wire::Here{27, 2, 12}, kDeskNow);
        QVERIFY(model.view(kDeskNow).hereWords.endsWith("hellos: 12"));
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

    void whatWasDoneReadsAsSentences()
    {
        DeskModel model = in();
        model.take(wire::Acts{{{kDeskNow, "Kim", "line-set-aside", "Omar", "Hm."},
                               {kDeskNow, "Ines", "quiet-for-a-while", "Wim", ""},
                               {kDeskNow, "", "something-new", "Wim", ""}}},
                   kDeskNow);
        const auto acts = model.view(kDeskNow).acts;
        QCOMPARE(acts.size(), 3U);
        QCOMPARE(acts[0].head, QString("Kim set aside what Omar wrote."));
        QCOMPARE(acts[0].below, QString("Hm."));
        QVERIFY(!acts[0].before.isEmpty());
    }

    void readyMadeAnswersAreKeptOnThisComputer()
    {
        const QTemporaryDir folder;
        QStringList replies = keptReplies(folder.path());
        QCOMPARE(replies.size(), kReadyReplies);
        QVERIFY(!replies[0].isEmpty()); // a few to begin with
        replies.fill({});
        replies[1] = QString::fromUtf8("Gr\xC3\xBC\xC3\x9F euch, [all] of = you; \"here\"");
        QVERIFY(keepReplies(folder.path(), replies));
        QCOMPARE(keptReplies(folder.path()), replies);
    }
};

QTEST_GUILESS_MAIN(TestDeskModel)
#include "test_desk_model.moc"
