// The handout as a printer and a screen reader get it: size of the paper, of the letters, of the margins; every word
// once and in order; the language; pictures as drawings. Looked at with poppler's tools.
#include "app/handout/handout.h"
#include "app/handout/handout_words.h"
#include "common/script/reader.h"
#include "tests/app/handout/printed.h"

#include <QDir>
#include <QFile>
#include <QImage>
#include <QPainter>
#include <QTest>

using namespace vh;
using namespace vh::handout;
using vh::testing::flat;
using vh::testing::Printed;

namespace
{

const QString kClasses = QStringLiteral(VH_SOURCE_DIR "/content/classes");

ClassScript classFrom(const QString& name)
{
    QFile file(kClasses + QLatin1Char('/') + name);
    if (!file.open(QIODevice::ReadOnly))
        qFatal("no such class");
    return readClassScript(file.readAll().toStdString(), name.toStdString()).value();
}

HandoutOptions options(Paper paper)
{
    HandoutOptions made;
    made.paper = paper;
    made.group = "Lakeside voices";
    made.date = QDate(2025, 5, 14);
    made.week = {{"Monday", "A morning at the lakeside plots", false}, {"Tuesday", "Bread before dawn", true}};
    return made;
}

QByteArray handoutOf(const ClassScript& script, const HandoutOptions& with, const QString& folder = kClasses)
{
    const auto pdf = handoutPdf(script, folder, with);
    if (!pdf)
        throw std::runtime_error(pdf.error().message);
    return *pdf;
}

/// Everything in the script that people are to read, in its order.
QStringList wordsIn(const ClassScript& script)
{
    QStringList all;
    for (const Section& section : script.sections) {
        all << flat(QString::fromStdString(section.title));
        for (const vh::Step& step : section.steps) {
            if (step.picture)
                all << flat(QString::fromStdString(step.picture->description));
            if (!step.text.empty())
                all << flat(QString::fromStdString(step.text));
        }
    }
    return all;
}

/// Without the feet of the pages, which stand between the words of a step that goes on.
QString withoutFeet(QString text, const ClassScript& script, const HandoutWords& words, int pages)
{
    for (int page = 1; page <= pages; ++page) {
        const QString number = flat(words.page.arg(page).arg(pages));
        text.replace(flat(QString::fromStdString(script.title)) + ' ' + number, QString());
        text.replace(number, QString());
    }
    return flat(text);
}

} // namespace

class TestHandoutPdf : public QObject
{
    Q_OBJECT
private slots:
    void everyShippedClassIsPrintedWholeAndInOrder_data()
    {
        QTest::addColumn<QString>("name");
        for (const QString& name : QDir(kClasses).entryList({"*.yaml"}, QDir::Files))
            QTest::addRow("%s", qPrintable(name)) << name;
    }
    void everyShippedClassIsPrintedWholeAndInOrder()
    {
        QFETCH(QString, name);
        const ClassScript script = classFrom(name);
        const auto& words = wordsFor({}, script.language);
        const HandoutOptions with = options(name < "l" ? Paper::a4 : Paper::letter); // either paper for some
        const Printed printed(handoutOf(script, with));
        QString text = printed.text();
        const int pages = flat(text).count(words.page.section(QLatin1Char('%'), 0, 0));
        text = withoutFeet(text, script, words, pages);
        qsizetype at = 0;
        for (const QString& each : wordsIn(script)) {
            const qsizetype found = text.indexOf(each, at);
            QVERIFY2(found >= 0, qPrintable("not there, or not in its order: " + each));
            at = found + each.size();
        }
        for (const QString& caution : words.cautions)
            QCOMPARE(text.count(flat(caution)), 1);
        QVERIFY(!text.contains(QChar(0xFFFD)));
    }

