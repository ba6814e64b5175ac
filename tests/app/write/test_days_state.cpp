// The days as they are looked at: four weeks in words, what is chosen stays chosen, every change can be undone.
#include "app/write/day_words.h"
#include "app/write/days_state.h"
#include "tests/app/write/library_fixture.h"

using namespace vh;
using namespace vh::write;
using namespace vh::write::testing;

namespace
{

const QDate kToday(2026, 3, 10); // a Tuesday

DayClass bread(QDate day)
{
    return {day, "own:bread.yaml", "Warm loaves", "Bread"};
}

/// "Tuesday 10|Warm loaves|planned, 1 min"
QStringList linesOf(const DaysState& state)
{
    QStringList lines;
    for (const RowList::Row& row : state.view().rows.rows)
        lines << (row.heading ? row.head : QStringList({row.before, row.head, row.beside}).join('|'));
    return lines;
}

QString chosenIn(const DaysState& state)
{
    return linesOf(state).value(state.view().rows.chosen);
}

} // namespace

class TestDaysState : public QObject
{
    Q_OBJECT
private:
    std::unique_ptr<LibraryHere> m_here;
    std::unique_ptr<ClassLibrary> m_library;
    ClassDays m_days;
    std::unique_ptr<DaysState> m_state;

private slots:
    void init()
    {
        m_here = std::make_unique<LibraryHere>();
        QVERIFY(m_here->fill());
        m_library = std::make_unique<ClassLibrary>(m_here->folders);
        QVERIFY(settle(*m_library));
        m_days = {};
        m_state = std::make_unique<DaysState>(*m_library, m_days);
        m_state->setToday(kToday);
    }

    void fourWeeksOfWeekdaysFromLastMonday()
    {
        const QStringList lines = linesOf(*m_state);
        QCOMPARE(lines.size(), 4 * 6);
        QCOMPARE(lines[0], "Last week, 2 to 6 March");
        QCOMPARE(lines[1], QString::fromUtf8("Monday 2|\u2013|"));
        QCOMPARE(lines[6], "This week, 9 to 13 March");
        QCOMPARE(lines[8], "Tuesday 10|nothing planned today|");
        QCOMPARE(lines[12], "Next week, 16 to 20 March");
        QCOMPARE(lines[18], "23 to 27 March");
        QCOMPARE(chosenIn(*m_state), lines[8]); // today
        m_state->turn(2);
        QCOMPARE(linesOf(*m_state)[18], "6 to 10 April");
        QCOMPARE(m_state->day(), kToday.addDays(14));
    }

    void weekendsShowWhereSomethingIsOnThemOrWhenTheyAreWanted()
    {
        QVERIFY(m_state->plan(bread({}), QDate(2026, 3, 14)));
        QCOMPARE(linesOf(*m_state).size(), 4 * 6 + 1);
        QCOMPARE(chosenIn(*m_state), "Saturday 14|Warm loaves|planned, 1 min");
        m_state->setWeekends(true);
        QCOMPARE(linesOf(*m_state).size(), 4 * 8);
        QCOMPARE(linesOf(*m_state)[0], "Last week, 2 to 8 March");
    }

    void aPlannedClassMovesByADayAndOverTheWeekend()
    {
        QVERIFY(m_state->plan(bread({}), QDate(2026, 3, 13)));
        QVERIFY(m_state->moveBy(1));
        QCOMPARE(m_days.planned(), std::vector<DayClass>{bread(QDate(2026, 3, 16))});
        QCOMPARE(chosenIn(*m_state), "Monday 16|Warm loaves|planned, 1 min"); // what was moved stays chosen
        QVERIFY(m_state->moveBy(-1));
        QCOMPARE(m_days.planned().front().day, QDate(2026, 3, 13));
        m_state->setWeekends(true);
        QVERIFY(m_state->moveBy(1));
        QCOMPARE(m_days.planned().front().day, QDate(2026, 3, 14));
    }

    void whatMovesOutOfSightTakesTheWeeksWithIt()
    {
        QVERIFY(m_state->plan(bread({}), QDate(2026, 3, 27)));
        QVERIFY(m_state->moveBy(1));
        QCOMPARE(chosenIn(*m_state), "Monday 30|Warm loaves|planned, 1 min");
        QCOMPARE(linesOf(*m_state)[0], "This week, 9 to 13 March");
    }

