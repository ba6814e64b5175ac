// Words, numbers and sentences of a text.
#include "common/lexicon/numbers.h"
#include "common/lexicon/text_words.h"

#include <QtTest>

using namespace vh::lexicon;

class TestTextWords : public QObject
{
    Q_OBJECT

    static QString spoken(const char* text)
    {
        QStringList words;
        for (const TextWord& word : wordsOf(text))
            for (const std::string& each : word.spoken)
                words << QString::fromStdString(each);
        return words.join(' ');
    }

    static QString read(const char* digits)
    {
        QStringList words;
        for (const std::string& word : readOut(digits))
            words << QString::fromStdString(word);
        return words.join(' ');
    }

    static int sentences(const char* text) { return static_cast<int>(sentencesOf(text).size()); }

private slots:
    void wordsAreLettersAndApostrophesInside()
    {
        QCOMPARE(spoken("Don't say 'no' to the well-kept café!"), QStringLiteral("don't say no to the well kept cafe"));
        QCOMPARE(spoken("It’s Ærø’s œuvre, Straße"), QStringLiteral("it's aero's oeuvre strasse"));
        QCOMPARE(spoken("Łódź … Škoda"), QStringLiteral("lodz skoda"));
        QCOMPARE(spoken("Привет 你好 --- 'n' "), QStringLiteral("n"));
        QCOMPARE(spoken(""), QString());
    }

    void placesAreThoseOfTheText()
    {
        const std::string text = "Oh, café 12!";
        const auto words = wordsOf(text);
        QCOMPARE(words.size(), std::size_t(3));
        QCOMPARE(text.substr(words[1].begin, words[1].end - words[1].begin), std::string("café"));
        QCOMPARE(text.substr(words[2].begin, words[2].end - words[2].begin), std::string("12"));
    }

    void numbersAreReadOut()
    {
        QCOMPARE(read("0"), QStringLiteral("zero"));
        QCOMPARE(read("13"), QStringLiteral("thirteen"));
        QCOMPARE(read("40"), QStringLiteral("forty"));
        QCOMPARE(read("42"), QStringLiteral("forty two"));
        QCOMPARE(read("300"), QStringLiteral("three hundred"));
        QCOMPARE(read("305"), QStringLiteral("three hundred and five"));
        QCOMPARE(read("1905"), QStringLiteral("nineteen oh five"));
        QCOMPARE(read("1900"), QStringLiteral("nineteen hundred"));
        QCOMPARE(read("2000"), QStringLiteral("two thousand"));
        QCOMPARE(read("2024"), QStringLiteral("twenty twenty four"));
        QCOMPARE(read("12500"), QStringLiteral("twelve thousand five hundred"));
        QCOMPARE(read("007"), QStringLiteral("zero zero seven"));
        QCOMPARE(read("5551234"), QStringLiteral("five five five one two three four"));
        QCOMPARE(spoken("12,500 eggs, 3, 4"), QStringLiteral("twelve thousand five hundred eggs three four"));
    }

    void sentencesEndWhereTheyEnd()
    {
        QCOMPARE(sentences("The kettle sings. Is it ready? Yes!"), 3);
        QCOMPARE(sentences("No end"), 1);
        QCOMPARE(sentences("Wait... what?!"), 2);
        QCOMPARE(sentences("It is 3.5 miles to J. Abel's."), 1);
        QCOMPARE(sentences("So am I. And you?"), 2);
        QCOMPARE(sentences("One line\n\nanother"), 2);
        QCOMPARE(sentences("One line\nthat goes on"), 1);
        QCOMPARE(sentences("..."), 0);
    }

    void noBytesBreakIt()
    {
        const std::string stray = "a\xC3 b\xE2\x82 \xF0\x9F\xA5\x9D c\xFF";
        for (const TextWord& word : wordsOf(stray)) {
            QVERIFY(word.begin < word.end && word.end <= stray.size());
            QVERIFY(!word.spoken.empty());
        }
        QCOMPARE(static_cast<int>(sentencesOf(stray).size()), 1);
    }
};

QTEST_APPLESS_MAIN(TestTextWords)
#include "test_text_words.moc"
