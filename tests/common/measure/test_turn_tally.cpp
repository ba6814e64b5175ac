#include "common/measure/turn_tally.h"

#include <QtTest>

#include <cmath>
#include <cstdlib>
#include <new>

using namespace vh;

static std::size_t g_allocations = 0;

void* operator new(std::size_t size)
{
    ++g_allocations;
    if (void* memory = std::malloc(size))
        return memory;
    throw std::bad_alloc();
}
void operator delete(void* memory) noexcept
{
    std::free(memory);
}
void operator delete(void* memory, std::size_t) noexcept
{
    std::free(memory);
}

namespace
{

VoiceFrame voice(float dbfsA, Blank blank = Blank::none)
{
    VoiceFrame frame;
    frame.meanSquareA = std::pow(10.0F, dbfsA / 10);
    frame.fastDbfsA = dbfsA;
    frame.voiced = true;
    frame.blank = blank;
    return frame;
}

VoiceFrame quiet(Blank blank = Blank::none)
{
    VoiceFrame frame;
    frame.meanSquareA = 1e-7F;
    frame.fastDbfsA = -70;
    frame.blank = blank;
    return frame;
}

void addFrames(TurnTally& tally, const VoiceFrame& frame, int count)
{
    for (int i = 0; i < count; ++i)
        tally.add(frame);
}

} // namespace

class TestTurnTally : public QObject
{
    Q_OBJECT
private slots:
    void steadyVoiceIsItsLevelOverTheUsual()
    {
        TurnTally tally(7, -40);
        addFrames(tally, voice(-34), 200);
        const Reading reading = tally.reading();
        QCOMPARE(reading.turnSerial, 7U);
        QCOMPARE(reading.elapsedMs, 2000U);
        QCOMPARE(reading.heardMs, 2000U);
        QCOMPARE(reading.voicedMs, 2000U);
        QCOMPARE(reading.leqOverUsualDb, 6.0F);
        QCOMPARE(reading.nowOverUsualDb, 6.0F);
        QCOMPARE(reading.trustPercent, std::uint8_t{100});
        QCOMPARE(reading.reason, Blank::none);
        QCOMPARE(reading.judgeVersion, kJudgeVersion);
    }

    // Closed form: half the time at 0, half at -10 dB has the mean energy (1 + 0.1) / 2, which is -2.596 dB.
    void leqIsTheMeanOfEnergiesNotOfDecibels()
    {
        TurnTally tally(1, 0);
        addFrames(tally, voice(0), 100);
        addFrames(tally, voice(-10), 100);
        QCOMPARE(tally.reading().leqOverUsualDb, -2.6F);
    }

    void pausesBetweenWordsDoNotLowerTheLevel()
    {
        TurnTally tally(1, -40);
        addFrames(tally, voice(-34), 100);
        addFrames(tally, quiet(), 300);
        const Reading reading = tally.reading();
        QCOMPARE(reading.leqOverUsualDb, 6.0F);
        QCOMPARE(reading.elapsedMs, 4000U);
        QCOMPARE(reading.heardMs, 1000U);
        QCOMPARE(reading.nowOverUsualDb, -30.0F);
    }

    void voiceThatCannotBeTrustedIsCountedButNotInTheLevel()
    {
        TurnTally tally(1, -40);
        addFrames(tally, voice(-34), 120);
        addFrames(tally, voice(0, Blank::clipping), 40);
        const Reading reading = tally.reading();
        QCOMPARE(reading.leqOverUsualDb, 6.0F);
        QCOMPARE(reading.heardMs, 1600U);
        QCOMPARE(reading.voicedMs, 1200U);
        QCOMPARE(reading.trustPercent, std::uint8_t{75});
        QCOMPARE(reading.reason, Blank::clipping);
    }

    void withVoiceTrustIsAboutTheVoice()
    {
        TurnTally tally(1, -40);
        addFrames(tally, voice(-34), 100);
        addFrames(tally, quiet(Blank::loudspeakerTooLoud), 300); // between the person's words only
        QCOMPARE(tally.reading().trustPercent, std::uint8_t{100});
        QCOMPARE(tally.reading().reason, Blank::none);
    }

