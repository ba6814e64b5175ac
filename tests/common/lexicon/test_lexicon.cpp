// How words are said: against the dictionary's own file (CMU Pronouncing Dictionary 0.4, Debian's festlex-cmu), read
// here in another way; and words it does not have.
#include "common/lexicon/lexicon.h"

#include <QtTest>

#include <fstream>
#include <map>
#include <set>

using namespace vh::lexicon;

namespace
{

std::size_t syllables(std::string_view word)
{
    return english().say(word)->syllables.size();
}

std::string soundsOf(std::string_view word)
{
    std::string names;
    for (const Phone phone : phonesOf(english().say(word)->syllables))
        names += std::string(names.empty() ? "" : " ") + std::string(kPhoneNames[static_cast<std::size_t>(phone)]);
    return names;
}

/// The letters that hold the vowels, in capitals: "lEmOnAde".
std::string marked(std::string word)
{
    for (const LetterRange& range : english().vowelLetters(word, english().say(word)->syllables))
        for (std::size_t at = range.begin; at < range.end; ++at)
            word[at] = static_cast<char>(word[at] - 'a' + 'A');
    return word;
}

} // namespace

class TestLexicon : public QObject
{
    Q_OBJECT
private slots:
    void everyWordOfTheDictionaryHasAsManySyllablesAsItsFileSays()
    {
        std::ifstream file(VH_FESTIVAL_WORDS);
        std::size_t words = 0;
        std::size_t right = 0;
        std::string last;
        for (std::string line; std::getline(file, line);) {
            const auto quote = line.find('"', 2);
            if (!line.starts_with("(\"") || quote == std::string::npos)
                continue;
            QString word = QString::fromStdString(line.substr(2, quote - 2)).toLower();
            if (word.toStdString() == std::exchange(last, word.toStdString()))
                continue; // another way to say it
            ++words;
            const auto stresses = QString::fromStdString(line.substr(quote)).count(QRegularExpression("\\) [012]\\)"));
            const auto said = english().say(word.toStdString());
            right += said && said->source == Source::dictionary && said->syllables.size() == std::size_t(stresses);
        }
        QVERIFY(words > 100'000);
        QVERIFY2(100 * right >= 99 * words, qPrintable(QString("%1 of %2").arg(right).arg(words)));
    }

    /// Another edition of the dictionary (Debian's pocketsphinx-en-us), with several ways to say a word.
    void syllablesAreThoseOfAnotherEditionToo()
    {
        std::ifstream file("/usr/share/pocketsphinx/model/en-us/cmudict-en-us.dict");
        std::map<std::string, std::set<std::size_t>> counts;
        for (std::string line; std::getline(file, line);) {
            const QStringList parts = QString::fromStdString(line).simplified().split(' ');
            const auto vowels = std::count_if(parts.begin() + 1, parts.end(), [](const QString& sound) {
                return QStringLiteral("AEIOU").contains(sound.front());
            });
            counts[parts.front().split('(').front().toStdString()].insert(static_cast<std::size_t>(vowels));
        }
        std::size_t shared = 0;
        std::size_t right = 0;
        for (const auto& [word, syllables] : counts) {
            if (!english().dictionary().has(word))
                continue;
            ++shared;
            const auto all = english().dictionary().of(word);
            right += std::any_of(all.begin(), all.end(),
                                 [&, of = syllables](const Pronunciation& said) { return of.contains(said.size()); });
        }
        QVERIFY(shared > 50'000);
        qInfo("%zu of %zu words have a number of syllables that the other edition has too", right, shared);
        QVERIFY(100 * right >= 99 * shared);
    }

    void wordsOfTheTrade() // counts: trade.md's, from the same dictionary
    {
        QCOMPARE(syllables("every"), std::size_t(3));
        QCOMPARE(syllables("family"), std::size_t(3));
        QCOMPARE(syllables("Fire"), std::size_t(2));
        QCOMPARE(syllables("strengths"), std::size_t(1));
        QCOMPARE(soundsOf("king"), std::string("k ih ng"));
    }

    void endingsAreBuiltFromTheWord()
    {
        const auto built = [](std::string_view word) { return english().say(word)->source; };
        QVERIFY(!english().dictionary().has("kettle's") && built("kettle's") == Source::builtFromParts);
        QCOMPARE(soundsOf("kettle's"), std::string("k eh t ax l z"));
        QVERIFY(!english().dictionary().has("yodelled"));
        QVERIFY(!english().dictionary().has("teapots") || built("teapots") == Source::dictionary);
        QVERIFY(!english().dictionary().has("toolshed"));
        QVERIFY(built("toolshed") == Source::builtFromParts);
        QCOMPARE(soundsOf("toolshed"), std::string("t uw l sh eh d"));
    }

    void whatNobodyKnowsIsSaidByItsLetters()
    {
        const auto said = english().say("grolking");
        QVERIFY(said && said->source == Source::letters);
        QCOMPARE(said->syllables.size(), std::size_t(2));
        QVERIFY(english().say("zzzz").has_value());
        QVERIFY(!english().say(""));
        QVERIFY(!english().say("'"));
        QVERIFY(!english().say("42"));
    }

    void everyPronunciationHasOneStressedSyllableAtLeast()
    {
        for (const char* word : {"grolking", "blenterisation", "snoov", "kivrabolic"}) {
            const auto said = english().say(word);
            QVERIFY(std::any_of(said->syllables.begin(), said->syllables.end(),
                                [](const Syllable& syllable) { return syllable.stressed; }));
        }
    }

    void theLettersOfEachVowelAreFound()
    {
        QCOMPARE(marked("lemonade"), std::string("lEmOnAde"));
        QCOMPARE(marked("boat"), std::string("bOAt"));
        QCOMPARE(marked("window"), std::string("wIndOw"));
        QCOMPARE(marked("garden"), std::string("gArdEn"));
        QCOMPARE(marked("evening").at(0), 'E');
        QCOMPARE(marked("queen"), std::string("quEEn"));
    }

    void damagedBytesAreRefusedAsAWhole()
    {
        const std::string bytes = Lexicon::pack({{"go", {{{Phone::g, Phone::ow}, true}}}});
        const auto read = [](const std::string& from) {
            return Lexicon::fromBytes({reinterpret_cast<const std::uint8_t*>(from.data()), from.size()});
        };
        QVERIFY(read(bytes).has_value());
        QCOMPARE(read(bytes)->say("go")->syllables.size(), std::size_t(1));
        QVERIFY(!read(bytes.substr(0, bytes.size() - 1)));
        QVERIFY(!read(bytes + "x"));
        QVERIFY(!read({}));
        for (std::size_t at = 0; at < 24; ++at) { // in the sizes, the offsets, the entry
            std::string damaged = bytes;
            damaged[at] = static_cast<char>(damaged[at] ^ 0x7F);
            const auto lexicon = read(damaged);
            QVERIFY(!lexicon || lexicon->say("go").has_value());
        }
    }
};

QTEST_APPLESS_MAIN(TestLexicon)
#include "test_lexicon.moc"
