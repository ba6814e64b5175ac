// The phrase of a step: as large as fits, whole, broken well, and bars under just the letters to stretch.
#include "app/look/look.h"
#include "app/widgets/fitted_text.h"
#include "common/script/reader.h"

#include <QApplication>
#include <QDirIterator>
#include <QPainter>
#include <QTextLayout>
#include <QtTest>

using namespace vh;

namespace
{

const std::string kLoaf = "The loaf comes out golden and warm.";

FittedText::State stateOf(std::string text, std::vector<Stretch> stretches = {})
{
    FittedText::State state;
    state.text = std::move(text);
    state.stretches = std::move(stretches);
    return state;
}

std::unique_ptr<FittedText> shown(const FittedText::State& state, QSize size)
{
    auto widget = std::make_unique<FittedText>();
    widget->setState(state);
    widget->resize(size);
    widget->show();
    QApplication::processEvents();
    return widget;
}

/// The ink of a widget painted on a field larger than itself: what lies outside would be clipped on a screen.
QRect inkOf(FittedText& widget, int margin)
{
    QImage field(widget.size() + QSize(2 * margin, 2 * margin), QImage::Format_ARGB32);
    field.fill(Qt::transparent);
    QPainter painter(&field);
    const FittedLines& lines = widget.lines();
    painter.setFont(look::fontOfPixels(lines.pixelSize));
    for (int i = 0; i < lines.lines.size(); ++i)
        painter.drawText(QPointF(margin, margin + lines.ascent + i * lines.lineHeight), lines.lines[i]);
    painter.end();
    QRect ink;
    for (int y = 0; y < field.height(); ++y) {
        for (int x = 0; x < field.width(); ++x) {
            if (qAlpha(field.pixel(x, y)) > 40)
                ink = ink.united(QRect(x - margin, y - margin, 1, 1));
        }
    }
    return ink;
}

} // namespace

class TestFittedText : public QObject
{
    Q_OBJECT
private slots:
    void initTestCase() { QVERIFY(look::Look{}.applyTo(*qApp)); }

    void textIsWholeAndNeverTooSmallOnTheSmallestScreen_data()
    {
        QTest::addColumn<QString>("text");
        QTest::newRow("a vowel") << "ah";
        QTest::newRow("a phrase") << QString::fromStdString(kLoaf);
        QTest::newRow("accents and descenders")
            << QStringLiteral("\u00C5ngstr\u00F6m, \u00C9tienne, \u0104g\u00FCe: jolly gypsy");
        QTest::newRow("two sentences") << "My grandmother kept her best recipes in a tin on the shelf above the stove. "
                                          "She never once measured the flour.";
        QTest::newRow("a passage")
            << "Every Saturday the baker on the corner opens at six. By then the street smells of "
               "rye and caraway, and people stand in a line that reaches the fountain, talking "
               "quietly about the weather.";
        QTest::newRow("one long word") << "Donaudampfschifffahrtsgesellschaftskapit\u00E4nsm\u00FCtzenabzeichen";
        QTest::newRow("forced lines") << "one\ntwo\nthree";
    }
    void textIsWholeAndNeverTooSmallOnTheSmallestScreen()
    {
        QFETCH(QString, text);
        // What is left of 1366x768 for the text once bars, cue, meter and controls have theirs.
        const auto widget = shown(stateOf(text.toStdString()), {1240, 290});
        const FittedLines& lines = widget->lines();
        QVERIFY(lines.fits);
        QVERIFY(lines.pixelSize >= look::kSmallestClassText);
        QVERIFY(lines.width <= widget->width());
        QVERIFY(lines.height <= widget->height());
        const QRect ink = inkOf(*widget, 60);
        QVERIFY(!ink.isEmpty());
        QVERIFY2(ink.top() >= 0 && ink.bottom() < widget->height() && ink.right() <= widget->width(),
                 qPrintable(QStringLiteral("%1 %2 %3").arg(ink.top()).arg(ink.bottom()).arg(ink.right())));
        // Whole: every letter is on some line.
        QString joined = lines.lines.join("");
        QCOMPARE(joined.remove(' '), QString(text).remove(' ').remove('\n'));
    }

