// Calls for help and seats as the rooms keep them.
#include "app/people/act_words.h"
#include "app/people/ago.h"
#include "app/people/call_book.h"
#include "app/people/seat_book.h"

#include <QFile>
#include <QRegularExpression>
#include <QTest>

using namespace vh;
using namespace std::chrono_literals;

namespace
{

const Instant kNow{Millis{1'700'000'000'000}};

const PersonId kAnna = PersonId::random();
const PersonId kBen = PersonId::random();

wire::Call call(std::uint64_t id, const char* name, Millis ago, const char* takenBy = "", PersonId taker = {})
{
    wire::Call made;
    made.call = id;
    made.person = PersonId::random();
    made.name = name;
    made.at = kNow - ago;
    made.takenBy = takenBy;
    if (*takenBy)
        made.taker = taker;
    return made;
}

/// As Anna sees them.
CallBook bookOf(std::vector<wire::Call> calls)
{
    CallBook book;
    book.setOwn(kAnna);
    book.take(wire::Calls{true, std::move(calls)});
    return book;
}

wire::SeatName seat(std::uint32_t number, const char* name, bool here)
{
    wire::SeatName made;
    made.seat = number;
    made.person = PersonId::random();
    made.name = name;
    made.here = here;
    return made;
}

wire::RosterEntry entry(std::uint16_t number, Standing standing)
{
    wire::RosterEntry made;
    made.seat = number;
    made.standing = standing;
    return made;
}

} // namespace

class TestBooks : public QObject
{
    Q_OBJECT
private slots:
    void everyActOfTheProtocolIsSaidInWords()
    {
        QFile file(VH_SOURCE_DIR "/docs/protocol.md");
        QVERIFY(file.open(QIODevice::ReadOnly));
        const QString text = QString::fromUtf8(file.readAll());
        const auto found = QRegularExpression("`what` \\(text 60: ([^)]*)\\)").match(text);
        QVERIFY(found.hasMatch());
        const QStringList all = found.captured(1).simplified().split(", ");
        QVERIFY(all.size() > 15);
        for (const QString& what : all) {
            wire::Act act;
            act.who = "Kim %2";
            act.what = what.toStdString();
            act.whom = "Bo";
            const QString words = actWords(act);
            QVERIFY2(words.startsWith("Kim %2 ") && words.endsWith("."), qPrintable(words));
        }
    }

    void anActOfANewerRelayIsNamedAsItIs()
    {
        wire::Act act;
        act.who = "Kim";
        act.what = "line-sung-aloud";
        act.whom = "Bo";
        QCOMPARE(actWords(act), QString("Kim: line sung aloud, Bo."));
        act.who.clear();
        act.what = "line-set-aside"; // whoever did it was erased since
        QCOMPARE(actWords(act), QString("Somebody set aside what Bo wrote."));
    }

