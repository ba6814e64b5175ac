// The loudspeaker taken out of a microphone that other people listen to.
#include "common/echo/echo_reducer.h"
#include "common/voice/room.h"
#include "common/voice/voice.h"
#include "tests/app/sound/count_allocations.h"

#include <QtTest>

#include <algorithm>
#include <cmath>
#include <vector>

using namespace vh;

namespace
{

std::vector<float> speech(std::size_t seconds, std::uint64_t seed, voice::Tract tract)
{
    std::vector<float> samples;
    while (samples.size() < seconds * 48'000) {
        voice::Utterance utterance;
        utterance.text = "They filled it with dark earth up to the seats, and set a pole where the mast had been.";
        utterance.silentSeconds = 0.3;
        utterance.levelDbfsA = -26;
        voice::VoiceTraits traits;
        traits.tract = tract;
        traits.pitchHz = tract == voice::Tract::woman ? 210 : 115;
        const auto sound = voice::render(utterance, traits, ++seed);
        samples.insert(samples.end(), sound.samples.begin(), sound.samples.end());
    }
    samples.resize(seconds * 48'000);
    return samples;
}

std::vector<float> through(EchoReducer& reducer, const std::vector<float>& microphone, const std::vector<float>& far)
{
    std::vector<float> out;
    out.reserve(microphone.size() + EchoReducer::kFrame);
    for (std::size_t at = 0; at < microphone.size(); at += 700) {
        const std::size_t count = std::min<std::size_t>(700, microphone.size() - at);
        reducer.push(std::span(microphone).subspan(at, count), std::span(far).subspan(at, count),
                     [&](std::span<const float, EchoReducer::kFrame> frame) {
                         out.insert(out.end(), frame.begin(), frame.end());
                     });
    }
    return out;
}

double levelDb(const std::vector<float>& samples, double fromSeconds, double toSeconds)
{
    const auto from = static_cast<std::size_t>(fromSeconds * 48'000);
    const auto to = std::min(samples.size(), static_cast<std::size_t>(toSeconds * 48'000));
    double sum = 0;
    for (std::size_t i = from; i < to; ++i)
        sum += static_cast<double>(samples[i]) * static_cast<double>(samples[i]);
    return 10 * std::log10(sum / static_cast<double>(to - from) + 1e-12);
}

/// The far end in a room, 150 ms after it was handed over.
std::vector<float> echoOf(const std::vector<float>& far)
{
    voice::Room room;
    room.noiseDbfsA = -80;
    const auto there = voice::inRoom(far, room, 3);
    std::vector<float> echo(far.size());
    std::copy(there.begin(), there.end() - 7200, echo.begin() + 7200);
    return echo;
}

} // namespace

class TestEchoReducer : public QObject
{
    Q_OBJECT
private slots:
    void withoutAFarEndTheMicrophonePassesUnchanged()
    {
        EchoReducer reducer;
        const auto microphone = speech(2, 1, voice::Tract::man);
        const auto out = through(reducer, microphone, std::vector<float>(microphone.size()));
        QVERIFY(out.size() >= microphone.size() - EchoReducer::kFrame);
        QVERIFY(std::equal(out.begin() + EchoReducer::kDelay, out.end(), microphone.begin()));
        QVERIFY(!reducer.works());
    }

    void whatOthersSayIsNotSentBackToThem()
    {
        EchoReducer reducer;
        const auto far = speech(12, 10, voice::Tract::woman);
        const auto echo = echoOf(far);
        const auto out = through(reducer, echo, far);
        // After some seconds of learning: 30 dB, of which the linear part gives some 20 (measured 27 with the near end
        // silent). Less is heard as one's own voice coming back.
        const double removed = levelDb(echo, 6, 12) - levelDb(out, 6, 12);
        QVERIFY2(removed >= 30, qPrintable(QString::number(removed)));
    }

    void whoeverSpeaksHereIsStillHeard()
    {
        EchoReducer reducer;
        const auto far = speech(14, 20, voice::Tract::woman);
        auto microphone = echoOf(far);
        const auto near = speech(6, 30, voice::Tract::man);
        for (std::size_t i = 0; i < near.size(); ++i)
            microphone[8 * 48'000 + i] += near[i]; // about 10 dB over the echo
        const auto out = through(reducer, microphone, far);
        const double lost = levelDb(near, 0, 6) - levelDb(out, 8, 14);
        QVERIFY2(std::abs(lost) <= 4, qPrintable(QString::number(lost)));
    }

    void betweenWorkingAndPassingNothingClicks()
    {
        EchoReducer reducer;
        std::vector<float> far(6 * 48'000);
        const auto said = speech(2, 40, voice::Tract::woman);
        std::copy(said.begin(), said.end(), far.begin() + 48'000);
        std::vector<float> microphone(far.size()); // a low tone, in which every click would stand out
        for (std::size_t i = 0; i < microphone.size(); ++i)
            microphone[i] = 0.1F * static_cast<float>(std::sin(2 * M_PI * 150 * static_cast<double>(i) / 48'000));
        const auto out = through(reducer, microphone, far);
        float most = 0;
        for (std::size_t i = 4800; i < out.size(); ++i)
            most = std::max(most, std::abs(out[i] - out[i - 1]));
        // The tone's own steepest step is 0.002.
        QVERIFY2(most <= 0.006F, qPrintable(QString::number(static_cast<double>(most))));
        QVERIFY(std::equal(out.end() - 4800, out.end(), microphone.end() - 4800 - EchoReducer::kDelay)); // passes again
    }

    void afterARestartItBeginsAnew()
    {
        EchoReducer reducer;
        const auto far = speech(3, 50, voice::Tract::woman);
        (void)through(reducer, echoOf(far), far);
        QVERIFY(reducer.works());
        reducer.restart();
        QVERIFY(!reducer.works());
        const std::vector<float> microphone(4800, 0.2F);
        const auto out = through(reducer, microphone, std::vector<float>(4800));
        QCOMPARE(out.front(), 0.0F); // nothing of before
        QCOMPARE(out.back(), 0.2F);
    }

    void pushingAllocatesNothing()
    {
        EchoReducer reducer;
        const auto far = speech(1, 60, voice::Tract::woman);
        const std::size_t before = allocations;
        float sum = 0;
        for (std::size_t at = 0; at + 480 <= far.size(); at += 480)
            reducer.push(std::span(far).subspan(at, 480), std::span(far).subspan(at, 480),
                         [&](std::span<const float, EchoReducer::kFrame> frame) { sum += frame[0]; });
        QCOMPARE(allocations - before, std::size_t{0});
        QVERIFY(std::isfinite(sum));
        std::make_unique<int>(1); // the counter does count
        QVERIFY(allocations > before);
    }
};

QTEST_APPLESS_MAIN(TestEchoReducer)
#include "test_echo_reducer.moc"
