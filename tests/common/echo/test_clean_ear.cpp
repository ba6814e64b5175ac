// The person told from the loudspeaker.
#include "common/echo/clean_ear.h"
#include "tests/common/allocation_counter.h"
#include "tests/common/echo/echo_sounds.h"

#include <QtTest>

#include <bit>
#include <cmath>

using namespace vh;
using namespace vh::testing;

namespace
{
constexpr std::size_t kRate = 48'000;

/// Somebody humming, on and off, in a little noise.
std::vector<float> humming(std::size_t samples)
{
    std::vector<float> out(samples);
    std::uint32_t state = 1;
    for (std::size_t i = 0; i < samples; ++i) {
        state = state * 1664525U + 1013904223U;
        const double noise = static_cast<double>(state) / 4294967296.0 - 0.5;
        const double t = static_cast<double>(i) / kRate;
        double hum = 0;
        for (int k = 1; k <= 12; ++k)
            hum += std::sin(2 * M_PI * 140 * k * t) / k;
        out[i] = static_cast<float>(3e-4 * noise + (std::fmod(t, 2.0) < 1.2 ? 0.03 * hum : 0));
    }
    return out;
}

/// A leader who talks for twelve seconds, and what comes back: 50 ms later, at `leakDb`, in a small room.
struct Talk {
    std::vector<float> far;
    std::vector<float> mic;
};

/// Before the leak's level.
Talk talkAtOne()
{
    constexpr std::size_t late = 2400;
    Talk made;
    made.far.resize(12 * kRate);
    std::size_t at = kRate / 2;
    for (std::uint64_t seed = 1; at < made.far.size(); ++seed) {
        const auto said = speech("Please bring the brown loaf and the butter back from the market", true, -26, seed);
        for (std::size_t i = 0; i < said.size() && at + i < made.far.size(); ++i)
            made.far[at + i] = said[i];
        at += said.size() + kRate / 5;
    }
    made.mic = convolved(made.far, roomResponse(late, late + 480, 9));
    return made;
}

Talk talk(float leakDb)
{
    static const Talk atOne = talkAtOne();
    Talk made = atOne;
    const std::vector<float> hiss = noise(made.mic.size(), 10);
    const float gain = std::pow(10.0F, leakDb / 20);
    for (std::size_t i = 0; i < made.mic.size(); ++i)
        made.mic[i] = gain * made.mic[i] + 2e-4F * hiss[i];
    return made;
}

std::vector<VoiceFrame> heard(CleanEar& ear, const Talk& sound)
{
    std::vector<VoiceFrame> frames;
    frames.reserve(sound.mic.size() / 480);
    ear.push(sound.mic, sound.far, [&](const VoiceFrame& frame) { frames.push_back(frame); });
    return frames;
}

std::ptrdiff_t countOf(std::span<const VoiceFrame> frames, Whose whose)
{
    return std::count_if(frames.begin(), frames.end(), [=](const VoiceFrame& f) { return f.whose == whose; });
}

void mix(std::vector<float>& to, const std::vector<float>& what, std::size_t at)
{
    for (std::size_t i = 0; i < what.size() && at + i < to.size(); ++i)
        to[at + i] += what[i];
}

bool sameBits(float a, float b)
{
    return std::bit_cast<std::uint32_t>(a) == std::bit_cast<std::uint32_t>(b);
}
} // namespace

