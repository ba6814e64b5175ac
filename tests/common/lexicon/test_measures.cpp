// What is counted in a text. Readability: worked examples as encyclopaedias and the formulas' authors print them.
#include "common/lexicon/measures.h"

#include <QtTest>

using namespace vh::lexicon;

class TestMeasures : public QObject
{
    Q_OBJECT

    static QString stretched(QString text)
    {
        const std::string plain = text.toStdString();
        const auto ranges = stretchable(plain, english());
        std::string out;
        std::size_t at = 0;
        for (const LetterRange& range : ranges) {
            out += plain.substr(at, range.begin - at) + "<" + plain.substr(range.begin, range.end - range.begin) + ">";
            at = range.end;
        }
        return QString::fromStdString(out + plain.substr(at));
    }

private slots:
    void readabilityIsThatOfPublishedExamples_data()
    {
        QTest::addColumn<QString>("text");
        QTest::addColumn<int>("words");
        QTest::addColumn<int>("syllables");
        QTest::addColumn<double>("ease");
        QTest::addColumn<double>("grade");
        // The encyclopaedia's article on the Flesch-Kincaid tests: 37.5 and 11.3; the second and third likewise.
        QTest::newRow("platypus") << "The Australian platypus is seemingly a hybrid of a mammal and reptilian creature."
                                  << 13 << 24 << 37.455 << 11.265;
        QTest::newRow("cat") << "The cat sat on the mat." << 6 << 6 << 116.145 << -1.45;
        QTest::newRow("passage")
            << "This sentence, taken as a reading passage unto itself, is being used to prove a point." << 16 << 23
            << 68.983 << 7.613;
    }
    void readabilityIsThatOfPublishedExamples()
    {
        QFETCH(QString, text);
        const TextMeasures found = measure(text.toStdString(), english());
        QTEST(found.words, "words");
        QTEST(found.syllables, "syllables");
        QFETCH(double, ease);
        QFETCH(double, grade);
        QVERIFY2(std::abs(found.readingEase - ease) < 0.005, qPrintable(QString::number(found.readingEase)));
        QVERIFY2(std::abs(found.gradeLevel - grade) < 0.005, qPrintable(QString::number(found.gradeLevel)));
    }

    void emptyTextHasNothingInIt()
    {
        const TextMeasures found = measure("", english());
        QCOMPARE(found.words + found.syllables + found.sentences, 0);
        QCOMPARE(found.readingEase, 0.0);
    }

    void soundsOfTheBackOfTheTongueAreFoundWhereTheyAre()
    {
        const auto sounds = backSounds("King gong, sky", english());
        QCOMPARE(sounds.size(), std::size_t(5)); // k ng, g ng, k
        QVERIFY(sounds[0].phone == Phone::k && sounds[0].where == Where::begins && sounds[0].word == 0);
        QVERIFY(sounds[1].phone == Phone::ng && sounds[1].where == Where::ends);
        QVERIFY(sounds[4].phone == Phone::k && sounds[4].where == Where::inside && sounds[4].word == 2);
        QCOMPARE(measure("King gong, sky", english()).backOfTongue, 5);
        QVERIFY(backSounds("Knight", english()).empty()); // written, not said
    }

    void theVowelsWorthStretchingAreTheStressedLongOnes()
    {
        QCOMPARE(stretched("The boat goes home"), QStringLiteral("The b<oa>t g<oe>s h<o>me"));
        QCOMPARE(stretched("A little window"), QStringLiteral("A little window")); // short vowels
        QCOMPARE(stretched("below the garden"), QStringLiteral("bel<o>w the g<a>rden"));
        QCOMPARE(stretched("We were there"), QStringLiteral("We were there")); // little words
    }

    void timeIsSyllablesAndPauses()
    {
        const double plain = speakingSeconds("the cat sat on the mat", english(), 2, 0.5);
        QCOMPARE(plain, 3.0);
        QCOMPARE(speakingSeconds("the cat sat, on the mat.", english(), 2, 0.5), 3.5);
        QCOMPARE(speakingSeconds("", english(), 2, 0.5), 0.0);
    }
};

QTEST_APPLESS_MAIN(TestMeasures)
#include "test_measures.moc"
