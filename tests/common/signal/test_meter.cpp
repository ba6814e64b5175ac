#include "common/signal/meter.h"
#include "common/signal/resampler.h"
#include "tests/common/allocation_counter.h"
#include "tests/common/signal/synthetic.h"

#include <QtTest>

#include <limits>

using namespace vh;
using namespace vh::test;

namespace
{
const auto kIgnore = [](const VoiceFrame&) {};

/// Room, voice, overdriven voice, dead line.
Samples aBitOfEverything()
{
    Samples loud = sing({.pitchHz = 210, .seed = 3}, 0.5, -6);
    for (float& sample : loud)
        sample = std::clamp(sample * 3, -1.0F, 1.0F);
    return joined({whiteNoise(1, -60), mixed(whiteNoise(2, -60), sing({}, 1.5, -30)), loud, silence(1.5)});
}

bool same(const VoiceFrame& a, const VoiceFrame& b)
{
    return a.meanSquareA == b.meanSquareA && a.fastDbfsA == b.fastDbfsA && a.noiseFloorDbfsA == b.noiseFloorDbfsA &&
           a.voiced == b.voiced && a.blank == b.blank;
}
} // namespace

class TestMeter : public QObject
{
    Q_OBJECT
private slots:
    void blocksOfAnySizeGiveTheSameFrames()
    {
        const Samples sound = aBitOfEverything();
        std::vector<VoiceFrame> whole;
        Meter meter;
        meter.push(sound, [&](const VoiceFrame& frame) { whole.push_back(frame); });
        QCOMPARE(whole.size(), sound.size() / 480 - Meter::kDelayFrames);
        for (const std::size_t size : {1, 7, 479, 480, 481, 1024, 4801}) {
            std::vector<VoiceFrame> pieces;
            Meter other;
            for (std::size_t at = 0; at < sound.size(); at += size)
                other.push(std::span(sound).subspan(at, std::min(size, sound.size() - at)),
                           [&](const VoiceFrame& frame) { pieces.push_back(frame); });
            QVERIFY(std::equal(whole.begin(), whole.end(), pieces.begin(), pieces.end(), same));
            QCOMPARE(other.leqA().leqDb(), meter.leqA().leqDb());
            QCOMPARE(other.slowCDb(), meter.slowCDb());
        }
    }

    // What a frame says of a voice is known from the frames after it, so it comes out late; by how much never changes.
    void aFrameComesOutWhenAllThatBearsOnItIsHeard()
    {
        Meter meter;
        std::size_t out = 0;
        const Samples frame = whiteNoise(0.01, -40);
        for (std::size_t in = 1; in < 20; ++in) {
            meter.push(frame, [&](const VoiceFrame&) { ++out; });
            QCOMPARE(out, in > Meter::kDelayFrames ? in - Meter::kDelayFrames : 0);
        }
    }

    // A vowel begins with the frame that it begins in, not when its period has been seen often enough to be sure.
    void aVowelIsVoicedFromItsFirstFrames()
    {
        Meter meter;
        std::vector<VoiceFrame> frames;
        meter.push(mixed(whiteNoise(3, -70), sing({.pitchHz = 140}, 1.5, -30), 1),
                   [&](const VoiceFrame& each) { frames.push_back(each); });
        const auto first = std::find_if(frames.begin(), frames.end(), [](const VoiceFrame& f) { return f.voiced; });
        const auto at = first - frames.begin();
        QVERIFY2(at >= 99 && at <= 102, qPrintable(QString::number(at)));
    }

    void meanOfTheFramesIsLeq()
    {
        Meter meter;
        double sum = 0;
        int count = 0;
        const auto add = [&](const VoiceFrame& frame) {
            sum += frame.meanSquareA;
            ++count;
        };
        meter.push(aBitOfEverything(), add);
        meter.push(silence(0.01 * Meter::kDelayFrames), add);
        // Those held back are silent: they count for Leq, with nothing to add.
        QCOMPARE(meter.leqA().count(), count + static_cast<int>(Meter::kDelayFrames));
        const double mean = sum / static_cast<double>(meter.leqA().count());
        QVERIFY(std::abs(10 * std::log10(mean) - meter.leqA().leqDb()) < 1e-4); // float against double
    }

    // The value a leader sees for a voice of known Leq; house rule: within 0.5 dB. Room 40 dB below.
    void voicedLeqIsTheLevelOfTheVoice()
    {
        Meter alone;
        const Samples voice = sing({.pitchHz = 130}, 4, -32);
        alone.push(voice, kIgnore);
        Meter meter;
        meter.push(mixed(whiteNoise(8, -75), voice, 2), kIgnore);
        QVERIFY(std::abs(meter.voicedLeqA().leqDb() - alone.leqA().leqDb()) < 0.15);
        QVERIFY(std::abs(static_cast<double>(meter.voicedLeqA().count()) - 405) < 10);
    }

