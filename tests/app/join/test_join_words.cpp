// The board in a home: what somebody writes and what becomes of it, what others write, a helper's answers; quiet while
// people practise, and nothing lost when the line is.
#include "app/join/answers_read.h"
#include "tests/app/join/join_steps.h"

#include <QTemporaryDir>
#include <QtTest>

using namespace vh;
using namespace vh::join;
using namespace vh::testing;

namespace
{

wire::BoardItem itemOf(std::uint64_t item, const std::string& text, const std::string& name = "Odile",
                       wire::ItemKind kind = wire::ItemKind::line)
{
    wire::BoardItem made;
    made.item = made.change = item;
    made.text = text;
    made.name = name;
    made.kind = kind;
    return made;
}
wire::ToClient board(wire::BoardItem item)
{
    return wire::ToClient(wire::Board{1, {std::move(item)}});
}
wire::ToClient goneFromBoard(std::uint64_t item)
{
    wire::BoardItem gone = itemOf(item, {}, {});
    gone.gone = true;
    return board(gone);
}
wire::ToClient own(std::uint64_t item, wire::OwnState state, const std::string& text = "Good morning")
{
    return wire::ToClient(wire::OwnNow{{{item, text, Instant{}, state}}});
}
wire::ToClient answer(std::uint64_t item, const std::string& text = "Yes, at ten.")
{
    return wire::ToClient(wire::Answer{item, "Bram", "Is there a class tomorrow?", text, Instant{}});
}

QStringList textsOf(const BoardView& view)
{
    QStringList texts;
    for (const BoardRow& row : view.rows)
        texts.append(row.text);
    return texts;
}

const Place kDrillListen{1, 0, 0, 0};
const Place kDrillYours{1, 0, 0, 3};
const Place kWater{3, 0, 0, 0};

} // namespace