    void largerRoomsMakeLargerText()
    {
        const FitLimits limits;
        int last = 0;
        for (const double scale : {0.5, 0.75, 1.0}) {
            const FittedLines lines = fitText(QString::fromStdString(kLoaf), QSizeF(800 * scale, 300 * scale), limits);
            QVERIFY(lines.pixelSize > last);
            last = lines.pixelSize;
        }
    }

    void theSizeIsNearlyTheLargestThatFits()
    {
        // At a fifth more, at the least, no way of breaking would fit: so little is given up for good breaks.
        const QString text = QString::fromStdString(kLoaf);
        const QSizeF room(760, 300);
        const FittedLines lines = fitText(text, room, {});
        FitLimits larger;
        larger.smallest = lines.pixelSize * 13 / 10;
        larger.largest = larger.smallest;
        QVERIFY(!fitText(text, room, larger).fits);
    }

    void phrasesBreakWhereItIsNatural()
    {
        const FittedLines loaf = fitText(QString::fromStdString(kLoaf), QSizeF(1240, 290), {});
        QCOMPARE(loaf.lines, (QStringList{"The loaf comes out golden", "and warm."}));
        const FittedLines comma = fitText("When the rain stops, we walk to the market.", QSizeF(900, 290), {});
        QCOMPARE(comma.lines.first(), QStringLiteral("When the rain stops,"));
    }

    void noPhraseOfTheClassesThatShipIsBrokenInsideAGroupOfWords()
    {
        // Between an article, a preposition or the like and what it belongs to: never, where there is another way.
        static const QStringList kLeaning{"a",     "an",    "the", "my",   "your", "his", "her", "our",
                                          "their", "every", "of",  "to",   "in",   "on",  "at",  "with",
                                          "from",  "for",   "by",  "into", "and",  "or",  "but", "across",
                                          "over",  "under", "is",  "are",  "was"};
        int broken = 0;
        QDirIterator files(QStringLiteral(VH_SOURCE_DIR "/content/classes"), {"*.yaml"}, QDir::Files);
        while (files.hasNext()) {
            QFile file(files.next());
            QVERIFY(file.open(QIODevice::ReadOnly));
            const auto script = readClassScript(file.readAll().toStdString(), file.fileName().toStdString());
            QVERIFY2(script.has_value(), qPrintable(file.fileName()));
            for (const Section& section : script->sections) {
                for (const Step& step : section.steps) {
                    for (const QSizeF room :
                         {QSizeF(1234, 215), QSizeF(840, 215), QSizeF(1234, 150), QSizeF(1780, 560)}) {
                        FitLimits limits;
                        limits.largest = 132;
                        const FittedLines lines = fitText(QString::fromStdString(step.text), room, limits);
                        for (qsizetype i = 0; lines.fits && i + 1 < lines.lines.size(); ++i) {
                            ++broken;
                            const QString last = lines.lines[i].split(' ').last().toLower();
                            QVERIFY2(!kLeaning.contains(last), qPrintable(lines.lines.join(" | ")));
                        }
                    }
                }
            }
        }
        QVERIFY(broken > 20);
    }

    void textThatCannotFitKeepsItsSizeAndAsksForHeight()
    {
        std::string text;
        for (int i = 0; i < 60; ++i)
            text += "bread and butter ";
        const auto widget = shown(stateOf(text), {400, 200});
        QVERIFY(!widget->lines().fits);
        QCOMPARE(widget->lines().pixelSize, look::kSmallestClassText);
        const int wanted = widget->heightForWidth(400);
        QVERIFY(wanted > 200);
        widget->resize(400, wanted);
        QVERIFY(widget->lines().fits);
    }

