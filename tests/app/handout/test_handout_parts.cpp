// The parts that papers are made of: pages, words on how often something is said, files, and what is added to a PDF.
#include "app/handout/flow.h"
#include "app/handout/handout_maker.h"
#include "app/handout/handout_words.h"
#include "app/handout/pdf_objects.h"
#include "app/handout/pdf_tags.h"

#include <QDir>
#include <QFile>
#include <QGuiApplication>
#include <QTemporaryDir>
#include <QTest>

using namespace vh;
using namespace vh::handout;

namespace
{

Block blockOf(std::initializer_list<double> heights, double before = 0, bool keeps = false)
{
    Block block;
    for (const double height : heights)
        block.pieces.push_back({height, nullptr, {}});
    block.before = before;
    block.keepsWithNext = keeps;
    return block;
}

std::vector<std::size_t> piecesPerPage(const Flow& flow, double height)
{
    std::vector<std::size_t> counts;
    for (const PlacedPage& page : paginate(flow, height))
        counts.push_back(page.size());
    return counts;
}

vh::Step stepOf(std::vector<Round> rounds)
{
    vh::Step step;
    step.text = "Row";
    step.rounds = std::move(rounds);
    return step;
}

Round roundOf(std::initializer_list<TurnKind> kinds, bool moreVoice = false)
{
    Round round;
    round.moreVoice = moreVoice;
    for (const TurnKind kind : kinds)
        round.turns.push_back({kind, Millis{2000}});
    return round;
}

QString saidOf(const std::string& language, std::vector<Round> rounds)
{
    const HandoutWords& words = wordsFor({}, language);
    const Times times = timesOf(stepOf(std::move(rounds)));
    return (howOften(words, times) + ' ' + whoSays(words, times)).trimmed();
}

} // namespace

class TestHandoutParts : public QObject
{
    Q_OBJECT
private slots:
    void aBlockThatFitsIsNotBroken()
    {
        using Counts = std::vector<std::size_t>;
        QCOMPARE(piecesPerPage({}, 100), Counts{0});
        QCOMPARE(piecesPerPage({blockOf({60}), blockOf({20, 30})}, 100), (Counts{1, 2}));
        QCOMPARE(piecesPerPage({blockOf({60}), blockOf({20, 20})}, 100), (Counts{3}));
        QCOMPARE(piecesPerPage({blockOf({60}), blockOf({20, 20}, 10)}, 100), (Counts{1, 2}));
    }

    void roomAboveABlockGoesAtTheTopOfAPage()
    {
        const Flow flow{blockOf({90}, 50), blockOf({90}, 50)};
        const auto pages = paginate(flow, 100);
        QCOMPARE(pages.size(), std::size_t(2));
        QCOMPARE(pages[0][0].top, 0.0);
        QCOMPARE(pages[1][0].top, 0.0);
    }

    void aHeadingStaysWithWhatFollows()
    {
        using Counts = std::vector<std::size_t>;
        QCOMPARE(piecesPerPage({blockOf({60}), blockOf({20}, 0, true), blockOf({30})}, 100), (Counts{1, 2}));
        QCOMPARE(piecesPerPage({blockOf({40}), blockOf({10}, 0, true), blockOf({10}, 0, true), blockOf({50})}, 100),
                 (Counts{1, 3}));
    }

    void whatIsLongerThanAPageIsBrokenBetweenItsLines()
    {
        using Counts = std::vector<std::size_t>;
        QCOMPARE(piecesPerPage({blockOf({40, 40, 40, 40, 40})}, 100), (Counts{2, 2, 1}));
        QCOMPARE(piecesPerPage({blockOf({150}), blockOf({10})}, 100), (Counts{1, 1})); // one piece of that height
    }

    void howOftenAndWhoIsSaidInPlainWords()
    {
        using enum TurnKind;
        QCOMPARE(saidOf("en", {roundOf({listen, ready, withMe}), roundOf({ready, yours}, true)}),
                 QString("Twice, the second time with more voice. First all together, then you alone."));
        QCOMPARE(saidOf("en", {roundOf({ready, yours}), roundOf({ready, yours}), roundOf({ready, yours}, true),
                               roundOf({ready, yours}, true)}),
                 QString("4 times, the last 2 times with more voice. You alone."));
        QCOMPARE(saidOf("en", {roundOf({ready, yours}, true), roundOf({ready, yours}), roundOf({ready, yours})}),
                 QString("3 times, 1 of them with more voice. You alone."));
        QCOMPARE(saidOf("en", {roundOf({listen}), roundOf({withMe})}), QString("All together."));
        QCOMPARE(saidOf("de", {roundOf({ready, yours}), roundOf({ready, yours}), roundOf({ready, yours}, true)}),
                 QString("3-mal, das letzte Mal mit mehr Stimme. Sie allein."));
        QCOMPARE(timesOf(stepOf({roundOf({listen})})).rounds, 0);
    }