    // IEC 61672-1:2013 5.6: linear within 0.8 dB over at least 60 dB at 1 kHz, and any step of 1 to 10 dB within 0.3
    // dB.
    void levelIsLinearOverMoreThanSixtyDecibels()
    {
        double before = 0;
        for (int db = -90; db <= -4; ++db) {
            Meter meter;
            meter.push(sine(1000, 1.5, db), kIgnore);
            QVERIFY2(std::abs(meter.fastADb() - db) < 0.1,
                     qPrintable(QString("%1 at %2").arg(meter.fastADb()).arg(db)));
            if (db > -90)
                QVERIFY(std::abs(meter.fastADb() - before - 1.0) < 0.05);
            before = meter.fastADb();
        }
    }

    // IEC 61672-1:2013 5.5 and 5.8: A and C within 0.2 dB, F and S within 0.1 dB on a steady tone at 1 kHz.
    void allReadingsAgreeAtOneKilohertz()
    {
        Meter meter;
        meter.push(sine(1000, 12, -26), kIgnore);
        for (const double db : {meter.fastADb(), meter.slowADb(), meter.fastCDb(), meter.slowCDb()})
            QVERIFY2(std::abs(db + 26) < 0.02, qPrintable(QString::number(db)));
        QVERIFY(std::abs(meter.leqC().leqDb() + 26) < 0.02);
        QVERIFY(std::abs(meter.speechLevel()->activeDb + 26) < 0.1);
    }

    void aNewMeasurementForgetsTheOld()
    {
        Meter meter;
        meter.push(sing({}, 2, -20), kIgnore);
        meter.restartMeasurement();
        QCOMPARE(meter.leqA().leqDb(), kLowestDb);
        QCOMPARE(meter.voicedLeqA().count(), 0);
        QVERIFY(!meter.speechLevel());
        meter.push(sine(1000, 5, -40), kIgnore);
        QVERIFY(std::abs(meter.leqA().leqDb() + 40) < 1.0); // the filters ring on for a moment
    }

    void brokenSamplesDoNoLastingHarm()
    {
        Meter meter;
        Samples broken = silence(0.1);
        broken[5] = std::numeric_limits<float>::quiet_NaN();
        broken[6] = std::numeric_limits<float>::infinity();
        broken[7] = -std::numeric_limits<float>::max();
        meter.push(broken, [](const VoiceFrame& frame) { QVERIFY(std::isfinite(frame.meanSquareA)); });
        meter.push(sine(1000, 5, -40), kIgnore);
        QVERIFY(std::abs(meter.fastADb() + 40) < 0.1);
    }

    void nothingHasBeenHeardOfTheRoomAtFirst()
    {
        Meter meter;
        QVERIFY(!meter.noiseFloorADb());
        QCOMPARE(meter.fastADb(), kLowestDb);
        meter.push({}, [](const VoiceFrame&) { QFAIL("no frame without samples"); });
        meter.push(silence(0.0099), [](const VoiceFrame&) { QFAIL("no frame before 10 ms"); });
        meter.push(whiteNoise(1, -50), kIgnore);
        QVERIFY(meter.noiseFloorADb());
    }

    void theCounterSeesAllocations()
    {
        AllocationCounter counter;
        Samples taken(1000);
        QVERIFY(taken.data() != nullptr);
        QVERIFY(counter.count() >= 1);
#ifdef VH_COUNTS_MALLOC
        const auto before = counter.count();
        void* volatile memory = std::malloc(10);
        std::free(memory);
        QCOMPARE(counter.count(), before + 1);
#endif
    }

    void theMeterTakesNothingFromTheHeap()
    {
        const Samples sound = aBitOfEverything();
        Meter meter;
        int frames = 0;
        const AllocationCounter counter;
        for (std::size_t at = 0; at < sound.size(); at += 333) {
            meter.push(std::span(sound).subspan(at, std::min<std::size_t>(333, sound.size() - at)),
                       [&](const VoiceFrame&) { ++frames; });
            (void)meter.speechLevel();
            (void)meter.noiseFloorADb();
        }
        meter.restartMeasurement();
        const auto taken = counter.count();
        QCOMPARE(taken, std::uint64_t(0));
        QVERIFY(frames > 400);
    }

    void theResamplerTakesNothingFromTheHeap()
    {
        for (const int rate : {8000, 16'000, 44'100, 48'000, 96'000, 192'000}) {
            const Samples sound = sine(300, 1, -20, rate);
            Resampler resampler(rate);
            std::size_t out = 0;
            const AllocationCounter counter;
            for (std::size_t at = 0; at < sound.size(); at += 333)
                resampler.push(std::span(sound).subspan(at, std::min<std::size_t>(333, sound.size() - at)),
                               [&](std::span<const float> piece) { out += piece.size(); });
            const auto taken = counter.count();
            QCOMPARE(taken, std::uint64_t(0));
            QVERIFY(out > 40'000);
        }
    }
};

QTEST_APPLESS_MAIN(TestMeter)
#include "test_meter.moc"