    void withoutVoiceTrustIsAboutTheWholeTurn()
    {
        TurnTally tally(1, -40);
        addFrames(tally, quiet(Blank::noSignal), 300);
        addFrames(tally, voice(-34), 99);                         // 10 ms short of a second
        QCOMPARE(tally.reading().trustPercent, std::uint8_t{24}); // 99 of 399, rounded down
        QCOMPARE(tally.reading().reason, Blank::noSignal);
        tally.add(voice(-34));
        QCOMPARE(tally.reading().trustPercent, std::uint8_t{100});
    }

    void theCommonestReasonIsGiven()
    {
        TurnTally tally(1, -40);
        addFrames(tally, voice(-34, Blank::clipping), 60);
        addFrames(tally, voice(-34, Blank::somebodyElse), 70);
        QCOMPARE(tally.reading().reason, Blank::somebodyElse);
        QCOMPARE(tally.reading().trustPercent, std::uint8_t{0});
        QCOMPARE(tally.reading().voicedMs, 0U);
        addFrames(tally, voice(-34, Blank::clipping), 10);
        QCOMPARE(tally.reading().reason, Blank::clipping); // of equals, the first in order
    }

    void anEmptyTurnSaysNothing()
    {
        const Reading reading = TurnTally(3, -40).reading();
        QCOMPARE(reading.elapsedMs, 0U);
        QCOMPARE(reading.voicedMs, 0U);
        QCOMPARE(reading.leqOverUsualDb, 0.0F);
        QCOMPARE(reading.trustPercent, std::uint8_t{100});
    }

    void digitalSilenceMarkedAsVoiceIsNoVoice()
    {
        TurnTally tally(1, -40);
        VoiceFrame frame;
        frame.voiced = true;
        addFrames(tally, frame, 200);
        QCOMPARE(tally.reading().voicedMs, 0U);
        QCOMPARE(tally.reading().leqOverUsualDb, 0.0F);
    }

    // On the wire levels are whole tenths: reading and wire must not differ by a bit, or home and hall might.
    void levelsAreWholeTenths()
    {
        for (int i = 0; i < 200; ++i) {
            TurnTally tally(1, -40.0F + 0.013F * static_cast<float>(i));
            addFrames(tally, voice(-34), 100);
            const float level = tally.reading().leqOverUsualDb;
            QCOMPARE(level, static_cast<float>(std::lround(level * 10)) / 10.0F);
        }
    }

    // Losing readings changes nothing: whatever was said before, the last one is the same.
    void readingInBetweenChangesNothing()
    {
        TurnTally asked(1, -40);
        TurnTally left(1, -40);
        for (int i = 0; i < 400; ++i) {
            const VoiceFrame frame = i % 3 == 0 ? quiet() : voice(-40.0F + static_cast<float>(i % 11));
            asked.add(frame);
            left.add(frame);
            if (i % 25 == 0)
                (void)asked.reading();
        }
        QCOMPARE(asked.reading(), left.reading());
    }

    void theLeakIsWhatIsLeftOfTheLoudspeakerInTheVoice()
    {
        TurnTally tally(1, -40);
        addFrames(tally, quiet(), 50);
        QCOMPARE(tally.leakDb(), -120.0F);
        VoiceFrame leaky = quiet();
        leaky.leakMeanSquareA = 1e-6F;
        tally.add(leaky);
        QCOMPARE(tally.leakDb(), 60.0F); // it sounds, and there is no voice beside it
        VoiceFrame both = voice(-40);
        both.leakMeanSquareA = both.meanSquareA / 11; // the voice alone is ten parts of eleven
        addFrames(tally, both, 100);
        QVERIFY(std::abs(tally.leakDb() + 10) < 0.01F);
    }

    void nothingIsAllocated()
    {
        const std::size_t before = g_allocations;
        TurnTally tally(1, -40);
        addFrames(tally, voice(-34), 3000);
        volatile float level = tally.reading().leqOverUsualDb;
        const std::size_t after = g_allocations;
        QCOMPARE(level, 6.0F);
        QCOMPARE(after, before);
    }

    void theCeilingIsEightyAtThirtyCentimetres()
    {
        QCOMPARE(ceilingOf(78.9F), Ceiling::clear);
        QCOMPARE(ceilingOf(79.0F), Ceiling::reached);
        QCOMPARE(ceilingOf(80.0F), Ceiling::reached);
        QCOMPARE(ceilingOf(80.1F), Ceiling::over);
    }
};

QTEST_APPLESS_MAIN(TestTurnTally)
#include "test_turn_tally.moc"
