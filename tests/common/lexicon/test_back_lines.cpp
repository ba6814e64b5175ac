// Lines of back-of-tongue syllables: rich in k, g and ng, sayable, different each day, never rude.
#include "common/lexicon/back_lines.h"
#include "common/lexicon/measures.h"

#include <QtTest>

#include <map>
#include <set>

using namespace vh::lexicon;

class TestBackLines : public QObject
{
    Q_OBJECT
private slots:
    void everyLineIsMadeOfSuchSounds()
    {
        for (std::uint64_t day = 0; day < 400; ++day)
            for (const std::string& line : backLines(day, 4)) {
                const auto words = wordsOf(line);
                QVERIFY(words.size() >= 3 && words.size() <= 4);
                QVERIFY2(backSounds(line, english()).size() >= words.size(), line.c_str());
                QVERIFY2(measure(line, english()).syllables <= 8, line.c_str());
            }
    }

    void noTwoLinesOfADayAreAlikeNorTwoDays()
    {
        std::set<std::string> openings;
        for (std::uint64_t day = 0; day < 60; ++day) {
            const auto lines = backLines(day, 6);
            QCOMPARE(std::set<std::string>(lines.begin(), lines.end()).size(), lines.size());
            QCOMPARE(backLines(day, 6), lines);
            openings.insert(lines[0] + lines[1] + lines[2]);
        }
        QCOMPARE(openings.size(), std::size_t(60));
    }

    void noLineComesBackWithinAMonth()
    {
        std::map<std::string, std::uint64_t> last;
        for (std::uint64_t day = 19'000; day < 19'400; ++day)
            for (const std::string& line : backLines(day, kLinesADay)) {
                const auto before = last.find(line);
                QVERIFY2(before == last.end() || day - before->second >= kDaysApart, line.c_str());
                last[line] = day;
            }
    }

    void howeverManyAreAskedForNoTwoAreAlike()
    {
        for (const int count : {0, 1, 9, 100}) {
            const auto lines = backLines(3, count);
            QCOMPARE(static_cast<int>(lines.size()), count);
            QCOMPARE(std::set<std::string>(lines.begin(), lines.end()).size(), lines.size());
        }
        QVERIFY(backLines(3, 1'000'000).size() > 250);
    }

    void someWordsAreLeftAlone()
    {
        for (std::uint64_t day = 0; day < 400; ++day)
            for (const std::string& line : backLines(day, 4))
                for (const char* word : {"gook", "kock", "gag", "kook", "kack"})
                    QVERIFY2(!QString::fromStdString(line).contains(QRegularExpression(
                                 QString("\\b%1\\b").arg(word), QRegularExpression::CaseInsensitiveOption)),
                             line.c_str());
    }
};

QTEST_APPLESS_MAIN(TestBackLines)
#include "test_back_lines.moc"