class TestCleanEar : public QObject
{
    Q_OBJECT
private slots:
    void withASilentFarEndItIsTheMeterBitForBit()
    {
        const std::vector<float> mic = humming(6 * kRate);
        const std::vector<float> far(mic.size(), 0.0F);
        std::vector<VoiceFrame> plain;
        Meter meter;
        meter.push(mic, [&](const VoiceFrame& frame) { plain.push_back(frame); });
        std::vector<VoiceFrame> clean;
        CleanEar ear;
        for (std::size_t at = 0; at < mic.size(); at += 777) {
            const std::size_t count = std::min<std::size_t>(777, mic.size() - at);
            ear.push(std::span(mic).subspan(at, count), std::span(far).subspan(at, count),
                     [&](const VoiceFrame& frame) { clean.push_back(frame); });
        }
        QCOMPARE(clean.size(), plain.size());
        int voiced = 0;
        for (std::size_t i = 0; i < plain.size(); ++i) {
            QVERIFY(sameBits(clean[i].meanSquareA, plain[i].meanSquareA));
            QVERIFY(sameBits(clean[i].fastDbfsA, plain[i].fastDbfsA));
            QVERIFY(sameBits(clean[i].noiseFloorDbfsA, plain[i].noiseFloorDbfsA));
            QVERIFY(sameBits(clean[i].confidence, plain[i].confidence));
            QCOMPARE(clean[i].voiced, plain[i].voiced);
            QCOMPARE(clean[i].blank, plain[i].blank);
            QCOMPARE(clean[i].whose, plain[i].voiced ? Whose::person : Whose::room);
            QCOMPARE(clean[i].leakMeanSquareA, 0.0F);
            voiced += plain[i].voiced ? 1 : 0;
        }
        QVERIFY(voiced > 200);
    }

    void theLeaderOutOfTheLoudspeakerIsNotThePerson()
    {
        CleanEar ear;
        const auto frames = heard(ear, talk(-12));
        const auto late = std::span(frames).subspan(500);
        QVERIFY(countOf(late, Whose::loudspeaker) > 400);
        const auto believed = std::count_if(late.begin(), late.end(),
                                            [](const VoiceFrame& f) { return f.voiced && f.blank == Blank::none; });
        QVERIFY2(believed < 10, qPrintable(QString::number(believed)));
        const auto path = ear.path();
        QVERIFY(path);
        QVERIFY2(std::abs(path->delayMs - 50) < 0.2, qPrintable(QString::number(path->delayMs)));
        QVERIFY2(std::abs(path->leakDb + 12) < 2.5, qPrintable(QString::number(path->leakDb)));
    }

    // Over a leak 10 dB weaker, the person's level is what it is without it.
    void aVoiceOverTheLeakKeepsItsLevel()
    {
        Talk both = talk(-20);
        const auto voice = speech("Warm bread and milk, if you please", false, -36, 77);
        std::vector<float> alone(voice.size() + kRate / 2, 0.0F);
        mix(alone, voice, kRate / 4);
        mix(both.mic, voice, 8 * kRate);
        CleanEar ear;
        const auto frames = heard(ear, both);
        double with = 0;
        double without = 0;
        std::size_t at = 0;
        Meter meter;
        meter.push(alone, [&](const VoiceFrame& frame) {
            const VoiceFrame& clean = frames[775 + at++];
            if (frame.meanSquareA > 1e-5F) {
                with += clean.meanSquareA;
                without += frame.meanSquareA;
            }
        });
        QVERIFY2(std::abs(decibels(with / without)) < 0.3, qPrintable(QString::number(decibels(with / without))));
        const auto said = std::span(frames).subspan(810, voice.size() / 480 - 30);
        const auto persons = countOf(said, Whose::person);
        QVERIFY2(persons > static_cast<std::ptrdiff_t>(said.size()) / 2,
                 qPrintable(QString("%1 of %2").arg(persons).arg(said.size())));
    }

    // The trap: an adapting canceller takes the person's vowel for the leader's when both are on one pitch.
    void theSameVowelOnTheSamePitchStaysThePersons()
    {
        Talk both = talk(-20);
        const auto leader = heldVowel(150, true, 3, -26, 3);
        const auto person = heldVowel(150, false, 3, -36, 4);
        std::fill(both.far.begin() + 8 * kRate, both.far.end(), 0.0F);
        std::fill(both.mic.begin() + 8 * kRate + 3600, both.mic.end(), 0.0F);
        mix(both.far, leader, 8 * kRate + kRate / 4);
        auto leak = convolved(leader, roomResponse(2400, 2880, 9));
        for (float& sample : leak)
            sample *= 0.1F;
        mix(both.mic, leak, 8 * kRate + kRate / 4);
        mix(both.mic, person, 8 * kRate + kRate / 4);
        mix(
            both.mic,
            [] {
                auto hiss = noise(12 * kRate, 12);
                for (float& s : hiss)
                    s *= 2e-4F;
                return hiss;
            }(),
            0);
        CleanEar ear;
        const auto frames = heard(ear, both);
        double with = 0;
        std::size_t at = 0;
        double without = 0;
        Meter meter;
        meter.push(person, [&](const VoiceFrame& frame) {
            with += frames[825 + at++].meanSquareA;
            without += frame.meanSquareA;
        });
        QVERIFY2(std::abs(decibels(with / without)) < 0.7, qPrintable(QString::number(decibels(with / without))));
        const auto held = std::span(frames).subspan(860, 220);
        QVERIFY(countOf(held, Whose::person) > 180);
    }

