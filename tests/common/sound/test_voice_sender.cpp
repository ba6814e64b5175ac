#include "common/sound/soft_limiter.h"
#include "common/sound/voice_sender.h"
#include "tests/common/allocation_counter.h"
#include "tests/common/signal/synthetic.h"

#include <QtTest>

using namespace vh;
using namespace vh::test;

namespace
{
struct Sent {
    std::uint64_t first;
    std::vector<std::uint8_t> payload;
    friend bool operator==(const Sent&, const Sent&) = default;
};

std::vector<Sent> send(VoiceSender& sender, std::span<const float> sound, std::size_t chunk = 480)
{
    std::vector<Sent> sent;
    for (std::size_t at = 0; at < sound.size(); at += chunk)
        sender.push(sound.subspan(at, std::min(chunk, sound.size() - at)),
                    [&](const wire::SoundHead& head, auto payload) {
                        sent.push_back({head.firstSample, {payload.begin(), payload.end()}});
                    });
    return sent;
}

Samples heard(const std::vector<Sent>& sent)
{
    VoiceDecoder decoder;
    Samples sound;
    std::array<float, kSoundFrame> frame{};
    for (const Sent& one : sent) {
        decoder.decode(one.payload, frame);
        sound.insert(sound.end(), frame.begin(), frame.end());
    }
    return sound;
}

float peakOf(std::span<const float> samples)
{
    float peak = 0;
    for (const float sample : samples)
        peak = std::max(peak, std::abs(sample));
    return peak;
}
} // namespace

class TestVoiceSender : public QObject
{
    Q_OBJECT
private slots:
    void anyPiecesMakeTheSameFrames()
    {
        const Samples sound = sine(220, 1, -20);
        VoiceSender whole(1);
        const auto expected = send(whole, sound, sound.size());
        QCOMPARE(expected.size(), std::size_t{50});
        for (const std::size_t chunk : {1, 7, 441, 960, 1000, 5000}) {
            VoiceSender sender(1);
            QVERIFY(send(sender, sound, chunk) == expected);
        }
    }

