#include "common/live/judge.h"

#include <QtTest>

#include <algorithm>
#include <limits>
#include <random>
#include <vector>

using namespace vh;
using namespace std::chrono_literals;

Q_DECLARE_METATYPE(vh::JudgeInput)
Q_DECLARE_METATYPE(std::vector<float>)
Q_DECLARE_METATYPE(std::vector<vh::JudgeInput>)
Q_DECLARE_METATYPE(vh::Standing)
Q_DECLARE_METATYPE(vh::Blank)

namespace
{

/// A `yours` turn of 5 s in a section of phrases, 3 s of it trusted voice, in a normal room.
JudgeInput at(float overUsualDb)
{
    JudgeInput input;
    input.turnLength = 5s;
    input.result.reading.elapsedMs = 5000;
    input.result.reading.heardMs = 3000;
    input.result.reading.voicedMs = 3000;
    input.result.reading.leqOverUsualDb = overUsualDb;
    input.result.around.roomNormal = true;
    input.result.around.masked = false;
    input.result.around.voiceHeard = true;
    return input;
}

JudgeInput withVoice(float overUsualDb, std::uint32_t heardMs, std::uint32_t voicedMs)
{
    JudgeInput input = at(overUsualDb);
    input.result.reading.heardMs = heardMs;
    input.result.reading.voicedMs = voicedMs;
    return input;
}

JudgeInput silent()
{
    return withVoice(0, 0, 0);
}

template <class Change>
JudgeInput but(JudgeInput input, Change change)
{
    change(input);
    return input;
}

JudgeInput untrusted(float overUsualDb, std::uint8_t trustPercent, Blank why)
{
    return but(at(overUsualDb), [&](JudgeInput& input) {
        input.result.reading.trustPercent = trustPercent;
        input.result.reading.reason = why;
    });
}

JudgeInput masked(const JudgeInput& turn = silent())
{
    return but(turn, [](JudgeInput& input) { input.result.around.masked = true; });
}
JudgeInput noisyRoom()
{
    return but(silent(), [](JudgeInput& input) { input.result.around.roomNormal = false; });
}
JudgeInput neverHeard()
{
    return but(silent(), [](JudgeInput& input) { input.result.around.voiceHeard = false; });
}
JudgeInput ofLength(JudgeInput input, Millis planned, Millis played)
{
    input.turnLength = planned;
    input.result.reading.elapsedMs = static_cast<std::uint32_t>(played.count());
    return input;
}
JudgeInput withMe(JudgeInput input, float leakDb)
{
    input.turn = TurnKind::withMe;
    input.result.around.leakDb = leakDb;
    return input;
}
JudgeInput ceiling(float overUsualDb, Ceiling where)
{
    return but(at(overUsualDb), [&](JudgeInput& input) { input.result.around.ceiling = where; });
}

/// One turn after the other, each with the next serial.
JudgeState after(std::vector<JudgeInput> turns, JudgeState state = {})
{
    for (JudgeInput& input : turns) {
        input.result.reading.turnSerial = state.lastTurnSerial + 1;
        state = judge(state, input);
    }
    return state;
}

} // namespace

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

    void littleVoice_data()
    {
        QTest::addColumn<std::vector<JudgeInput>>("turns");
        QTest::addColumn<Standing>("standing");
        QTest::addColumn<Blank>("reason");
        const auto row = [](const char* name, const std::vector<JudgeInput>& turns, Standing standing,
                            Blank reason = Blank::none) { QTest::newRow(name) << turns << standing << reason; };
        using enum Standing;
        row("a second of voice is judged", {withVoice(6, 1000, 1000)}, inBand);
        row("a frame less is not", {withVoice(6, 990, 990)}, notYet);
        row("then the last finished turn stands", {at(13), withVoice(0, 990, 990)}, above);
        row("enough was heard, but not trusted enough of it to judge", {at(6), withVoice(0, 1500, 900)}, inBand);

        row("one turn without voice: the last stands", {at(6), silent()}, inBand);
        row("two whole turns without: no voice heard", {at(6), silent(), silent()}, noVoice);
        row("and so it stays", {at(6), silent(), silent(), silent()}, noVoice);
        row("a turn of four seconds is long enough", {at(6), ofLength(silent(), 4s, 4s), ofLength(silent(), 4s, 4s)},
            noVoice);
        row("a shorter one is not", {at(6), ofLength(silent(), 3999ms, 3999ms), silent()}, inBand);
        row("turns that were cut short do not count",
            {at(6), ofLength(silent(), 5s, 4490ms), ofLength(silent(), 5s, 4490ms)}, inBand);
        row("the edges of a turn may be missing",
            {at(6), ofLength(silent(), 5s, 4500ms), ofLength(silent(), 5s, 4500ms)}, noVoice);
        row("a short turn between two whole ones does not matter",
            {at(6), silent(), ofLength(silent(), 2s, 2s), silent()}, noVoice);
        row("a syllable is a voice", {at(6), silent(), withVoice(0, 200, 200), silent()}, inBand);
        row("a click is none", {at(6), withVoice(0, 190, 190), withVoice(0, 190, 190)}, noVoice);
        row("a voice between begins anew", {at(6), silent(), at(6), silent()}, inBand);
        row("together with the leader nobody can be silent", {at(6), withMe(silent(), -40), withMe(silent(), -40)},
            inBand);

        row("after silence a syllable brings the last level back", {at(2), silent(), silent(), withVoice(0, 300, 300)},
            below);
        row("after silence a turn is judged as before it", {at(6), silent(), silent(), at(1.5F)}, inBand);
        row("silence is no low turn", {at(6), at(0), silent(), silent(), at(2)}, inBand);

        row("something masked both: can't tell", {at(6), masked(), masked()}, cantTell, Blank::loudspeakerTooLoud);
        row("the room was not normal: can't tell", {at(6), noisyRoom(), noisyRoom()}, cantTell, Blank::roomTooNoisy);
        row("never heard today: can't tell", {neverHeard(), neverHeard()}, cantTell, Blank::noSignal);
        row("one of two proven is not enough", {at(6), masked(), silent()}, inBand);
        row("two proven after one that was not", {at(6), masked(), silent(), silent()}, noVoice);
        row("masked once: the last stands", {at(6), masked()}, inBand);
        const JudgeInput scraps = masked(withVoice(0, 500, 0));
        row("scraps of voice, masked both: can't tell", {at(6), scraps, scraps}, cantTell, Blank::loudspeakerTooLoud);
        row("scraps once, or with nothing over them: the last stands", {at(6), scraps, withVoice(0, 500, 0)}, inBand);
        row("no voice, then masked: can't tell any more", {at(6), silent(), silent(), masked()}, cantTell,
            Blank::loudspeakerTooLoud);
    }
    void littleVoice()
    {
        QFETCH(std::vector<JudgeInput>, turns);
        QFETCH(Standing, standing);
        QFETCH(Blank, reason);
        const JudgeState state = after(turns);
        QCOMPARE(state.standing, standing);
        QCOMPARE(state.reason, reason);
    }

    void trust_data()
    {
        QTest::addColumn<std::vector<JudgeInput>>("turns");
        QTest::addColumn<Standing>("standing");
        QTest::addColumn<Blank>("reason");
        const auto row = [](const char* name, const std::vector<JudgeInput>& turns, Standing standing,
                            Blank reason = Blank::none) { QTest::newRow(name) << turns << standing << reason; };
        const auto clipped = untrusted(0, 49, Blank::clipping);
        JudgeInput dead = silent();
        dead.result.reading.trustPercent = 0;
        dead.result.reading.reason = Blank::noSignal;
        using enum Standing;
        row("half of it trusted is enough", {untrusted(6, 50, Blank::clipping)}, inBand);
        row("less is not", {clipped}, cantTell, Blank::clipping);
        row("never counted as low",
            {at(6), untrusted(-9, 10, Blank::roomTooNoisy), untrusted(-9, 10, Blank::roomTooNoisy), at(2)}, inBand);
        row("one low, one not trusted, one low: two low turns", {at(6), at(0), clipped, at(0)}, below);
        row("one high, one not trusted, one high: straining", {at(13), clipped, at(13)}, straining);
        row("a dead microphone is never silence", {at(6), dead, dead, dead}, cantTell, Blank::noSignal);
        row("nor does it make one silent turn two", {at(6), silent(), dead, silent()}, cantTell, Blank::noSignal);
        row("a changed setup suspends", {at(6), untrusted(6, 0, Blank::setupChanged)}, cantTell, Blank::setupChanged);
        row("trusted again", {clipped, at(6)}, inBand);
        row("the reason is gone with it", {dead, silent(), silent()}, noVoice);
    }
    void trust()
    {
        QFETCH(std::vector<JudgeInput>, turns);
        QFETCH(Standing, standing);
        QFETCH(Blank, reason);
        const JudgeState state = after(turns);
        QCOMPARE(state.standing, standing);
        QCOMPARE(state.reason, reason);
    }

    void whatIsNotTrustedIsNotCountedAsJudged()
    {
        QCOMPARE(after({at(6), untrusted(6, 0, Blank::clipping), silent(), withVoice(6, 500, 500)}).judgedTurns,
                 std::uint16_t{1});
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

    void aSyllableIsHeard()
    {
        QVERIFY(heard(withVoice(0, 200, 0).result.reading));
        QVERIFY(!heard(withVoice(0, 190, 190).result.reading));
    }
};

QTEST_APPLESS_MAIN(TestJudge)
#include "test_judge.moc"
