// What a turn with enough trusted voice amounts to, and what is not judged at all.
#include "tests/common/live/turns_to_judge.h"

#include <algorithm>
#include <limits>
#include <random>

using namespace vh;
using namespace vh::test;
using namespace std::chrono_literals;

class TestJudge : public QObject
{
    Q_OBJECT
private slots:
    void levels_data()
    {
        QTest::addColumn<std::vector<float>>("turns");
        QTest::addColumn<Standing>("standing");
        const auto row = [](const char* name, const std::vector<float>& turns, Standing standing) {
            QTest::newRow(name) << turns << standing;
        };
        using enum Standing;
        row("the first turn at the edge is in", {3.0F}, inBand);
        row("a tenth under the edge is not in yet", {2.9F}, below);
        row("between out and in, never in before", {1.5F}, below);
        row("at the usual level", {0}, below);
        row("far under it", {-20}, below);
        row("at the aim", {6}, inBand);
        row("at the upper edge", {9}, inBand);
        row("plenty, at its edge", {12}, inBand);
        row("a tenth above plenty", {12.1F}, above);

        row("once in, one turn between out and in is in", {3, 1.5F}, inBand);
        row("once in, any number of turns at the way out is in", {3, 1, 1, 1, 1}, inBand);
        row("once in, one low turn is not out", {3, 0.9F}, inBand);
        row("once in, two low turns are out", {3, 0.9F, 0.9F}, below);
        row("low turns must follow each other", {3, 0.9F, 1, 0.9F}, inBand);
        row("out, it takes the edge to come in again", {3, 0, 0, 2.9F}, below);
        row("out and in again", {3, 0, 0, 3}, inBand);
        row("in again, the count of low turns begins anew", {3, 0, 0, 3, 0}, inBand);

        row("twice above plenty is straining", {13, 13}, straining);
        row("twice, but not running", {13, 9, 13}, above);
        row("from in band as well", {6, 13, 13}, straining);
        row("three times stays straining", {13, 13, 13}, straining);
        row("above, it takes less than ten to come in", {13, 10}, above);
        row("a tenth under ten is in", {13, 9.9F}, inBand);
        row("between ten and twelve stays above, never straining", {13, 11, 12, 11}, above);
        row("in band, between ten and twelve is in band", {6, 11, 12}, inBand);
        row("eased off to eleven: above, not straining", {13, 13, 11}, above);
        row("eased off into the band", {13, 13, 6}, inBand);
        row("after easing off, straining needs two again", {13, 13, 11, 13}, above);
        row("from above, one low turn is still in", {13, 0}, inBand);
        row("from above, two low turns are out", {13, 0, 0}, below);
        row("from below straight to above", {0, 13}, above);
    }
    void levels()
    {
        QFETCH(std::vector<float>, turns);
        QFETCH(Standing, standing);
        std::vector<JudgeInput> inputs(turns.size());
        std::transform(turns.begin(), turns.end(), inputs.begin(), at);
        const JudgeState state = after(inputs);
        QCOMPARE(state.standing, standing);
        QCOMPARE(state.levelStanding, standing);
        QCOMPARE(state.judgedTurns, static_cast<std::uint16_t>(turns.size()));
    }

    void everySectionHasItsBand_data()
    {
        QTest::addColumn<SectionKind>("section");
        QTest::addColumn<float>("offset");
        QTest::addColumn<float>("lowestIn");
        QTest::addColumn<float>("highestIn");
        using enum SectionKind;
        for (const auto kind : {opening, warmUp, sustainedVowel, counting, phrases, backOfTongue, passage, closing})
            QTest::addRow("%s", nameOf(kind).data()) << kind << 0.0F << 3.0F << 12.0F;
        QTest::newRow("category naming from +2") << categoryNaming << 0.0F << 2.0F << 12.0F;
        QTest::newRow("open talk from +2") << openTalk << 0.0F << 2.0F << 12.0F;
        QTest::newRow("moved up by the leader") << phrases << 2.0F << 5.0F << 14.0F;
        QTest::newRow("moved down by the leader") << openTalk << -1.5F << 0.5F << 10.5F;
        QTest::newRow("moved no further than allowed") << phrases << 50.0F << 9.0F << 18.0F;
        QTest::newRow("nor down") << phrases << -50.0F << -3.0F << 6.0F;
        QTest::newRow("by nothing that is a number")
            << phrases << std::numeric_limits<float>::quiet_NaN() << 3.0F << 12.0F;
    }
    void everySectionHasItsBand()
    {
        QFETCH(SectionKind, section);
        QFETCH(float, offset);
        QFETCH(float, lowestIn);
        QFETCH(float, highestIn);
        const auto first = [&](float level) {
            return after({but(at(level),
                              [&](JudgeInput& input) {
                                  input.section = section;
                                  input.offsetDb = offset;
                              })})
                .standing;
        };
        QCOMPARE(first(lowestIn), Standing::inBand);
        QCOMPARE(first(lowestIn - 0.1F), Standing::below);
        QCOMPARE(first(highestIn), Standing::inBand);
        QCOMPARE(first(highestIn + 0.1F), Standing::above);
    }