    void whereTheLeakDrownsThePersonTheFramesCannotBeTrusted()
    {
        Talk both = talk(0);
        mix(both.mic, speech("Warm bread and milk, if you please", false, -56, 77), 8 * kRate);
        CleanEar ear;
        const auto frames = heard(ear, both);
        const auto said = std::span(frames).subspan(800);
        const auto trusted = std::count_if(said.begin(), said.end(),
                                           [](const VoiceFrame& f) { return f.voiced && f.blank == Blank::none; });
        QVERIFY2(trusted < 40, qPrintable(QString::number(trusted)));
    }

    void aHeadsetLetsNothingBackAndThatIsKnown()
    {
        Talk sound = talk(0);
        const std::vector<float> hiss = noise(sound.mic.size(), 20);
        for (std::size_t i = 0; i < hiss.size(); ++i)
            sound.mic[i] = 2e-4F * hiss[i];
        mix(sound.mic, speech("Warm bread and milk, if you please", false, -36, 77), 8 * kRate);
        CleanEar ear;
        const auto frames = heard(ear, sound);
        QCOMPARE(ear.path(), EchoPath{});
        QVERIFY(countOf(std::span(frames).subspan(800), Whose::person) > 150);
    }

    void beforeTheWayIsKnownNothingIsBelieved()
    {
        CleanEar ear;
        const auto frames = heard(ear, talk(-6));
        const auto early = std::span(frames).first(170);
        QVERIFY(std::none_of(early.begin(), early.end(),
                             [](const VoiceFrame& f) { return f.voiced && f.blank == Blank::none; }));
        QVERIFY(countOf(early, Whose::cantTell) > 20);
    }

    void howTheSamplesAreCutChangesNothing()
    {
        const Talk sound = talk(-12);
        CleanEar whole;
        const auto once = heard(whole, sound);
        CleanEar ear;
        std::vector<VoiceFrame> pieces;
        for (std::size_t at = 0; at < sound.mic.size(); at += 1013) {
            const std::size_t count = std::min<std::size_t>(1013, sound.mic.size() - at);
            ear.push(std::span(sound.mic).subspan(at, count), std::span(sound.far).subspan(at, count),
                     [&](const VoiceFrame& frame) { pieces.push_back(frame); });
        }
        QCOMPARE(pieces.size(), once.size());
        for (std::size_t i = 0; i < once.size(); ++i) {
            QVERIFY(sameBits(pieces[i].meanSquareA, once[i].meanSquareA));
            QCOMPARE(pieces[i].whose, once[i].whose);
        }
    }

    void nothingIsAllocatedOnceBuilt()
    {
        const Talk sound = talk(-12);
        CleanEar ear;
        int frames = 0;
        const test::AllocationCounter counter;
        ear.push(sound.mic, sound.far, [&](const VoiceFrame&) { ++frames; });
        const std::uint64_t allocated = counter.count();
        QCOMPARE(frames, 1200 - static_cast<int>(Meter::kDelayFrames));
        QCOMPARE(allocated, std::uint64_t{0});
    }

    void whatIsNotANumberDoesNoLastingHarm()
    {
        Talk sound = talk(-12);
        for (std::size_t i = 7 * kRate; i < 7 * kRate + 100; ++i)
            sound.mic[i] = sound.far[i] = std::numeric_limits<float>::quiet_NaN();
        CleanEar ear;
        for (const VoiceFrame& frame : heard(ear, sound))
            QVERIFY(std::isfinite(frame.meanSquareA) && std::isfinite(frame.leakMeanSquareA));
        QVERIFY(ear.path());
    }
};

QTEST_APPLESS_MAIN(TestCleanEar)
#include "test_clean_ear.moc"
