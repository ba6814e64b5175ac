// Finding a class by what one remembers of it.
#include "app/write/class_search.h"
#include "app/write/folded.h"

#include <QtTest>

using namespace vh;
using namespace vh::write;

namespace
{

ClassEntry entry(const QString& title, const QString& theme, const QStringList& lines)
{
    ClassEntry one;
    one.title = title;
    one.theme = theme;
    one.headFolded = folded(title) + folded(theme);
    for (const QString& line : lines) {
        one.lines += line.toUtf8() + '\n';
        one.folded += folded(line) + '\n';
    }
    return one;
}

std::vector<ClassEntry> shelf()
{
    return {entry("A windy day", "Kites", {"Hold on to your hats!", "The bread is in the basket."}),
            entry("Café at noon", "Coffee", {"Crème brûlée, please.", "A kite hangs over the counter."}),
            entry("Kite Hill", "Wind", {"Up, up, and away."}),
            entry("Warm loaves", "Bread", {"Who taught you to bake?", "Ørsted's bread don't last."})};
}

QStringList titlesFor(const QString& query)
{
    const auto entries = shelf();
    QStringList titles;
    for (const Found& each : found(entries, query))
        titles << entries[each.entry].title;
    return titles;
}

} // namespace

class TestClassSearch : public QObject
{
    Q_OBJECT
private slots:
    void nothingAskedFindsAllInTheirOrder()
    {
        QCOMPARE(titlesFor("").size(), 4);
        QCOMPARE(titlesFor(" , ").size(), 4); // no word in it
        QCOMPARE(titlesFor("").first(), "A windy day");
    }

    void titleAndThemeComeBeforeText()
    {
        // "Kite Hill" begins with it; the theme "Kites" has it; the café says it.
        QCOMPARE(titlesFor("kite"), QStringList({"Kite Hill", "A windy day", "Café at noon"}));
        QCOMPARE(titlesFor("bread"), QStringList({"Warm loaves", "A windy day"}));
    }

    void everyWordMustBegin_data()
    {
        QTest::addColumn<QString>("query");
        QTest::addColumn<QStringList>("titles");
        QTest::newRow("two words") << "warm bake" << QStringList("Warm loaves");
        QTest::newRow("in any order") << "bake warm" << QStringList("Warm loaves");
        QTest::newRow("one is nowhere") << "warm kite" << QStringList();
        QTest::newRow("beginnings of words") << "war bre" << QStringList("Warm loaves");
        QTest::newRow("not their insides") << "oaves" << QStringList();
        QTest::newRow("capitals") << "KITE HI" << QStringList({"Kite Hill"});
        QTest::newRow("accents in the text") << "creme brulee" << QStringList("Café at noon");
        QTest::newRow("accents in the query") << "càfe" << QStringList("Café at noon");
        QTest::newRow("composed otherwise") << QString::fromUtf8("cafe\u0301") << QStringList("Café at noon");
        QTest::newRow("letters of their own") << "orsted" << QStringList("Warm loaves");
        QTest::newRow("an apostrophe") << "dont last" << QStringList("Warm loaves");
        QTest::newRow("a curled one") << QString::fromUtf8("don\u2019t") << QStringList("Warm loaves");
        QTest::newRow("marks between") << "up, and... away" << QStringList("Kite Hill");
    }
    void everyWordMustBegin()
    {
        QFETCH(const QString, query);
        QFETCH(const QStringList, titles);
        QCOMPARE(titlesFor(query), titles);
    }

    void itSaysTheLineInWhichItStands()
    {
        const auto entries = shelf();
        const auto bread = found(entries, "bread");
        QCOMPARE(bread.size(), std::size_t{2});
        QCOMPARE(bread[0].line, QString()); // its theme
        QCOMPARE(bread[1].line, "The bread is in the basket.");
        QCOMPARE(found(entries, "kite counter").front().line, "A kite hangs over the counter.");
    }

    void foldedTextHasOneSpaceBeforeEachWord()
    {
        QCOMPARE(folded(u"  The Ducks\u2019 pond: N\u00BA 3!"), QByteArray(" the ducks pond no 3"));
        QCOMPARE(folded(u""), QByteArray());
        QCOMPARE(foldedWords(u"Stra\u00DFe, \u00C6on"), QStringList({"strasse", "aeon"}));
        const auto other = u"\u65E5\u672C \u0440\u0435\u043A\u0430";
        QCOMPARE(folded(other), ' ' + QString::fromUtf16(other).toUtf8());
    }
};

QTEST_GUILESS_MAIN(TestClassSearch)
#include "test_class_search.moc"
