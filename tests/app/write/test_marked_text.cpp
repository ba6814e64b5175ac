// Marks follow their text while it is edited; one key marks a vowel or takes the mark away.
#include "app/write/marked_text.h"

#include <QTest>

using namespace vh;
using namespace vh::write;

namespace
{

MarkedText marked(std::string_view text)
{
    return readMarks(text).value();
}

/// The text before, with marks, becomes the text after; the caret stands at '|' in it.
std::string edited(std::string_view before, std::string after)
{
    const MarkedText was = marked(before);
    const std::size_t caret = after.find('|');
    after.erase(caret, 1);
    return writeMarks(after, followed(was.stretches, changeBetween(was.text, after, caret), after));
}

/// '|' is the caret; two of them hold what is chosen.
std::string toggledAt(std::string text, const lexicon::Lexicon* words = &lexicon::english())
{
    const std::size_t begin = text.find('|');
    text.erase(begin, 1);
    const std::size_t second = text.find('|');
    if (second != std::string::npos)
        text.erase(second, 1);
    // The bars count in the bytes of the marked text; here in those of the plain one.
    const auto plainAt = [&](std::size_t at) {
        std::size_t plain = 0;
        for (std::size_t i = 0; i < at; ++i)
            plain += text[i] != '<' && text[i] != '>';
        return plain;
    };
    const MarkedText was = marked(text);
    const std::size_t from = plainAt(begin);
    const std::size_t to = second == std::string::npos ? from : plainAt(second);
    return writeMarks(was.text, toggled(was, from, to, words));
}

} // namespace

class TestMarkedText : public QObject
{
    Q_OBJECT
private slots:
    void aChangeIsTheLeastThatItCanBe()
    {
        const TextChange typed = changeBetween("the boat", "the boot", 6);
        QCOMPARE(typed.at, std::size_t{6});
        QCOMPARE(typed.removed, std::size_t{1});
        QCOMPARE(typed.added, std::size_t{1});
        // Of like letters the one at the caret is the new one.
        QCOMPARE(changeBetween("bot", "boot", 2).at, std::size_t{1});
        QCOMPARE(changeBetween("bot", "boot", 3).at, std::size_t{2});
        // A letter of two bytes is never cut, though its first byte is the same.
        const TextChange accent = changeBetween("é", "è", 2);
        QCOMPARE(accent.at, std::size_t{0});
        QCOMPARE(accent.removed, std::size_t{2});
    }

    void marksFollowWhatIsTyped_data()
    {
        QTest::addColumn<QString>("before");
        QTest::addColumn<QString>("after");
        QTest::addColumn<QString>("marked");
        QTest::newRow("before it") << "The b<oa>t."
                                   << "The old| boat."
                                   << "The old b<oa>t.";
        QTest::newRow("behind it") << "The b<oa>t."
                                   << "The boat is| ."
                                   << "The b<oa>t is .";
        QTest::newRow("inside it") << "The b<oa>t."
                                   << "The boo|at."
                                   << "The b<ooa>t.";
        QTest::newRow("right before it") << "The b<oa>t."
                                         << "The bl|oat."
                                         << "The bl<oa>t.";
        QTest::newRow("right behind it") << "The b<oa>t."
                                         << "The boas|t."
                                         << "The b<oa>st.";
        QTest::newRow("a letter of it goes") << "The b<oa>t."
                                             << "The bo|t."
                                             << "The b<o>t.";
        QTest::newRow("all of it goes") << "The b<oa>t."
                                        << "The b|t."
                                        << "The bt.";
        QTest::newRow("its word goes") << "The b<oa>t h<o>me."
                                       << "The |home."
                                       << "The h<o>me.";
        QTest::newRow("cut from the left") << "The b<oa>t."
                                           << "|at."
                                           << "<a>t.";
        QTest::newRow("a space inside takes it away") << "The b<oa>t."
                                                      << "The bo |at."
                                                      << "The bo at.";
        QTest::newRow("another text") << "The b<oa>t."
                                      << "Moon|"
                                      << "Moon";
        QTest::newRow("longer letters before it") << "Über d<ie> See"
                                                  << "Ganz über| die See"
                                                  << "Ganz über d<ie> See";
    }
    void marksFollowWhatIsTyped()
    {
        QFETCH(QString, before);
        QFETCH(QString, after);
        QFETCH(QString, marked);
        QCOMPARE(QString::fromStdString(edited(before.toStdString(), after.toStdString())), marked);
    }

    void oneKeyMarksAndUnmarks_data()
    {
        QTest::addColumn<QString>("before");
        QTest::addColumn<QString>("marked");
        QTest::newRow("at the end of a word, its stressed vowel") << "The boat|"
                                                                  << "The b<oa>t";
        QTest::newRow("again takes it away") << "The b<oa>t|"
                                             << "The boat";
        QTest::newRow("two syllables: the stressed one") << "tomorrow|"
                                                         << "tom<o>rrow";
        QTest::newRow("the vowel at the caret") << "tomorro|w"
                                                << "tomorr<o>w";
        QTest::newRow("the caret at the word's beginning") << "|home again"
                                                           << "h<o>me again";
        QTest::newRow("chosen letters") << "The |boa|t"
                                        << "The <boa>t";
        QTest::newRow("chosen letters lose their mark") << "The |b<oa>t| sails"
                                                        << "The boat sails";
        QTest::newRow("several words: what can be held") << "|Row the boat home|"
                                                         << "R<o>w the b<oa>t h<o>me";
        QTest::newRow("no vowel, no mark") << "Mm|"
                                           << "Mm";
        QTest::newRow("between spaces, no mark") << "a  |  b"
                                                 << "a    b";
    }
    void oneKeyMarksAndUnmarks()
    {
        QFETCH(QString, before);
        QFETCH(QString, marked);
        QCOMPARE(QString::fromStdString(toggledAt(before.toStdString())), marked);
    }

    void withoutADictionaryAVowelIsARunOfVowelLetters()
    {
        QCOMPARE(toggledAt("Die Uhr geht schön|", nullptr), std::string("Die Uhr geht sch<ö>n"));
        QCOMPARE(toggledAt("Die bl|auen", nullptr), std::string("Die bl<aue>n"));
    }

    void tidyTextHasNoOuterSpaceAndKeepsItsMarks()
    {
        const MarkedText tidy = tidied(marked("  Row the b<oa>t. \n"), LineBreaks::keep);
        QCOMPARE(writeMarks(tidy.text, tidy.stretches), std::string("Row the b<oa>t."));
        QCOMPARE(tidied({"one\ttwo", {}}, LineBreaks::keep).text, std::string("one two"));
        QCOMPARE(tidied({" \n ", {}}, LineBreaks::keep).text, std::string());
    }
};

QTEST_APPLESS_MAIN(TestMarkedText)
#include "test_marked_text.moc"
