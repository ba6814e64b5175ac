// Turns with too little voice to judge, or too little of it trusted: silence, or can't tell.
#include "tests/common/live/turns_to_judge.h"

using namespace vh;
using namespace vh::test;
using namespace std::chrono_literals;

class TestJudgeSilence : public QObject
{
    Q_OBJECT
private slots:
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

    void aSyllableIsHeard()
    {
        QVERIFY(heard(withVoice(0, 200, 0).result.reading));
        QVERIFY(!heard(withVoice(0, 190, 190).result.reading));
    }
};

QTEST_APPLESS_MAIN(TestJudgeSilence)
#include "test_judge_silence.moc"
