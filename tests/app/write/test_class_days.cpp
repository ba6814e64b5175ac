// The group's days: what is planned and what was done, what was used lately; and that their file is never lost.
#include "app/write/class_days.h"
#include "app/write/days_file.h"
#include "tests/app/write/library_fixture.h"

using namespace vh;
using namespace vh::write;
using namespace vh::write::testing;

namespace
{

const QDate kToday(2026, 3, 10); // a Tuesday

DayClass kites(QDate day)
{
    return {day, "own:kites.yaml", "Kite Hill", "Kites"};
}
DayClass bread(QDate day)
{
    return {day, "own:bread.yaml", "Warm loaves", "Bread"};
}

HeldClass heldOn(const DayClass& what, std::set<std::string> sentences = {})
{
    return {what, Millis(1'180'000), Millis(1'210'000), std::move(sentences)};
}

} // namespace

class TestClassDays : public QObject
{
    Q_OBJECT
private slots:
    void aDayMayHaveSeveralClassesButNoneTwice()
    {
        ClassDays days;
        QVERIFY(days.plan(bread(kToday.addDays(1))));
        QVERIFY(days.plan(kites(kToday)));
        QVERIFY(days.plan(bread(kToday)));
        QVERIFY(!days.plan(kites(kToday)));
        QCOMPARE(days.planned(), std::vector<DayClass>({kites(kToday), bread(kToday), bread(kToday.addDays(1))}));
        days.move(2, kToday); // it is there already
        QCOMPARE(days.planned(), std::vector<DayClass>({kites(kToday), bread(kToday)}));
        days.move(0, kToday.addDays(-1));
        QCOMPARE(days.planned().front(), kites(kToday.addDays(-1)));
        days.takeOff(0);
        QCOMPARE(days.planned(), std::vector<DayClass>({bread(kToday)}));
    }

    void whatWasHeldIsNoLongerPlanned()
    {
        ClassDays days;
        QVERIFY(days.plan(kites(kToday)) && days.plan(bread(kToday)));
        days.keep(heldOn(kites(kToday)));
        QCOMPARE(days.planned(), std::vector<DayClass>({bread(kToday)}));
        QCOMPARE(days.held().size(), std::size_t{1});
        QCOMPARE(days.lastHeld("own:kites.yaml"), kToday);
        QCOMPARE(days.nextPlanned("own:bread.yaml", kToday), kToday);
        QVERIFY(!days.nextPlanned("own:bread.yaml", kToday.addDays(1)).isValid());
        QVERIFY(!days.lastHeld("own:bread.yaml").isValid());
    }

    void aThemeOfTheLastThirtyDaysIsSaid_data()
    {
        QTest::addColumn<int>("ago");
        QTest::addColumn<bool>("said");
        QTest::newRow("the same day") << 0 << true;
        QTest::newRow("thirty days before") << 30 << true;
        QTest::newRow("thirty-one") << 31 << false;
        QTest::newRow("the day after") << -1 << false;
    }
    void aThemeOfTheLastThirtyDaysIsSaid()
    {
        QFETCH(const int, ago);
        QFETCH(const bool, said);
        ClassDays days;
        days.keep(heldOn({kToday.addDays(-ago), "own:other.yaml", "Another hill", "KITÉS"}));
        const auto used = days.usedBefore(kites(kToday), {}, {});
        QCOMPARE(used.size(), std::size_t{said ? 1U : 0U});
        if (said)
            QCOMPARE(used.front(),
                     (UsedBefore{UsedBefore::What::theme, "Kites", kToday.addDays(-ago), "Another hill", true}));
    }

    void aSentenceIsSaidOnceWhereItWasLast()
    {
        ClassDays days;
        days.keep(heldOn(bread(kToday.addDays(-9)), {"the kite pulls at the line", "the loaf is still warm"}));
        days.keep(heldOn({kToday.addDays(-3), "own:x.yaml", "X", "Letters"}, {"the kite pulls at the line"}));
        const std::set<std::string> own{"the kite pulls at the line", "never said before by anybody"};
        const auto used = days.usedBefore(kites(kToday), own, {});
        QCOMPARE(used, std::vector<UsedBefore>({{UsedBefore::What::sentence, "the kite pulls at the line",
                                                 kToday.addDays(-3), "X", true}}));
        QCOMPARE(days.saidLately(kToday, "own:kites.yaml"),
                 (std::set<std::string>{"the kite pulls at the line", "the loaf is still warm"}));
        QCOMPARE(days.saidLately(kToday.addDays(25), "own:kites.yaml"),
                 std::set<std::string>{"the kite pulls at the line"});
    }