    void whatIsNotJudgedLeavesEverythingAsItWas_data()
    {
        QTest::addColumn<JudgeInput>("input");
        const auto row = [](const char* name, const JudgeInput& input) { QTest::newRow(name) << input; };
        row("a glide has no standing by level",
            but(at(-5), [](JudgeInput& input) { input.section = SectionKind::pitchGlide; }));
        row("a pause asks nothing", but(silent(), [](JudgeInput& input) { input.section = SectionKind::pause; }));
        row("listen", but(at(-5), [](JudgeInput& input) { input.turn = TurnKind::listen; }));
        row("ready", but(at(-5), [](JudgeInput& input) { input.turn = TurnKind::ready; }));
        row("with me, the loudspeaker leaks a little too much", withMe(at(-5), -9.9F));
        row("with me, the leak is not known", withMe(at(-5), std::numeric_limits<float>::quiet_NaN()));
        row("a level that is no number", at(std::numeric_limits<float>::quiet_NaN()));
        row("other rules than ours",
            but(at(-5), [](JudgeInput& input) { input.result.reading.judgeVersion = kJudgeVersion + 1; }));
    }
    void whatIsNotJudgedLeavesEverythingAsItWas()
    {
        QFETCH(JudgeInput, input);
        const JudgeState before = after({at(6)});
        QCOMPARE(after({input, input}, before), before);
    }

    void withMeIsJudgedWhereTheLeakIsTenBelow()
    {
        QCOMPARE(after({withMe(at(6), -10)}).standing, Standing::inBand);
        QCOMPARE(after({withMe(at(2), -30)}).standing, Standing::below);
    }

    void aResultThatComesTwiceOrLateCountsOnce()
    {
        JudgeInput high = at(13);
        high.result.reading.turnSerial = 5;
        const JudgeState once = judge({}, high);
        QCOMPARE(once.standing, Standing::above);
        QCOMPARE(judge(once, high), once);
        high.result.reading.turnSerial = 4;
        QCOMPARE(judge(once, high), once);
        high.result.reading.turnSerial = 6;
        QCOMPARE(judge(once, high).standing, Standing::straining);
    }

    void theCeiling_data()
    {
        QTest::addColumn<std::vector<JudgeInput>>("turns");
        QTest::addColumn<Standing>("standing");
        const auto row = [](const char* name, const std::vector<JudgeInput>& turns, Standing standing) {
            QTest::newRow(name) << turns << standing;
        };
        using enum Standing;
        row("above eighty is above, wherever the band is", {ceiling(4, Ceiling::over)}, above);
        row("even under the band", {ceiling(1, Ceiling::over)}, above);
        row("twice is straining", {ceiling(4, Ceiling::over), ceiling(4, Ceiling::over)}, straining);
        row("close to eighty nobody is asked for more", {ceiling(1, Ceiling::reached)}, inBand);
        row("nor is it a low turn", {at(6), ceiling(0, Ceiling::reached), ceiling(0, Ceiling::reached)}, inBand);
        row("and above plenty stays above plenty", {ceiling(13, Ceiling::reached)}, above);
    }
    void theCeiling()
    {
        QFETCH(std::vector<JudgeInput>, turns);
        QFETCH(Standing, standing);
        QCOMPARE(after(turns).standing, standing);
    }

    // Whatever comes over the wire: the state stays one of those that judging makes, and the same in, the same out.
    void anyNumbersGiveAStandingThatJudgingMakes()
    {
        std::mt19937 random(17);
        const auto upTo = [&random](int most) { return std::uniform_int_distribution<int>(0, most)(random); };
        JudgeState state;
        int seen[10] = {};
        for (int i = 0; i < 20'000; ++i) {
            JudgeInput input = at(static_cast<float>(upTo(400) - 200) / 10);
            input.turn = static_cast<TurnKind>(upTo(3));
            input.section = static_cast<SectionKind>(upTo(11));
            input.turnLength = Millis{upTo(8000)};
            input.result.reading.turnSerial = static_cast<std::uint32_t>(i + upTo(2));
            input.result.reading.heardMs = static_cast<std::uint32_t>(upTo(3) == 0 ? 0 : upTo(4000));
            input.result.reading.voicedMs = input.result.reading.heardMs;
            input.result.reading.trustPercent = static_cast<std::uint8_t>(upTo(3) == 0 ? upTo(100) : 100);
            input.result.around.masked = upTo(9) == 0;
            const JudgeState next = judge(state, input);
            QCOMPARE(judge(state, input), next);
            QVERIFY(next.standing <= Standing::cantTell);
            QVERIFY(next.levelStanding <= Standing::straining);
            QVERIFY(next.provenQuietTurns <= next.quietTurns);
            ++seen[static_cast<int>(next.standing)];
            state = next;
        }
        for (int standing = 1; standing <= static_cast<int>(Standing::cantTell); ++standing)
            QVERIFY2(seen[standing] > 0, nameOf(static_cast<Standing>(standing)).data());
    }
};

QTEST_APPLESS_MAIN(TestJudge)
#include "test_judge.moc"