    void everySentenceStandsThereOnce()
    {
        const ClassScript script = classFrom("harbour-in-the-mist.yaml");
        const Printed printed(handoutOf(script, options(Paper::a4)));
        const QString text = withoutFeet(printed.text(), script, wordsFor({}, "en"), printed.pages());
        for (const Section& section : script.sections)
            for (const vh::Step& step : section.steps)
                if (step.text.size() > 20)
                    QCOMPARE(text.count(flat(QString::fromStdString(step.text))), 1);
        QCOMPARE(text.count("A morning at the lakeside plots"), 1);
        QCOMPARE(text.count("Tuesday, today"), 1);
    }

    void thePaperIsExactlyThatOfThePrinter_data()
    {
        QTest::addColumn<int>("paper");
        QTest::addColumn<QString>("size");
        QTest::newRow("A4") << int(Paper::a4) << "595 x 842 pts (A4)";
        QTest::newRow("Letter") << int(Paper::letter) << "612 x 792 pts (letter)";
    }
    void thePaperIsExactlyThatOfThePrinter()
    {
        QFETCH(int, paper);
        QFETCH(QString, size);
        const Printed printed(handoutOf(classFrom("lakeside-plots.yaml"), options(static_cast<Paper>(paper))));
        QCOMPARE(printed.info("Page size"), size);
        QCOMPARE(printed.info("Title"), QString("A morning at the lakeside plots"));
        QCOMPARE(printed.info("Tagged"), QString("yes"));
    }

    void noLetterIsSmallerThanEighteenPoints()
    {
        for (const char* name : {"lakeside-plots.yaml", "uhrenwerkstatt.yaml"}) {
            const QList<double> sizes = Printed(handoutOf(classFrom(name), options(Paper::a4))).fontSizes();
            QVERIFY(sizes.size() >= 4); // a page has sizes that can be told apart
            for (const double size : sizes)
                QVERIFY2(size >= 18, qPrintable(QString::number(size)));
        }
    }

    void theTypefaceIsInTheFileAndNoOtherIsNeeded()
    {
        for (const char* name : {"lakeside-plots.yaml", "uhrenwerkstatt.yaml", "soup-pots.yaml"}) {
            const QStringList fonts = Printed(handoutOf(classFrom(name), options(Paper::a4))).fonts();
            QCOMPARE(fonts.size(), 2);
            for (const QString& font : fonts) {
                QVERIFY2(font.startsWith("Andika"), qPrintable(font));
                const QStringList columns = font.simplified().split(' '); // ... encoding emb sub uni object ID
                QCOMPARE(columns[columns.size() - 5], QString("yes"));    // embedded
                QCOMPARE(columns[columns.size() - 3], QString("yes"));    // says which letters it draws
            }
        }
    }

    /// Printers leave an edge white; ours is 12 mm at least.
    void nothingIsPrintedOnTheEdge()
    {
        constexpr int kDpi = 40;
        constexpr int kEdge = static_cast<int>(12 / 25.4 * kDpi);
        for (const auto paper : {Paper::a4, Paper::letter}) {
            const QList<QImage> pages =
                Printed(handoutOf(classFrom("lakeside-plots.yaml"), options(paper))).allPages(kDpi);
            QVERIFY(pages.size() > 5);
            for (const QImage& page : pages) {
                const QRect inside = page.rect().adjusted(kEdge, kEdge, -kEdge, -kEdge);
                int inked = 0;
                for (int y = 0; y < page.height(); ++y)
                    for (int x = 0; x < page.width(); ++x)
                        if (qGray(page.pixel(x, y)) < 250) {
                            QVERIFY2(inside.contains(x, y), qPrintable(QString("at %1, %2").arg(x).arg(y)));
                            ++inked;
                        }
                QVERIFY(inked > 0);
            }
        }
    }

