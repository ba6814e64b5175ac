// Rounds and turns, one press at a time.
#include "app/write/round_edits.h"
#include "common/script/spoken_pace.h"
#include "tests/app/write/write_classes.h"

#include <QTest>

using namespace vh;
using namespace vh::write;
using namespace vh::testing;

namespace
{

/// "L4 R2 Y4 | +R2 Y4": kinds by their letters, + for more voice.
QString wordsOf(const std::vector<Round>& rounds)
{
    QStringList all;
    for (const Round& round : rounds) {
        QStringList turns;
        for (const Turn& turn : round.turns)
            turns << QStringLiteral("%1%2")
                         .arg("LRWY"[static_cast<int>(turn.kind)])
                         .arg(static_cast<double>(turn.planned.count()) / 1000);
        all << (round.moreVoice ? "+" : "") + turns.join(u' ');
    }
    return all.join(" | ");
}

} // namespace

class TestRoundEdits : public QObject
{
    Q_OBJECT
private slots:
    void onePressDoesOneThing_data()
    {
        QTest::addColumn<int>("edit");
        QTest::addColumn<int>("turn");
        QTest::addColumn<QString>("after");
        QTest::addColumn<int>("then");
        const auto row = [](const char* name, RoundEdit edit, int turn, const char* after, int then) {
            QTest::newRow(name) << static_cast<int>(edit) << turn << after << then;
        };
        row("with me", RoundEdit::withMe, 2, "L4 R2 W4", 2);
        row("listen", RoundEdit::listen, 2, "L4 R2 L4", 2);
        row("longer", RoundEdit::longer, 0, "L4.5 R2 Y4", 0);
        row("shorter", RoundEdit::shorter, 0, "L3.5 R2 Y4", 0);
        row("a ready turn behind listen", RoundEdit::addTurn, 0, "L4 R2 R2 Y4", 1);
        row("a turn of theirs behind ready", RoundEdit::addTurn, 1, "L4 R2 Y4 Y4", 2);
        row("drop the last turn", RoundEdit::dropTurn, 2, "L4 R2", 1);
        row("another round", RoundEdit::addRound, 1, "L4 R2 Y4 | L4 R2 Y4", 1);
        row("with more voice", RoundEdit::moreVoice, 1, "+L4 R2 Y4", 1);
    }
    void onePressDoesOneThing()
    {
        QFETCH(int, edit);
        QFETCH(int, turn);
        QFETCH(QString, after);
        QFETCH(int, then);
        const auto edited = editedRounds(stepOf("Row the boat."), {0, turn}, static_cast<RoundEdit>(edit));
        QVERIFY(edited);
        QCOMPARE(wordsOf(edited->rounds), after);
        QCOMPARE(edited->at.turn, then);
    }

    void whatCannotBeIsRefused()
    {
        Step step = stepOf("Mm");
        step.rounds = {{false, {{TurnKind::yours, Millis{500}}}}};
        for (const RoundEdit edit : {RoundEdit::shorter, RoundEdit::dropTurn, RoundEdit::dropRound, RoundEdit::yours})
            QVERIFY(!editedRounds(step, {0, 0}, edit));
        step.rounds[0].turns[0].planned = Millis{600'000};
        QVERIFY(!editedRounds(step, {0, 0}, RoundEdit::longer));
        step.rounds[0].turns.assign(24, {TurnKind::yours, Millis{2000}});
        QVERIFY(!editedRounds(step, {0, 3}, RoundEdit::addTurn));
        step.rounds.assign(30, step.rounds[0]);
        QVERIFY(!editedRounds(step, {0, 3}, RoundEdit::addRound));
        QVERIFY(!withSeconds(step, {0, 0}, 0.2));
        QVERIFY(!withSeconds(step, {0, 0}, 601));
        step.rounds.clear();
        QVERIFY(!editedRounds(step, {0, 0}, RoundEdit::longer));
    }

    void theLastTurnOfARoundTakesTheRoundAlong()
    {
        Step step = stepOf("Row.");
        step.rounds.push_back({true, {{TurnKind::yours, Millis{3000}}}});
        const auto edited = editedRounds(step, {1, 0}, RoundEdit::dropTurn);
        QCOMPARE(wordsOf(edited->rounds), QString("L4 R2 Y4"));
        QCOMPARE(edited->at, (TurnSpot{0, 0}));
    }

    void byTheTextIsAsItIsSaid()
    {
        const Step step = stepOf("Row the boat to the other side of the lake.");
        const auto edited = editedRounds(step, {0, 0}, RoundEdit::byText);
        QVERIFY(edited);
        for (const Turn& turn : edited->rounds[0].turns)
            QCOMPARE(turn.planned.count(), plannedAsSpoken("en", turn.kind, step.text, 0)->count());
    }

    void secondsCanBeTyped()
    {
        QCOMPARE(wordsOf(withSeconds(stepOf("Row."), {0, 2}, 7.25)->rounds), QString("L4 R2 Y7.25"));
    }
};

QTEST_APPLESS_MAIN(TestRoundEdits)
#include "test_round_edits.moc"