    void agoIsSaidInFewWords_data()
    {
        QTest::addColumn<qint64>("milliseconds");
        QTest::addColumn<QString>("words");
        QTest::newRow("ahead of us") << qint64(-500) << "now";
        QTest::newRow("just now") << qint64(999) << "now";
        QTest::newRow("seconds") << qint64(18'400) << "18 s";
        QTest::newRow("the last second") << qint64(59'999) << "59 s";
        QTest::newRow("minutes") << qint64(125'000) << "2 min";
        QTest::newRow("hours") << qint64(3'900'000) << "1 h 5 min";
    }
    void agoIsSaidInFewWords()
    {
        QFETCH(qint64, milliseconds);
        QTEST(agoWords(Millis{milliseconds}), "words");
    }

    void untakenCallsStandFirstEachOldestFirst()
    {
        const CallBook book = bookOf({call(1, "Wim", 60s, "Anna", kBen), call(2, "Greta", 18s), call(3, "Hugo", 5s),
                                      call(4, "Vera", 90s, "Anna", kAnna)});
        const CallList::State state = book.state(kNow);
        QCOMPARE(state.rows.size(), 3U);
        QCOMPARE(state.rows[0].words, QString("Greta needs help, 18 s ago"));
        QCOMPARE(state.rows[0].hand, CallList::Hand::nobody);
        QCOMPARE(state.rows[1].words, QString("Hugo needs help, 5 s ago"));
        QCOMPARE(state.rows[2].words, QString("You have Vera's call")); // the other Anna's is hers
        QCOMPARE(state.rows[2].hand, CallList::Hand::mine);
        QCOMPARE(state.more, QString("and 1 more"));
    }

    void aCallThatIsDoneGoesAndTheContactWithIt()
    {
        wire::Call wim = call(1, "Wim", 60s, "Anna", kAnna);
        CallBook book = bookOf({wim});
        book.take(wire::ContactShown{wim.person, wire::Because::call, "Mill Lane 3", "Ruth, 555 0101", kNow});
        QCOMPARE(book.state(kNow).rows[0].detail, QString("Mill Lane 3 \u00B7 to ring: Ruth, 555 0101"));
        wire::Call done = wim;
        done.done = true;
        book.take(wire::Calls{false, {done}});
        QVERIFY(book.state(kNow).rows.empty());
        book.take(wire::Calls{false, {wim}});
        QVERIFY(book.state(kNow).rows[0].detail.isEmpty());
    }

    void whoHasNeverSaidWhereTheyAreIsSaidSo()
    {
        const wire::Call wim = call(1, "Wim", 60s, "Anna", kAnna);
        CallBook book = bookOf({wim});
        book.take(wire::ContactShown{wim.person, wire::Because::call, {}, {}, {}});
        QCOMPARE(book.state(kNow).rows[0].detail, QString("Where this is, and whom to ring, was never said."));
        book.take(wire::ContactShown{wim.person, wire::Because::call, "Mill Lane 3", {}, kNow - 48h});
        QVERIFY(book.state(kNow).rows[0].detail.startsWith("Mill Lane 3 \u00B7 as of "));
    }

    /// A function of the call and the relay's time, and of nothing else.
    void aCallThatNobodyTakesFillsTheScreenAfterHalfAMinute()
    {
        const wire::Call greta = call(1, "Greta", 0s);
        CallBook book = bookOf({greta, call(2, "Wim", 10s, "Ben", kBen)});
        QVERIFY(!book.filled(kNow + kCallFillsAfter - 1ms));
        QVERIFY(!book.contactToAsk(kNow + kCallFillsAfter - 1ms));
        const auto filled = book.filled(kNow + kCallFillsAfter);
        QVERIFY(filled && filled->heading == "Greta needs help" && filled->where.isEmpty());
        const auto look = book.contactToAsk(kNow + kCallFillsAfter);
        QVERIFY(look && look->person == greta.person && look->because == wire::Because::call);
        QVERIFY(!book.contactToAsk(kNow + 40s)); // once
        book.take(wire::ContactShown{greta.person, wire::Because::call, "Mill Lane 3", {}, kNow});
        QCOMPARE(book.filled(kNow + 40s)->where, QString("Mill Lane 3"));
        QCOMPARE(book.filled(kNow + 40s)->ring, QString("never said"));

        CallBook aside = book;
        aside.setAside(1);
        QVERIFY(!aside.filled(kNow + 1h));
        QCOMPARE(aside.state(kNow + 40s).rows[0].words, QString("Greta needs help, 40 s ago")); // it is not lost
        QVERIFY(!aside.rings(RingsFor::leader, kNow + 1h));

        wire::Call taken = greta;
        taken.takenBy = "Ben";
        taken.taker = kBen;
        book.take(wire::Calls{false, {taken}});
        QVERIFY(!book.filled(kNow + 1h));
        book.take(wire::Calls{false, {greta}}); // let go again: its contact has to be asked for anew
        QVERIFY(book.filled(kNow + 1h)->where.isEmpty());
    }

    void aCallRingsAtOnceAndSoftlyAgainUntilItIsTaken_data()
    {
        QTest::addColumn<int>("who");
        QTest::addColumn<QList<int>>("atSeconds");
        QTest::newRow("a helper") << int(RingsFor::helper) << QList<int>{0, 10, 20, 30, 40, 50};
        QTest::newRow("a leader, who is speaking") << int(RingsFor::leader) << QList<int>{0, 30, 36, 42, 48, 54};
    }
    void aCallRingsAtOnceAndSoftlyAgainUntilItIsTaken()
    {
        QFETCH(int, who);
        CallBook book = bookOf({call(1, "Greta", 0s), call(2, "Wim", 0s, "Ben", kBen)});
        QList<int> heard;
        for (int tenth = 0; tenth < 600; ++tenth)
            if (book.rings(static_cast<RingsFor>(who), kNow + Millis{tenth * 100}))
                heard += tenth / 10;
        QTEST(heard, "atSeconds");
        QVERIFY(bookOf({call(1, "Greta", 0s)}).rings(static_cast<RingsFor>(who), kNow - 1s)); // clocks differ
    }

    void aLostLineOffersItsContactOnlyWhereThatWasAgreed()
    {
        CallBook book = bookOf({});
        const PersonId jonas = PersonId::random();
        const PersonId mina = PersonId::random();
        book.take(wire::LostLines{
            {{jonas, "Jonas", kNow - 40s, false, {}, {}, false}, {mina, "Mina", kNow - 20s, true, {}, {}, false}}});
        auto state = book.lost(kNow);
        QCOMPARE(state.rows[0].words, QString("Mina: line lost 20 s ago"));
        QCOMPARE(state.rows[0].press, LostList::Press::look);
        QCOMPARE(state.rows[1].words, QString("Jonas: line lost 40 s ago"));
        QCOMPARE(state.rows[1].press, LostList::Press::none);

        book.take(wire::LostLines{{{mina, "Mina", kNow - 20s, true, "Anna", kAnna, false}}});
        book.take(wire::ContactShown{mina, wire::Because::lineLost, {}, "Ruth, 555 0101", kNow});
        state = book.lost(kNow);
        QVERIFY(state.rows[0].mine);
        QCOMPARE(state.rows[0].detail, QString("to ring: Ruth, 555 0101"));
        book.take(wire::LostLines{{{mina, "Mina", kNow - 20s, false, "Anna", kAnna, true}}}); // taken back meanwhile
        state = book.lost(kNow);
        QCOMPARE(state.rows[0].words, QString("Mina is here again"));
        QVERIFY(state.rows[0].mine && state.rows[0].detail.isEmpty());

        book.take(wire::LostLines{{{mina, "Mina", kNow - 20s, true, "Ben", kBen, false}}});
        QCOMPARE(book.lost(kNow).rows[0].words, QString("Ben sees to Mina's lost line"));
        QCOMPARE(book.lost(kNow).rows[0].press, LostList::Press::none);
    }

    void aSeatStaysWhenItsLineIsLost()
    {
        SeatBook book;
        wire::SeatName ruth = seat(1, "Ruth", true);
        book.take({true, {seat(0, "Omar", true), ruth, seat(2, "Never", false)}}, kNow);
        book.take(wire::Roster{true, {entry(0, Standing::inBand), entry(1, Standing::below)}});
        ruth.here = false;
        book.take({false, {ruth}}, kNow + 20s);
        const auto rows = book.rows();
        QCOMPARE(rows.size(), 2U); // who has never been here has no seat in this class
        QCOMPARE(rows[1].name, QString("Ruth"));
        QCOMPARE(rows[1].standing, Standing::away);
        QCOMPARE(book.counts().here, 1);
        const auto people = book.people();
        QVERIFY(!people[0].lostAt);
        QCOMPARE(people[1].lostAt, std::optional(kNow + 20s));
        book.beginClass();
        QCOMPARE(book.rows().size(), 1U);
    }

    void whoeverLooksHasNoSeat()
    {
        SeatBook book;
        const wire::SeatName own = seat(0, "Anna", true);
        book.setOwn(own.person);
        book.take({true, {own, seat(1, "Ruth", true)}}, kNow);
        QCOMPARE(book.rows().size(), 1U);
        QCOMPARE(book.people().size(), 1U);
    }

    void onlyWhatCanBeReadIsCounted()
    {
        SeatBook book;
        std::vector<wire::SeatName> seats;
        std::vector<wire::RosterEntry> standings;
        const std::vector<Standing> all{Standing::inBand,   Standing::inBand,    Standing::below,
                                        Standing::above,    Standing::straining, Standing::noVoice,
                                        Standing::cantTell, Standing::resting,   Standing::private_};
        for (std::size_t i = 0; i < all.size(); ++i) {
            seats.push_back(seat(static_cast<std::uint32_t>(i), "Somebody", true));
            standings.push_back(entry(static_cast<std::uint16_t>(i), all[i]));
        }
        book.take({true, seats}, kNow);
        book.take(wire::Roster{true, standings});
        QCOMPARE(book.counts(), (SeatCounts{9, 2, 1, 2}));
        QCOMPARE(book.counts().readable(), 5);
    }
};

QTEST_GUILESS_MAIN(TestBooks)
#include "test_books.moc"