    void barsStandUnderJustTheirLetters()
    {
        // "oa" of loaf, "o" of golden, "a" of warm.
        const auto widget = shown(stateOf(kLoaf, {{5, 7}, {20, 21}, {31, 32}}), {760, 300});
        const FittedLines& lines = widget->lines();
        QCOMPARE(widget->bars().size(), 3);
        const QString text = QString::fromStdString(kLoaf);
        const std::vector<std::pair<int, int>> letters{{5, 7}, {20, 21}, {31, 32}};
        for (std::size_t i = 0; i < letters.size(); ++i) {
            const auto [begin, end] = letters[i];
            int line = static_cast<int>(lines.starts.size()) - 1;
            while (lines.starts[line] > begin)
                --line;
            // Where Qt's own layout puts the cursor before and after these letters.
            QTextLayout layout(lines.lines[line], look::fontOfPixels(lines.pixelSize));
            layout.beginLayout();
            QTextLine shaped = layout.createLine();
            shaped.setLineWidth(1e6);
            layout.endLayout();
            const QRectF bar = widget->bars()[static_cast<int>(i)];
            QCOMPARE(bar.left(), shaped.cursorToX(begin - lines.starts[line]));
            QCOMPARE(bar.right(), shaped.cursorToX(end - lines.starts[line]));
            QVERIFY(bar.width() > 10);
        }
    }

    void barsAreClearOfDescendersAndOfTheNextLine()
    {
        const auto widget = shown(stateOf("gypsy joy\npuppy \u00C5gyl", {{0, 9}}), {700, 300});
        const FittedLines& lines = widget->lines();
        const QFontMetricsF metrics(look::fontOfPixels(lines.pixelSize));
        const QRectF bar = widget->bars().first();
        const double top = (widget->height() - lines.height) / 2;
        const double baseline = top + lines.ascent;
        QVERIFY(bar.top() >= baseline + metrics.tightBoundingRect("gypsyj").bottom());
        QVERIFY(bar.bottom() <
                baseline + lines.lineHeight + metrics.tightBoundingRect(QStringLiteral("\u00C5l")).top());
        QVERIFY(widget->bars().first().bottom() <= widget->height());
    }

    void aStretchAcrossABreakGetsABarOnEachLine()
    {
        const auto widget = shown(stateOf("oh\noh", {{0, 5}}), {600, 300});
        QCOMPARE(widget->bars().size(), 2);
    }

    void markupIsShownAsItIsWritten()
    {
        const auto widget = shown(stateOf("<b>bread</b> &amp; butter"), {1000, 200});
        QCOMPARE(widget->lines().lines.join(' '), QStringLiteral("<b>bread</b> &amp; butter"));
        QCOMPARE(widget->accessibleName(), QStringLiteral("<b>bread</b> &amp; butter"));
    }

    void whatIsTooLongEvenThenIsSmallerRatherThanCut()
    {
        std::string text;
        for (int i = 0; i < 30; ++i)
            text += "bread and butter ";
        FittedText::State state = stateOf(text);
        state.limits.whole = 20;
        const auto widget = shown(state, {700, 300});
        QVERIFY(widget->lines().fits);
        QVERIFY(widget->lines().pixelSize < look::kSmallestClassText && widget->lines().pixelSize >= 20);
        state.text = "bread and butter";
        widget->setState(state);
        QVERIFY(widget->lines().pixelSize >= look::kSmallestClassText);
    }

    void nothingToSayIsNothingToPaint()
    {
        const auto widget = shown(stateOf(""), {300, 100});
        QVERIFY(widget->lines().lines.isEmpty());
        QVERIFY(widget->bars().isEmpty());
        const auto spaces = shown(stateOf(" \n \t"), {300, 100});
        QVERIFY(spaces->lines().lines.isEmpty());
    }
};

QTEST_MAIN(TestFittedText)
#include "test_fitted_text.moc"
