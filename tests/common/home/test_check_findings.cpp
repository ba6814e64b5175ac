// What a check says of what it has heard: one finding, the one to put right first.
#include "common/home/check_findings.h"

#include <QtTest>

#include <cmath>

using namespace vh;

namespace
{

CheckFacts good()
{
    CheckFacts facts;
    facts.roomDbfsA = -65;
    facts.askedForVoice = true;
    facts.heardMs = 4500;
    facts.usualDbfsA = -30;
    facts.louderDbfsA = -24;
    facts.played = PlayedProbe::Result{true, 0.9F, 90, -35, -9, 0.2F, 0.1F, 0, 25, true};
    return facts;
}

/// Two lines and the pauses around them; the room's low band is lower under each by so much.
RoomGain heardUnder(float firstDb, float secondDb)
{
    RoomGain gain;
    const auto hear = [&gain](int frames, bool voiced, float lowDb) {
        VoiceFrame frame;
        frame.voiced = voiced;
        frame.meanSquareA = voiced ? 1e-3F : 1e-7F;
        frame.lowMeanSquare = std::pow(10.0F, lowDb / 10);
        for (int i = 0; i < frames; ++i)
            gain.add(frame);
    };
    hear(200, false, -60);
    for (const float under : {firstDb, secondDb}) {
        hear(200, true, -60 - under);
        hear(200, false, -60);
    }
    return gain;
}

} // namespace

Q_DECLARE_METATYPE(vh::CheckFacts)
Q_DECLARE_METATYPE(vh::CheckFinding)

class TestCheckFindings : public QObject
{
    Q_OBJECT
private slots:
    void eachFaultIsNamed_data()
    {
        QTest::addColumn<CheckFacts>("facts");
        QTest::addColumn<CheckFinding>("finding");
        using F = CheckFinding;
        const auto row = [](const char* name, F finding, void (*spoil)(CheckFacts&)) {
            CheckFacts facts = good();
            spoil(facts);
            QTest::newRow(name) << facts << finding;
        };
        row("all is well", F::fine, [](CheckFacts&) {});
        row("dead", F::noSound, [](CheckFacts& f) { f.dead = true; });
        row("neither person nor loudspeaker", F::wrongDevice, [](CheckFacts& f) {
            f.heardMs = 300;
            f.usualDbfsA.reset();
            f.played = PlayedProbe::Result{};
        });
        row("only what the computer plays", F::wrongDevice, [](CheckFacts& f) {
            f.heardMs = 0;
            f.usualDbfsA.reset();
            f.silentRoom = true;
        });
        row("the loudspeaker but no person", F::noVoice, [](CheckFacts& f) {
            f.heardMs = 300;
            f.usualDbfsA.reset();
        });
        row("overdriven", F::clipping, [](CheckFacts& f) { f.clips = true; });
        row("a vowel that is eaten", F::gated, [](CheckFacts& f) { f.played->driftDb = -4; });
        row("soft sound is shut out", F::gated, [](CheckFacts& f) { f.played->evenedDb = -12; });
        row("a room of digital silence under a voice", F::gated, [](CheckFacts& f) { f.silentRoom = true; });
        row("soft and loud alike", F::ridesGain, [](CheckFacts& f) { f.played->evenedDb = 5; });
        row("a gain that comes up", F::ridesGain, [](CheckFacts& f) { f.played->driftDb = 2; });
        row("a room that gives way to a voice", F::ridesGain, [](CheckFacts& f) { f.roomGain = heardUnder(4, 4); });
        row("a room that hardly does", F::fine, [](CheckFacts& f) { f.roomGain = heardUnder(1, 1); });
        row("one that does so once, and by much", F::ridesGain,
            [](CheckFacts& f) { f.roomGain = heardUnder(-0.5F, 5); });
        row("never a moment without a voice", F::roomTooNoisy, [](CheckFacts& f) { f.roomDbfsA.reset(); });
        row("too far", F::tooFar, [](CheckFacts& f) { f.usualDbfsA = -57; });
        row("too noisy", F::roomTooNoisy, [](CheckFacts& f) { f.roomDbfsA = -38; });
        row("too little voice", F::noVoice, [](CheckFacts& f) { f.usualDbfsA.reset(); });
        row("another volume", F::otherVolume, [](CheckFacts& f) { f.otherVolume = true; });
        row("a wireless delay", F::lateLoudspeaker, [](CheckFacts& f) { f.played->delayMs = 260; });
        row("too loud a loudspeaker", F::loudspeakerTooLoud, [](CheckFacts& f) { f.played->loudDbfsA = -10; });
    }
    void eachFaultIsNamed()
    {
        QFETCH(const CheckFacts, facts);
        QFETCH(const CheckFinding, finding);
        QCOMPARE(int(findingOf(facts)), int(finding));
    }

    void theProgramsOwnShareOfTheDelayIsNoWirelessLoudspeaker()
    {
        CheckFacts facts = good();
        facts.bufferMs = 100;
        facts.played->delayMs = 240;
        QCOMPARE(int(findingOf(facts)), int(CheckFinding::fine));
        facts.played->delayMs = 250;
        QCOMPARE(int(findingOf(facts)), int(CheckFinding::lateLoudspeaker));
    }

    void withHeadphonesNothingIsMissed()
    {
        CheckFacts facts = good();
        facts.played = PlayedProbe::Result{};
        QCOMPARE(int(findingOf(facts)), int(CheckFinding::fine));
        facts.played.reset();
        QCOMPARE(int(findingOf(facts)), int(CheckFinding::fine));
    }

    void whatIsOnlyOfTheLoudspeakerLetsLevelsHold()
    {
        for (int i = 0; i <= static_cast<int>(CheckFinding::loudspeakerTooLoud); ++i) {
            const auto finding = static_cast<CheckFinding>(i);
            const bool blank = blankOf(finding) == Blank::none || blankOf(finding) == Blank::loudspeakerTooLoud ||
                               blankOf(finding) == Blank::setupChanged;
            QCOMPARE(levelsHold(finding), blank);
        }
    }
};

QTEST_APPLESS_MAIN(TestCheckFindings)
#include "test_check_findings.moc"