    void aClassIsNotHeldAgainstItself()
    {
        ClassDays days;
        days.keep(heldOn(kites(kToday.addDays(-3)), {"the kite pulls at the line"}));
        QVERIFY(days.saidLately(kToday, "own:kites.yaml").empty());
        QCOMPARE(days.saidLately(kToday, "own:bread.yaml").size(), std::size_t{1});
    }

    void whatIsPlannedBeforeThatDayCountsToo()
    {
        ClassDays days;
        QVERIFY(days.plan(bread(kToday.addDays(2))));
        const auto sentencesOf = [](const QString& key) {
            return key == "own:bread.yaml" ? std::set<std::string>{"the kite pulls at the line"}
                                           : std::set<std::string>{};
        };
        const std::set<std::string> own{"the kite pulls at the line"};
        const auto used = days.usedBefore(kites(kToday.addDays(5)), own, sentencesOf);
        QCOMPARE(used, std::vector<UsedBefore>({{UsedBefore::What::sentence, "the kite pulls at the line",
                                                 kToday.addDays(2), "Warm loaves", false}}));
        QVERIFY(days.usedBefore(kites(kToday), own, sentencesOf).empty()); // two days before it
    }

    void theSameClassAgainIsSaidOnceForAllThatIsInIt()
    {
        ClassDays days;
        days.keep(heldOn(kites(kToday.addDays(-12)), {"the kite pulls at the line"}));
        const auto used = days.usedBefore(kites(kToday), {"the kite pulls at the line"}, {});
        QCOMPARE(used, std::vector<UsedBefore>(
                           {{UsedBefore::What::theClass, "Kite Hill", kToday.addDays(-12), "Kite Hill", true}}));
        QVERIFY(days.plan(kites(kToday.addDays(40))));
        QVERIFY(days.usedBefore(kites(kToday.addDays(40)), {}, {}).empty()); // its own plan is no use before it
    }

    void sentencesAreForgottenAfterTwoMonthsTheClassIsNot()
    {
        ClassDays days;
        days.keep(heldOn(kites(kToday), {"the kite pulls at the line"}));
        days.keep(heldOn(bread(kToday.addDays(61)), {"the loaf is still warm"}));
        QVERIFY(days.held().front().sentences.empty());
        QCOMPARE(days.held().front().what, kites(kToday));
        QCOMPARE(days.held().back().sentences.size(), std::size_t{1});
    }

    void daysComeBackFromTheirFileByGroup()
    {
        QTemporaryDir folder;
        const GroupId group = GroupId::random();
        ClassDays days;
        QVERIFY(days.plan(bread(kToday.addDays(1))) && days.plan(kites(kToday.addDays(1))));
        days.keep(heldOn(kites(kToday), {"the kite pulls at the line", "h\u00FCgel \"quoted\""}));
        DaysFile file(folder.path(), group);
        QVERIFY(file.save(days));
        QCOMPARE(DaysFile(folder.path(), group).load(), days);
        QCOMPARE(DaysFile(folder.path(), GroupId::random()).load(), ClassDays());
        QCOMPARE(DaysFile(folder.path(), {}).load(), ClassDays());
        QVERIFY(file.damagedAside().isEmpty());
    }

    void aDamagedFileIsKeptAsideAndSaid_data()
    {
        QTest::addColumn<QByteArray>("bytes");
        QTest::newRow("no JSON") << QByteArray("{\"version\": 1, \"planned\": [");
        QTest::newRow("empty") << QByteArray();
        QTest::newRow("another version") << QByteArray("{\"version\": 2, \"planned\": [], \"held\": []}");
        QTest::newRow("no day") << QByteArray(
            "{\"version\": 1, \"planned\": [{\"day\": \"soon\", \"class\": \"own:a.yaml\"}], \"held\": []}");
    }
    void aDamagedFileIsKeptAsideAndSaid()
    {
        QFETCH(const QByteArray, bytes);
        QTemporaryDir folder;
        for (const char* const aside : {"days.json.damaged", "days.json-2.damaged"}) {
            DaysFile file(folder.path(), {});
            QVERIFY(put(file.path(), bytes));
            QCOMPARE(file.load(), ClassDays());
            QCOMPARE(file.damagedAside(), folder.filePath(aside));
            QCOMPARE(bytesOf(file.damagedAside()), bytes);
            QVERIFY(!QFile::exists(file.path()));
        }
    }
};

QTEST_GUILESS_MAIN(TestClassDays)
#include "test_class_days.moc"