    void everyChangeCanBeUndone()
    {
        QVERIFY(!m_state->undo());
        QVERIFY(m_state->plan(bread({}), kToday));
        QVERIFY(!m_state->plan(bread({}), kToday)); // it is there: nothing to undo
        QVERIFY(m_state->moveBy(1));
        QVERIFY(m_state->takeOff());
        QVERIFY(!m_state->takeOff()); // nothing is chosen any more that could be
        QCOMPARE(m_state->day(), kToday.addDays(1));
        QVERIFY(m_days.planned().empty());
        QVERIFY(m_state->undo());
        QCOMPARE(m_days.planned(), std::vector<DayClass>{bread(kToday.addDays(1))});
        QVERIFY(m_state->undo());
        QCOMPARE(m_days.planned(), std::vector<DayClass>{bread(kToday)});
        QVERIFY(m_state->undo());
        QCOMPARE(m_days, ClassDays());
        QVERIFY(!m_state->view().canUndo);
    }

    void whatWasDoneIsSaidAgainstThePlan()
    {
        m_days.keep({bread(kToday.addDays(-1)), Millis(1'190'000), Millis(1'203'400), {}});
        m_state->refresh();
        QVERIFY(linesOf(*m_state).contains("Monday 9|Warm loaves|held, 20 min 3 s"));
        m_state->chooseDay(kToday.addDays(-1));
        const DayLook look = m_state->view().look;
        QCOMPARE(look.day, "Monday 9 March, yesterday");
        QCOMPARE(look.lines, QStringList({"Held. It took 20 min 3 s.", "By its plan: 19 min 50 s."}));
        QVERIFY(!look.planned && !look.open && look.known);
    }

    void whereAClassIsToGoItIsSaidWhatWasUsedLately()
    {
        m_days.keep({{kToday.addDays(-7), "own:other.yaml", "Crusts", "bread"}, Millis(1000), Millis(1000), {}});
        m_state->place(bread({}));
        QCOMPARE(m_state->view().look.title, "Warm loaves");
        QCOMPARE(m_state->view().look.used,
                 QStringList(QString::fromUtf8(
                     "The theme \u201CBread\u201D was used on Tuesday 3 March, in \u201CCrusts\u201D.")));
        m_state->chooseDay(kToday.addDays(-7)); // a day that is over
        QVERIFY(!m_state->view().look.open);
        m_state->turn(4);
        m_state->chooseDay(kToday.addDays(30));
        QVERIFY(m_state->view().look.used.isEmpty()); // by then it is long ago
    }

    void aClassWhoseFileIsGoneKeepsItsName()
    {
        QVERIFY(m_state->plan({{}, "own:gone.yaml", "Ferns", "Ferns"}, kToday));
        QCOMPARE(chosenIn(*m_state), "Tuesday 10|Ferns|planned; its file is gone");
        QVERIFY(!m_state->view().look.known);
        QCOMPARE(m_state->view().look.lines.last(), "Its file is not among your classes any more.");
    }

    void lengthsAndDaysInWords()
    {
        QCOMPARE(minutesWords(Millis(59'400)), "59 s");
        QCOMPARE(minutesWords(Millis(59'600)), "1 min");
        QCOMPARE(minutesWords(Millis(1'180'000)), "19 min 40 s");
        QCOMPARE(roundMinutesWords(Millis(1'180'000)), "20 min");
        QCOMPARE(roundMinutesWords(Millis(10'000)), "1 min");
        QCOMPARE(nearWords(kToday.addDays(1), kToday), "tomorrow");
        QCOMPARE(nearWords(kToday.addDays(2), kToday), "Thursday 12 March");
        QCOMPARE(dayWords(QDate(2025, 12, 31), kToday), "Wednesday 31 December 2025");
        QCOMPARE(shortWords(QDate(2026, 3, 16), kToday), "16 March");
        const UsedBefore sentence{UsedBefore::What::sentence, "one two three four", kToday, "X", false};
        QCOMPARE(usedWords({sentence, sentence, sentence}, kToday, 1).size(), 2);
        QCOMPARE(usedWords({sentence, sentence, sentence}, kToday, 1).last(), "And 2 more sentences.");
    }
};

QTEST_GUILESS_MAIN(TestDaysState)
#include "test_days_state.moc"
