// Letters to sounds, measured on words that the learning never saw: every tenth word of the dictionary (CMU Pronouncing
// Dictionary 0.4, Debian's festlex-cmu) is held out.
#include "common/lexicon/festival_entries.h"
#include "common/lexicon/letter_training.h"

#include <QtTest>

#include <fstream>

using namespace vh::lexicon;

namespace
{

std::size_t vowelsIn(const std::vector<Phone>& phones)
{
    return static_cast<std::size_t>(std::count_if(phones.begin(), phones.end(), isVowel));
}

std::size_t backSoundsIn(const std::vector<Phone>& phones)
{
    return static_cast<std::size_t>(std::count_if(phones.begin(), phones.end(), isBackOfTongue));
}

} // namespace

class TestLetters : public QObject
{
    Q_OBJECT

    std::vector<Spoken> m_learnt;
    std::vector<Spoken> m_heldOut;
    Alignment m_alignment;
    LetterTree m_tree;

private slots:
    void initTestCase()
    {
        std::ifstream file(VH_FESTIVAL_WORDS);
        std::size_t number = 0;
        for (const Dictionary::Entry& entry : festivalEntries(file).entries) {
            const bool plain = std::all_of(entry.word.begin(), entry.word.end(),
                                           [](char c) { return (c >= 'a' && c <= 'z') || c == '\''; });
            if (plain)
                (number++ % 10 == 3 ? m_heldOut : m_learnt).push_back({entry.word, phonesOf(entry.said)});
        }
        QVERIFY(m_heldOut.size() > 10'000);
        m_alignment = Alignment::learnt(m_learnt);
        m_tree = learnt(m_learnt, m_alignment);
    }

    void syllablesOfWordsNeverSeenAreRightNineTimesInTen()
    {
        std::size_t syllables = 0;
        std::size_t back = 0;
        std::size_t exact = 0;
        for (const Spoken& word : m_heldOut) {
            const auto phones = m_tree.phonesFor(word.word);
            syllables += vowelsIn(phones) == vowelsIn(word.phones);
            back += backSoundsIn(phones) == backSoundsIn(word.phones);
            exact += phones == word.phones;
        }
        const auto percent = [&](std::size_t count) {
            return 100.0 * static_cast<double>(count) / static_cast<double>(m_heldOut.size());
        };
        qInfo("%zu words held out: syllables %.2f %%, k g ng %.2f %%, every sound %.2f %%", m_heldOut.size(),
              percent(syllables), percent(back), percent(exact));
        QVERIFY(percent(syllables) >= 90);
        QVERIFY(percent(back) >= 95);
        QVERIFY(percent(exact) >= 50);
    }

    void aKnownWordIsCutIntoItsLetters()
    {
        using enum Phone;
        const auto labels = m_alignment.labels("knight", std::array{n, ay, t});
        QCOMPARE(labels.size(), std::size_t(6));
        QCOMPARE(phonesOfLabel(labels[0]), std::vector<Phone>{}); // the k says nothing
        QCOMPARE(phonesOfLabel(labels[2]), std::vector<Phone>{ay});
        const auto box = m_alignment.labels("box", std::array{b, aa, k, s});
        QCOMPARE(phonesOfLabel(box[2]), (std::vector<Phone>{k, s}));       // one letter, two sounds
        QVERIFY(m_alignment.labels("a", std::array{b, aa, k, s}).empty()); // more than two for one letter
    }

    void whatIsPackedComesBackTheSame()
    {
        const std::string bytes = m_tree.bytes();
        const auto tree = LetterTree::fromBytes({reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()});
        QVERIFY(tree.has_value());
        const std::string alignment = m_alignment.bytes();
        const auto again =
            Alignment::fromBytes({reinterpret_cast<const std::uint8_t*>(alignment.data()), alignment.size()});
        QVERIFY(again.has_value());
        for (std::size_t i = 0; i < 500; ++i) {
            QCOMPARE(tree->phonesFor(m_heldOut[i].word), m_tree.phonesFor(m_heldOut[i].word));
            QCOMPARE(again->labels(m_heldOut[i].word, m_heldOut[i].phones),
                     m_alignment.labels(m_heldOut[i].word, m_heldOut[i].phones));
        }
    }

    void damagedTreesAreRefused()
    {
        const std::string bytes = m_tree.bytes();
        std::vector<std::uint8_t> damaged(bytes.begin(), bytes.begin() + 800); // children beyond the end
        QVERIFY(!LetterTree::fromBytes(damaged));
        damaged.assign(bytes.begin(), bytes.end() - 3);
        QVERIFY(!LetterTree::fromBytes(damaged));
        damaged.assign(bytes.begin(), bytes.end());
        damaged[4] = 0xFF; // no such label
        QVERIFY(!LetterTree::fromBytes(damaged));
        QVERIFY(!Alignment::fromBytes(std::vector<std::uint8_t>{1, 2, 3}));
        QVERIFY(!Alignment::fromBytes(std::vector<std::uint8_t>{200, 0, 1, 0x3F, 0, 0, 0})); // no such letter
    }
};

QTEST_APPLESS_MAIN(TestLetters)
#include "test_letters.moc"
