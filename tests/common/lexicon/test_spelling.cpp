// Numbers of syllables against the pronouncing dictionary of the Debian package pocketsphinx-en-us (CMU's, some 117,000
// words of a-z alone): a word is right when it has as many nuclei as one of its pronunciations has vowels.
#include "common/lexicon/spelling.h"
#include "common/script/reader.h"
#include "common/voice/letters.h"

#include <QFile>
#include <QMap>
#include <QSet>
#include <QtTest>

using namespace vh;
using namespace vh::lexicon;
using vh::voice::syllablesOf;

namespace
{

constexpr const char* kDictionary = "/usr/share/pocketsphinx/model/en-us/cmudict-en-us.dict";

/// Vowels of the pronunciation in one line, whose sounds are of the ARPAbet: vowels begin with A, E, I, O or U.
int vowelsOf(const QList<QByteArray>& line)
{
    return static_cast<int>(std::count_if(line.begin() + 1, line.end(), [](const QByteArray& sound) {
        return QByteArray("AEIOU").contains(sound.front());
    }));
}

QMap<QByteArray, QSet<int>> readDictionary()
{
    QMap<QByteArray, QSet<int>> words;
    QFile file(kDictionary);
    if (!file.open(QIODevice::ReadOnly))
        return words;
    while (!file.atEnd()) {
        const QList<QByteArray> line = file.readLine().simplified().split(' ');
        const QByteArray word = line.front().split('(').front();
        const bool plain = std::all_of(word.begin(), word.end(), [](char c) { return c >= 'a' && c <= 'z'; });
        if (plain && word.size() > 1)
            words[word].insert(vowelsOf(line));
    }
    return words;
}

} // namespace

class TestSpelling : public QObject
{
    Q_OBJECT
    QMap<QByteArray, QSet<int>> m_words;

private slots:
    void initTestCase()
    {
        m_words = readDictionary();
        QVERIFY2(m_words.size() > 100'000, "pocketsphinx-en-us is not installed");
    }

    void nineWordsInTenHaveTheRightNumber()
    {
        int right = 0;
        int within = 0;
        for (auto word = m_words.cbegin(); word != m_words.cend(); ++word) {
            const int found = syllablesOf(word.key().toStdString());
            right += word->contains(found);
            within += word->contains(found) || word->contains(found - 1) || word->contains(found + 1);
        }
        qInfo("%.2f %% of %lld words, %.2f %% within one", 100.0 * right / double(m_words.size()),
              static_cast<long long>(m_words.size()), 100.0 * within / double(m_words.size()));
        QVERIFY(right > 0.93 * double(m_words.size()));
        QVERIFY(within > 0.995 * double(m_words.size()));
    }

    void theWordsOfOurClassesAreRight()
    {
        QFile file(VH_SOURCE_DIR "/content/classes/lakeside-plots.yaml");
        QVERIFY(file.open(QIODevice::ReadOnly));
        const auto script = readClassScript(file.readAll().toStdString(), "lakeside-plots.yaml");
        QVERIFY(script.has_value());
        QSet<QByteArray> wrong;
        QSet<QByteArray> known;
        for (const Section& section : script->sections)
            for (const Step& step : section.steps) {
                QByteArray letters = QByteArray::fromStdString(step.text).toLower();
                for (char& c : letters)
                    c = c >= 'a' && c <= 'z' ? c : ' ';
                for (const QByteArray& word : letters.simplified().split(' ')) {
                    if (!m_words.contains(word))
                        continue;
                    known.insert(word);
                    if (!m_words[word].contains(syllablesOf(word.toStdString())))
                        wrong.insert(word);
                }
            }
        QVERIFY(known.size() > 250);
        for (const QByteArray& each : wrong)
            qInfo("%s: %d", each.data(), syllablesOf(each.toStdString()));
        QVERIFY(wrong.size() * 100 <= known.size());
    }

    void textIsReadOut_data()
    {
        QTest::addColumn<QString>("text");
        QTest::addColumn<int>("syllables");
        QTest::newRow("a sentence") << "Joseph has the kettle on, so come and sit." << 11;
        QTest::newRow("capitals") << "READ THIS ALOUD" << 4;
        QTest::newRow("numbers") << "27 and 8" << 6;
        QTest::newRow("a long number") << "555" << 3;
        QTest::newRow("an apostrophe") << "I didn't, you don't" << 5;
        QTest::newRow("a typographic apostrophe") << QString::fromUtf8("don\u2019t go") << 2;
        QTest::newRow("an accent") << QString::fromUtf8("caf\u00e9") << 2;
        QTest::newRow("a vowel") << "Ah" << 1;
        QTest::newRow("no vowel at all") << "Mmm" << 1;
        QTest::newRow("nothing") << "... !" << 0;
    }
    void textIsReadOut()
    {
        QFETCH(QString, text);
        QFETCH(int, syllables);
        QCOMPARE(syllablesOf(text.toStdString()), syllables);
    }
};

QTEST_APPLESS_MAIN(TestSpelling)
#include "test_spelling.moc"