    /// Without colour too: letters are dark, and the bars below them.
    void aBlackPrinterIsEnough()
    {
        ClassScript script = classFrom("harbour-in-the-mist.yaml");
        script.sections.resize(3);
        script.sections.erase(script.sections.begin(), script.sections.begin() + 2); // long vowels only
        const Printed printed(handoutOf(script, options(Paper::a4)));
        for (const QRgb ink : {0xFF1C2230, 0xFF434B5B, 0xFF123F4F})
            QVERIFY(qGray(ink) < 110); // of 255: darker than the middle by far
        const QImage page = printed.page(printed.pages(), 72, {"-mono"});
        int black = 0;
        for (int y = 0; y < page.height(); ++y)
            for (int x = 0; x < page.width(); ++x)
                black += qGray(page.pixel(x, y)) < 128 ? 1 : 0;
        QVERIFY(black > 1000);
    }

    void aScreenReaderMeetsHeadingsParagraphsAndPicturesInOrder()
    {
        const ClassScript script = classFrom("harbour-in-the-mist.yaml");
        const QString structure = Printed(handoutOf(script, options(Paper::a4))).structure();
        QCOMPARE(structure.count("H1 (block)"), 1);
        int headings = 3; // before you begin, this week, how to read
        int pictures = 0;
        for (const Section& section : script.sections) {
            headings += section.kind == SectionKind::pause ? 0 : 1;
            for (const vh::Step& step : section.steps)
                pictures += step.picture ? 1 : 0;
        }
        QCOMPARE(structure.count("H2 (block)"), headings);
        QCOMPARE(structure.count("Figure:"), pictures);
        QCOMPARE(structure.count("  Caption\n"), pictures);
        QVERIFY(structure.indexOf("H1") < structure.indexOf("H2"));
        QVERIFY(!structure.contains(QLatin1Char('\t'))); // spaces are spaces
        QVERIFY(!structure.contains("Page 2 of"));       // the feet are for the eye only
    }

    void theFileSaysItsLanguageAndWhatIsInIt()
    {
        const QByteArray pdf = handoutOf(classFrom("uhrenwerkstatt.yaml"), options(Paper::a4));
        QVERIFY(pdf.contains("/Lang <FEFF00640065>")); // "de"
        QVERIFY(pdf.contains("/ViewerPreferences <</DisplayDocTitle true>>"));
        QVERIFY(pdf.contains("/Outlines"));
        QVERIFY(pdf.contains("<rdf:li>de</rdf:li>"));
        QVERIFY(Printed(pdf).text().contains("Bevor Sie anfangen"));
    }

    void aClassInAnotherLanguageHasEnglishWordsAndSaysWhichItIs()
    {
        ClassScript script = classFrom("harbour-in-the-mist.yaml");
        script.language = "fr-CA";
        const QString text = Printed(handoutOf(script, options(Paper::a4))).text();
        QVERIFY(text.contains("The class itself is in French."));
        QVERIFY(text.contains("Before you begin"));
        HandoutOptions german = options(Paper::a4);
        german.words = "de-AT"; // a group's own wish
        const QString inGerman = Printed(handoutOf(script, german)).text();
        QVERIFY(inGerman.contains("Bevor Sie anfangen"));
    }

    void theSameClassOnTheSameDayIsTheSameFile()
    {
        const ClassScript script = classFrom("harbour-in-the-mist.yaml");
        const QByteArray once = handoutOf(script, options(Paper::a4));
        QVERIFY(once == handoutOf(script, options(Paper::a4)));
        HandoutOptions later = options(Paper::a4);
        later.date = QDate(2025, 5, 15);
        QVERIFY(once != handoutOf(script, later));
        QVERIFY(Printed(once).info("CreationDate").contains("May 14 12:00:00 2025"));
    }