    void everyLanguageHasAllItsWords()
    {
        for (const char* language : {"en", "de"}) {
            const HandoutWords& words = wordsFor({}, language);
            QCOMPARE(words.language, QString(language));
            QCOMPARE(words.cautions.size(), 3);
            QCOMPARE(words.kinds.size(), static_cast<int>(SectionKind::closing) + 1);
            for (const QString* each : {&words.minutes,
                                        &words.classIsIn,
                                        &words.beforeYouBegin,
                                        &words.thisWeek,
                                        &words.today,
                                        &words.howToRead,
                                        &words.holdSample,
                                        &words.holdMeans,
                                        &words.lineMeans,
                                        &words.timesMean,
                                        &words.once,
                                        &words.twice,
                                        &words.times,
                                        &words.secondMoreVoice,
                                        &words.lastMoreVoice,
                                        &words.lastsMoreVoice,
                                        &words.moreVoice,
                                        &words.someMoreVoice,
                                        &words.together,
                                        &words.alone,
                                        &words.togetherThenAlone,
                                        &words.picture,
                                        &words.page,
                                        &words.paperScript,
                                        &words.whenLineDies,
                                        &words.length,
                                        &words.listen,
                                        &words.ready,
                                        &words.withMe,
                                        &words.yours,
                                        &words.shortMoreVoice,
                                        &words.leaveOut,
                                        &words.dearnessMeans,
                                        &words.ends})
                QVERIFY(!each->isEmpty());
        }
        QCOMPARE(wordsFor("de", "en").language, QString("de"));
        QCOMPARE(wordsFor("xx", "de-CH").language, QString("de"));
        QCOMPARE(wordsFor({}, "sw").language, QString("en"));
    }

    void fileNamesAreFitForEverySystem()
    {
        QCOMPARE(paperName("The harbour in the mist", QDate(2025, 5, 14), "handout"),
                 QString("2025-05-14 The harbour in the mist - handout.pdf"));
        QCOMPARE(paperName("../../etc/\u202Epasswd: <a>|*?\"", {}, "handout"), QString("etc passwd a - handout.pdf"));
        QCOMPARE(paperName("...", {}, "handout"), QString("- handout.pdf"));
        QVERIFY(paperName(QString(500, QChar('x')), {}, "handout").size() < 120);
    }

    void aPaperIsSavedWholeAndReplacesTheOneBefore()
    {
        QTemporaryDir folder;
        const QString below = folder.filePath("papers"); // made if need be
        QCOMPARE(savePaper(below, "a.pdf", "one").value(), QDir(below).filePath("a.pdf"));
        QVERIFY(savePaper(below, "a.pdf", "two").has_value());
        QFile file(QDir(below).filePath("a.pdf"));
        QVERIFY(file.open(QIODevice::ReadOnly));
        QCOMPARE(file.readAll(), QByteArray("two"));
        QCOMPARE(savePaper(folder.filePath("no/such"), "a.pdf", "x").error().code, std::string("folder-missing"));
        QVERIFY(QDir(folder.path()).mkdir("a.pdf")); // in the way
        QCOMPARE(savePaper(folder.path(), "a.pdf", "x").error().code, std::string("not-saved"));
        const QString full = QStringLiteral("/dev/full");
        if (QFile::exists(full)) // a device on which everything is full, in place of the file
            QCOMPARE(savePaper("/dev/full", "a.pdf", "x").error().code, std::string("folder-missing"));
    }

    void papersGoBesideTheClassWhereThatCanBeWritten()
    {
        QTemporaryDir folder;
        QCOMPARE(folderForPapers(folder.path()), folder.path());
        QVERIFY(folderForPapers(folder.filePath("gone")) != folder.filePath("gone"));
        QVERIFY(!folderForPapers({}).isEmpty());
    }

    void whatIsNoFileOfOursIsLeftAsItIs()
    {
        QVERIFY(!PdfObjects::take("no pdf"));
        QVERIFY(!PdfObjects::take("%PDF-1.4\nstartxref\n9999999\n%%EOF"));
        QVERIFY(!PdfObjects::take("%PDF-1.4\nxref\n0 1\nstartxref\n9\n%%EOF"));
        QVERIFY(!withExtras("%PDF-1.4", {}));
    }
};

int main(int count, char** words)
{
    QGuiApplication app(count, words);
    TestHandoutParts test;
    return QTest::qExec(&test, count, words);
}
#include "test_handout_parts.moc"
