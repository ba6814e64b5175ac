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

wire::Call call(std::uint64_t id, const char* name, Millis ago, const char* takenBy = "")
{
    wire::Call made;
    made.call = id;
    made.name = name;
    made.at = kNow - ago;
    made.takenBy = takenBy;
    return made;
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
        CallBook book;
        book.take(wire::Calls{
            {call(1, "Wim", 60s, "Ben"), call(2, "Greta", 18s), call(3, "Hugo", 5s), call(4, "Vera", 90s, "Anna")}});
        const CallList::State state = book.state("Anna", kNow);
        QCOMPARE(state.rows.size(), 3U);
        QCOMPARE(state.rows[0].words, QString("Greta needs help, 18 s ago"));
        QCOMPARE(state.rows[0].hand, CallList::Hand::nobody);
        QCOMPARE(state.rows[1].words, QString("Hugo needs help, 5 s ago"));
        QCOMPARE(state.rows[2].words, QString("You have Vera's call"));
        QCOMPARE(state.rows[2].hand, CallList::Hand::mine);
        QCOMPARE(state.more, QString("and 1 more"));
    }

    void aCallThatIsDoneGoes()
    {
        CallBook book;
        book.take(wire::Calls{{call(1, "Wim", 60s)}});
        wire::Call done = call(1, "Wim", 60s, "Ben");
        done.done = true;
        book.take(wire::Calls{{done}});
        QVERIFY(book.state("Anna", kNow).rows.empty());
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