    void drawingsStayDrawingsAndPhotographsComeAtPrintResolution()
    {
        QVERIFY(Printed(handoutOf(classFrom("harbour-in-the-mist.yaml"), options(Paper::a4))).images().isEmpty());
        QTemporaryDir folder;
        QImage photo(4000, 2500, QImage::Format_RGB32);
        photo.fill(Qt::lightGray);
        QVERIFY(photo.save(folder.filePath("photo.png")));
        ClassScript script = classFrom("harbour-in-the-mist.yaml");
        script.sections.resize(1);
        script.sections[0].steps[0].picture->file = "photo.png";
        const QStringList images = Printed(handoutOf(script, options(Paper::a4), folder.path())).images();
        QCOMPARE(images.size(), 1);
        const QStringList columns = images[0].simplified().split(' ');
        const int dpi = columns[12].toInt(); // x-ppi
        QVERIFY2(dpi >= 295 && dpi <= 305, qPrintable(images[0]));
    }

    void aPictureThatIsNotThereLeavesItsDescription()
    {
        ClassScript script = classFrom("harbour-in-the-mist.yaml");
        const auto before = Printed(handoutOf(script, options(Paper::a4))).structure();
        const Printed without(handoutOf(script, options(Paper::a4), "/nowhere"));
        QVERIFY(!without.structure().contains("Figure"));
        QVERIFY(without.text().contains("Two fishing boats lie at a stone quay"));
        QVERIFY(before.contains("Figure"));
    }

    void aStepIsNotBrokenOverPages()
    {
        const ClassScript script = classFrom("lakeside-plots.yaml");
        const Printed printed(handoutOf(script, options(Paper::letter)));
        const auto& words = wordsFor({}, "en");
        const QString text = printed.text(); // with the feet, which stand between pages
        for (const QString& each : wordsIn(script))
            QVERIFY2(text.contains(each), qPrintable("broken by a foot: " + each));
        QVERIFY(text.contains(flat(words.page.arg(2).arg(printed.pages()))));
    }

    void aTextLongerThanAPageGoesOnOnTheNext()
    {
        ClassScript script = classFrom("harbour-in-the-mist.yaml");
        script.sections.resize(1);
        std::string longText;
        for (int i = 0; i < 60; ++i)
            longText += "Row number " + std::to_string(i) + " of a text.\n";
        script.sections[0].steps[0].text = longText + "Last.";
        script.sections[0].steps[0].rounds = {{false, {{TurnKind::yours, Millis{5000}}}}};
        const Printed printed(handoutOf(script, options(Paper::a4)));
        const QString text = withoutFeet(printed.text(), script, wordsFor({}, "en"), printed.pages());
        QVERIFY(text.contains("Row number 59 of a text. Last."));
        QVERIFY(printed.pages() >= 4);
    }

    void aClassAtItsLimitsIsPrintedAndTaggedToo()
    {
        ClassScript script = classFrom("harbour-in-the-mist.yaml");
        script.title = std::string(110, 'T') + " title";
        Section section = script.sections[1];
        section.steps.resize(1);
        section.steps[0].text = std::string(150, 'x'); // one word, wider than the paper
        section.steps[0].stretches.clear();
        section.steps.resize(40, section.steps[0]);
        script.sections.assign(10, section); // 400 steps
        const Printed printed(handoutOf(script, options(Paper::a4)));
        QCOMPARE(printed.info("Tagged"), QString("yes"));
        QVERIFY(printed.pages() > 50);
        int words = 0;
        const QString text = printed.text().remove(' ').remove('\n');
        for (auto each = QRegularExpression("x{150}").globalMatch(text); each.hasNext(); each.next())
            ++words;
        QCOMPARE(words, 400);
    }

    void paperFollowsTheCountry()
    {
        QCOMPARE(paperOf(QLocale("en_US")), Paper::letter);
        QCOMPARE(paperOf(QLocale("es_MX")), Paper::letter);
        QCOMPARE(paperOf(QLocale("en_GB")), Paper::a4);
        QCOMPARE(paperOf(QLocale("de_DE")), Paper::a4);
        QCOMPARE(paperOf(QLocale("ja_JP")), Paper::a4);
    }
};

int main(int count, char** words)
{
    QGuiApplication app(count, words);
    TestHandoutPdf test;
    return QTest::qExec(&test, count, words);
}
#include "test_handout_pdf.moc"