class TestJoinWords : public QObject
{
    Q_OBJECT
private:
    /// Somebody at the board who has just sent `text`: its key.
    static std::uint64_t sent(JoinModel& model, const QString& text)
    {
        model.pressWrite();
        model.write(text);
        const Wishes wishes = model.send();
        if (kindsOf(wishes) != QList{Kind::write})
            qFatal("it was not sent");
        return wishes.front().line;
    }

private slots:
    void aLineIsFollowedFromTheFieldToTheBoard()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        model.pressWrite();
        model.write("   ");
        QVERIFY(model.send().empty());
        model.write("  Good morning  ");
        const Wishes wishes = model.send();
        QCOMPARE(wishes.front().value, std::string("Good morning"));
        QVERIFY(model.send().empty()); // a second press finds nothing to send
        QCOMPARE(boardOf(model, here).draft, QString());
        QCOMPARE(boardOf(model, here).rows.front().below, "on its way");
        QVERIFY(model.lineHasGoneOut(wishes.front().line, 7).empty());
        QCOMPARE(boardOf(model, here).rows.front().below, "a helper reads it first");
        model.take(own(7, wire::OwnState::withLeader));
        QCOMPARE(boardOf(model, here).rows.front().below, "with the leader");
        model.take(board(itemOf(7, "Good morning", "Ruth")));
        QCOMPARE(boardOf(model, here).rows.front().below, "on the board");
        QCOMPARE(boardOf(model, here).rows.size(), std::size_t{1}); // it is there once
        model.take(goneFromBoard(7));
        QCOMPARE(boardOf(model, here).rows.front().below, "no longer on the board");
        QVERIFY(boardOf(model, here).rows.front().act.isEmpty());
    }

    void aLineThatAHelperKeptBackIsSaidToBeReadAndNothingElse()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        QVERIFY(model.lineHasGoneOut(sent(model, "Oh"), 7).empty());
        model.take(own(7, wire::OwnState::read));
        QCOMPARE(boardOf(model, here).rows.front().below, "a helper has read it");
    }

    void onAnOpenBoardTheBoardMayBeQuickerThanTheAcknowledgement()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        const std::uint64_t key = sent(model, "At once");
        model.take(board(itemOf(9, "At once", "Ruth")));
        QVERIFY(model.lineHasGoneOut(key, 9).empty());
        QCOMPARE(textsOf(boardOf(model, here)), QStringList{"At once"});
        QCOMPARE(boardOf(model, here).rows.front().head, "You");
        QCOMPARE(boardOf(model, here).rows.front().below, "on the board");
    }

    void whatWasRefusedSaysWhyAndIsThereToBeChanged()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        const std::uint64_t first = sent(model, "One more question");
        model.lineRefused(first, "Your earlier lines are still to be read. Please wait a moment.");
        BoardView view = boardOf(model, here);
        QCOMPARE(view.draft, "One more question");
        QVERIFY(view.rows.empty());
        QVERIFY(view.notice.words.startsWith("Your earlier lines are still to be read."));
        QVERIFY(view.notice.words.endsWith("Your words are still here."));
        (void)model.goBack();
        QVERIFY(classOf(model, here).notice.words.startsWith("Your earlier lines"));
        // Somebody who writes on meanwhile loses neither.
        const std::uint64_t second = sent(model, "One more question");
        model.write("And another thing");
        model.lineRefused(second, "Please wait a moment.");
        view = boardOf(model, here);
        QCOMPARE(view.rows.back().below, "Please wait a moment.");
        QCOMPARE(view.rows.back().act, "Change it");
        QVERIFY(model.pressLine(second).empty());
        QCOMPARE(boardOf(model, here).draft, "One more question\nAnd another thing");
        QVERIFY(boardOf(model, here).rows.empty());
    }

    void oneOwnLineIsTakenBackAndWrittenAgain()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        const std::uint64_t key = sent(model, "Good morning");
        (void)model.lineHasGoneOut(key, 7);
        model.take(board(itemOf(7, "Good morning", "Ruth")));
        QCOMPARE(boardOf(model, here).rows.front().act, "Take it back");
        const Wishes wishes = model.pressLine(key);
        QCOMPARE(kindsOf(wishes), QList{Kind::takeBackLine});
        QCOMPARE(wishes.front().line, std::uint64_t{7});
        model.take(goneFromBoard(7));
        model.take(own(7, wire::OwnState::gone));
        QCOMPARE(boardOf(model, here).rows.front().below, "taken back");
        QCOMPARE(boardOf(model, here).rows.front().act, "Write it again");
        QVERIFY(model.pressLine(key).empty());
        QCOMPARE(boardOf(model, here).draft, "Good morning");
        QVERIFY(boardOf(model, here).rows.empty());
    }

    void aLineTakenBackOnItsWayIsTakenBackAsSoonAsItHasANumber()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        model.lineIs(link::LineState::lost, {});
        const std::uint64_t key = sent(model, "Good morning");
        QCOMPARE(boardOf(model, here).rows.front().below, "goes out when the line is back");
        QVERIFY(model.pressLine(key).empty());
        QVERIFY(model.pressLine(key).empty()); // written again: another line
        QCOMPARE(boardOf(model, here).draft, "Good morning");
        const Wishes wishes = model.lineHasGoneOut(key, 7);
        QCOMPARE(kindsOf(wishes), QList{Kind::takeBackLine});
        QCOMPARE(wishes.front().line, std::uint64_t{7});
        QVERIFY(boardOf(model, here).rows.empty());
    }

    void whatSomebodyWroteIsTheirsAfterTheProgramWasStartedAgain()
    {
        ClassHere here;
        here.welcome.own = {3, 4};
        here.welcome.board = {itemOf(3, "Rain again", "Ruth"), itemOf(5, "Sun here")};
        JoinModel model;
        intoClass(model, here);
        model.take(own(4, wire::OwnState::toRead, "May we do that again?"));
        model.pressWrite();
        const BoardView view = boardOf(model, here);
        QCOMPARE(textsOf(view), (QStringList{"Rain again", "Sun here", "May we do that again?"}));
        QCOMPARE(view.rows[0].head, "You");
        QCOMPARE(view.rows[1].head, "Odile");
        QCOMPARE(view.rows[2].below, "a helper reads it first");
        QCOMPARE(model.pressLine(view.rows[2].key).front().line, std::uint64_t{4});
    }

    void afterALostLineNothingIsThereTwiceAndWhatWentIsGone()
    {
        ClassHere here;
        here.welcome.board = {itemOf(5, "Sun here"), itemOf(6, "Wind here")};
        JoinModel model;
        intoClass(model, here);
        (void)model.lineHasGoneOut(sent(model, "And rain"), 8);
        wire::Welcome later = here.welcome;
        later.board = {itemOf(6, "Wind here"), itemOf(8, "And rain", "Ruth")};
        wire::BoardItem gone = itemOf(5, {}, {});
        gone.gone = true;
        later.board.push_back(gone);
        later.own = {8};
        model.welcome(later, true);
        QCOMPARE(textsOf(boardOf(model, here)), (QStringList{"Wind here", "And rain"}));
        later.own = {}; // what was set aside while nobody could hear of it
        later.epoch = HallEpoch::random();
        later.board = {itemOf(6, "Wind here")};
        model.welcome(later, true);
        const BoardView view = boardOf(model, here);
        QCOMPARE(view.rows.size(), std::size_t{2});
        QCOMPARE(view.rows.front().below, "no longer on the board");
    }

    void theBoardRestsInDrillsAndWhatWaitsComesInAtThePause()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        QCOMPARE(classOf(model, here).boardWords, "to write");
        here.place(model, kDrillListen);
        QCOMPARE(classOf(model, here).boardWords, "is quiet");
        model.take(board(itemOf(1, "Slugs")));
        model.take(board(itemOf(2, "Snails")));
        model.take(goneFromBoard(1)); // went while it waited
        QVERIFY(classOf(model, here).notice.words.isEmpty());
        model.pressWrite();
        QVERIFY(boardOf(model, here).rows.empty());
        QVERIFY(boardOf(model, here).words.startsWith("The board rests while we practise."));
        (void)sent(model, "My own comes at once");
        QCOMPARE(boardOf(model, here).rows.size(), std::size_t{1});
        (void)model.goBack();
        here.place(model, kWater);
        QVERIFY(classOf(model, here).notice.words.contains("Snails"));
        QCOMPARE(classOf(model, here).boardWords, "1 new");
        model.pressWrite();
        QCOMPARE(textsOf(boardOf(model, here)), (QStringList{"My own comes at once", "Snails"}));
        (void)model.goBack();
        QCOMPARE(classOf(model, here).boardWords, "to write");
        here.place(model, kDrillYours);
        QVERIFY(classOf(model, here).notice.words.isEmpty());
    }

    void whileTheClassIsHeldTheBoardIsAwake()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        here.place(model, kDrillListen, Phase::calmPause, HomeLine::calmPause);
        QCOMPARE(classOf(model, here).boardWords, "to write");
    }

    void aNoticeFromTheDeskComesInAtTheLeadersTurnAndIsCalledSo()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        here.place(model, kDrillYours);
        model.take(board(itemOf(1, "We go on at ten past.", {}, wire::ItemKind::notice)));
        QVERIFY(classOf(model, here).notice.words.isEmpty());
        here.place(model, kDrillListen);
        QCOMPARE(classOf(model, here).notice.words, "From the desk: We go on at ten past.");
        here.place(model, kDrillYours); // what is there stays
        QCOMPARE(classOf(model, here).notice.words, "From the desk: We go on at ten past.");
    }

    void anAnswerWaitsForAMomentThatIsNotThePersonsOwn()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        here.place(model, kDrillYours);
        model.take(answer(9));
        QVERIFY(classOf(model, here).notice.words.isEmpty()); // not a word of it
        here.place(model, kDrillListen);
        QCOMPARE(classOf(model, here).notice.words, "Bram has answered you.");
        QVERIFY(classOf(model, here).action == NoticeAction::readAnswer);
        (void)model.pressNotice(NoticeAction::readAnswer);
        const auto shown = std::get<AnswerView>(model.view(&here.follow));
        QCOMPARE(shown.heading, "Bram answers you");
        QCOMPARE(shown.about, "You wrote: Is there a class tomorrow?");
        QCOMPARE(shown.text, "Yes, at ten.");
        here.place(model, kDrillYours); // steps aside
        QCOMPARE(classOf(model, here).notice.words, "Bram has answered you.");
        (void)model.pressNotice(NoticeAction::readAnswer); // wished for in the own turn: comes after it
        QCOMPARE(classOf(model, here).notice.words, "Bram's answer comes after your turn.");
        here.place(model, kDrillListen);
        QVERIFY(std::holds_alternative<AnswerView>(model.view(&here.follow)));
        here.place(model, kDrillYours);
        here.place(model, kWater); // in the pause it comes by itself, and stays
        QVERIFY(std::holds_alternative<AnswerView>(model.view(&here.follow)));
        model.take(board(itemOf(1, "Slugs")));
        QVERIFY(std::holds_alternative<AnswerView>(model.view(&here.follow)));
        const Wishes wishes = model.putAwayAnswer(false);
        QCOMPARE(kindsOf(wishes), QList{Kind::keepPutAway});
        QCOMPARE(wishes.front().line, std::uint64_t{9});
        QVERIFY(std::holds_alternative<ClassView>(model.view(&here.follow)));
        model.pressWrite(); // and can be read again among the lines
        QCOMPARE(boardOf(model, here).rows.front().text, "Yes, at ten.");
    }

    void somebodyWhoWritesIsNotInterruptedByAnAnswer()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        model.pressWrite();
        model.write("I wanted to sa");
        model.take(answer(9));
        QCOMPARE(boardOf(model, here).draft, "I wanted to sa");
        (void)model.goBack();
        QVERIFY(std::holds_alternative<AnswerView>(model.view(&here.follow)));
        (void)model.putAwayAnswer(true);
        QCOMPARE(boardOf(model, here).draft, "I wanted to sa"); // it is still there
    }

    void anAnswerThatWasPutAwayIsNotShownAgain()
    {
        QTemporaryDir folder;
        const PersonId ruth = PersonId::random();
        AnswersRead(folder.path()).keep(ruth, 9);
        const AnswersRead read(folder.path());
        QCOMPARE(read.of(ruth), std::set<std::uint64_t>{9});
        QVERIFY(read.of(PersonId::random()).empty());
        ClassHere here;
        here.welcome.answers = {std::get<wire::Answer>(answer(9)), std::get<wire::Answer>(answer(10, "No."))};
        JoinModel model;
        model.board().putAwayBefore(read.of(ruth));
        intoClass(model, here);
        here.place(model, kWater);
        QCOMPARE(std::get<AnswerView>(model.view(&here.follow)).text, "No.");
        (void)model.putAwayAnswer(false);
        model.welcome(here.welcome, true); // and the relay says it again
        model.take(answer(10, "No."));
        QVERIFY(std::holds_alternative<ClassView>(model.view(&here.follow)));
    }

    void thoseWhoShowTheirNamesSeeOneAnothers()
    {
        ClassHere here;
        JoinModel model;
        intoClass(model, here);
        model.pressWrite();
        QCOMPARE(kindsOf(model.pressPeople()), QList{Kind::askPeople});
        model.take(wire::ToClient(wire::People{{"Wim", "Anna", "Odile"}, 4}));
        QCOMPARE(textsOf(boardOf(model, here)), (QStringList{"Anna \u00b7 Odile \u00b7 Wim", "and 4 more"}));
        QVERIFY(boardOf(model, here).writing == BoardView::Writing::none);
        (void)model.goBack();
        QCOMPARE(boardOf(model, here).heading, "The board");
        (void)model.goBack();
        QVERIFY(model.screen() == Screen::inClass);
    }
};

QTEST_APPLESS_MAIN(TestJoinWords)
#include "test_join_words.moc"