    void framesCarryTheCountOfTheirFirstSample()
    {
        VoiceSender sender(9);
        const auto sent = send(sender, sine(220, 0.5, -20), 333);
        for (std::size_t i = 0; i < sent.size(); ++i)
            QCOMPARE(sent[i].first, std::uint64_t{960 * i});
        QCOMPARE(sender.nextSample(), std::uint64_t{24'000});
        QCOMPARE(sender.stream(), 9U);
    }

    void theCountGoesOnThroughMuteAndNothingIsSent()
    {
        VoiceSender sender(1);
        QCOMPARE(send(sender, sine(220, 1, -20)).size(), std::size_t{50});
        sender.setMuted(true);
        const auto ending = send(sender, sine(220, 0.2, -20));
        QCOMPARE(ending.size(), std::size_t{2}); // the fade, and one frame of silence
        QVERIFY(send(sender, sine(220, 30, -20)).empty());
        sender.setMuted(false);
        const auto again = send(sender, sine(220, 0.1, -20));
        QCOMPARE(again.size(), std::size_t{5});
        QCOMPARE(again[0].first, std::uint64_t{48'000 + 9'600 + 30 * 48'000});
    }

    void aMuteIsWithinFiveMsAndEndsInSilence()
    {
        VoiceSender sender(1);
        auto sent = send(sender, sine(220, 1, -20));
        sender.setMuted(true);
        const auto ending = send(sender, sine(220, 1, -20));
        sent.insert(sent.end(), ending.begin(), ending.end());
        const Samples sound = heard(sent);
        QVERIFY(peakOf(std::span(sound).subspan(47'000, 900)) > 0.1F);
        QVERIFY(peakOf(std::span(sound).last(kSoundFrame / 2)) < 3e-4F); // its beginning lies one look-ahead later
    }

    void mutedFromTheBeginningNothingIsSent()
    {
        VoiceSender sender(1);
        sender.setMuted(true);
        QVERIFY(send(sender, sine(220, 5, -20)).empty());
    }

    void timeWithoutAMicrophoneCounts()
    {
        VoiceSender sender(1);
        send(sender, sine(220, 0.51, -20));
        sender.passOver(96'000);
        const auto sent = send(sender, sine(220, 0.1, -20));
        QCOMPARE(sent.front().first % kSoundFrame, std::uint64_t{0});
        QVERIFY(std::abs(static_cast<double>(sent.front().first) - (0.51 * 48'000 + 96'000)) <= 480);
    }

    void theBellIsHeardAndIsTheSameEachTime()
    {
        const auto ring = [] {
            VoiceSender sender(1);
            sender.strikeBell();
            return send(sender, silence(1));
        };
        const auto sent = ring();
        QVERIFY(ring() == sent);
        const Samples sound = heard(sent);
        QVERIFY(peakOf(sound) > 0.04F && peakOf(sound) < 0.15F);
        // Its lowest strong partial is the prime; it rings out.
        QVERIFY(dbOf(std::span(sound).subspan(4'800, 9'600)) > dbOf(std::span(sound).last(9'600)) + 6);
    }

    void aBellAloneEndsByItselfWithoutAClick()
    {
        Bell bell;
        bell.strike();
        Samples sound(Bell::kSamples + 100, 0.0F);
        bell.mixInto(sound);
        QVERIFY(!bell.rings());
        QVERIFY(std::abs(sound[Bell::kSamples - 1]) < 1e-5F);
        for (std::size_t i = 1; i < sound.size(); ++i)
            QVERIFY(std::abs(sound[i] - sound[i - 1]) < 0.02F);
    }

    void inYoursTurnsThereIsNeitherBellNorRecording()
    {
        VoiceSender sender(1);
        sender.setYours(true);
        send(sender, silence(0.1)); // what was under way has faded
        sender.strikeBell();
        sender.recording().feed(sine(300, 0.5, -20));
        QVERIFY(peakOf(heard(send(sender, silence(1)))) < 1e-3F);
        sender.setYours(false); // the recording goes on; the bell was for then
        const Samples sound = heard(send(sender, silence(1)));
        QVERIFY(dbOf(std::span(sound).subspan(4'800, 9'600)) > -23);
        QVERIFY(dbOf(std::span(sound).last(9'600)) < -70);
        QVERIFY(!sender.recording().sounding());
    }

    void aStoppedRecordingIsNotHeardANewOneIs()
    {
        VoiceSender sender(1);
        sender.recording().feed(sine(300, 2, -20));
        QVERIFY(sender.recording().sounding());
        send(sender, silence(0.5));
        sender.recording().stop();
        QVERIFY(!sender.recording().sounding());
        QVERIFY(endDb(heard(send(sender, silence(0.5)))) < -70);
        sender.recording().feed(sine(300, 0.5, -20));
        QVERIFY(sender.recording().sounding());
        QVERIFY(endDb(heard(send(sender, silence(0.4)))) > -23);
    }

    void theSumNeverLeavesFullScale()
    {
        float before = 0;
        for (float sample = 0; sample < 8; sample += 0.001F) { // rises, without corners, to at most 1
            const float limited = softLimited(sample);
            QVERIFY(limited >= before && limited <= 1);
            QVERIFY(limited - before < 0.00101F);
            QCOMPARE(softLimited(-sample), -limited);
            before = limited;
        }
        QCOMPARE(softLimited(0.7F), 0.7F);
        QCOMPARE(softLimited(NAN), 0.0F);
        QCOMPARE(softLimited(INFINITY), 0.0F);
        VoiceSender sender(1);
        sender.recording().feed(sine(220, 1, -0.1));
        sender.strikeBell();
        const Samples sound = heard(send(sender, sine(220, 1, -0.1)));
        QVERIFY(largestStepOf(sound) < 0.2F); // a wrap would be a step of nearly 2
    }

    void pushTakesNothingFromTheHeap()
    {
        VoiceSender sender(1);
        const Samples sound = sine(220, 1, -20);
        sender.recording().feed(sound);
        sender.strikeBell();
        std::size_t frames = 0;
        AllocationCounter allocations;
        for (int i = 0; i < 4; ++i) {
            sender.setMuted(i % 2 == 1);
            sender.push(sound, [&](const wire::SoundHead&, std::span<const std::uint8_t>) { ++frames; });
        }
        QCOMPARE(allocations.count(), std::uint64_t{0});
        QVERIFY(frames > 90);
    }

private:
    static double endDb(const Samples& sound) { return dbOf(std::span(sound).last(9'600)); }
    static float largestStepOf(std::span<const float> samples)
    {
        float largest = 0;
        for (std::size_t i = 1; i < samples.size(); ++i)
            largest = std::max(largest, std::abs(samples[i] - samples[i - 1]));
        return largest;
    }
};

QTEST_APPLESS_MAIN(TestVoiceSender)
#include "test_voice_sender.moc"
