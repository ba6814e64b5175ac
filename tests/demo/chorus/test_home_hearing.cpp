// What a simulated home makes of the sound it gets, and the voices that the chorus sends.
#include "common/sound/opus_codec.h"
#include "demo/chorus/hearing.h"
#include "demo/chorus/leaders_voice.h"
#include "demo/chorus/live_voice.h"
#include "tests/demo/chorus/short_class.h"

#include <QtTest>

#include <numeric>

using namespace vh;
using namespace vh::chorus;
using namespace std::chrono_literals;

namespace
{

double energyOf(std::span<const float> samples)
{
    return std::inner_product(samples.begin(), samples.end(), samples.begin(), 0.0);
}

} // namespace

class TestHomeHearing : public QObject
{
    Q_OBJECT
private:
    Hearing m_hearing;
    SoundTotals m_totals;
    std::chrono::steady_clock::time_point m_start{1h};

    bool hears(std::uint32_t stream, std::uint64_t number, std::chrono::milliseconds at)
    {
        const std::string bytes = wire::encodeSound({stream, number * 960}, std::array<std::uint8_t, 1>{1});
        return m_hearing.frame({reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()}, m_start + at,
                               m_totals);
    }

private slots:
    void init()
    {
        m_hearing = {};
        m_totals = {};
        m_hearing.voiceIs({1, wire::VoiceState::carried, 5, "Ann"});
    }

    void missingFramesAreLostAndAMuteIsNone()
    {
        for (const int number : {10, 11, 15, 16, 17, 30})
            QVERIFY(hears(5, static_cast<std::uint64_t>(number), 0ms));
        QCOMPARE(m_totals.frames, std::uint64_t{6});
        QCOMPARE(m_totals.lostStretches, std::uint64_t{2});
        QCOMPARE(m_totals.lostFrames, std::uint64_t{3 + 12});
        m_hearing.voiceIs({2, wire::VoiceState::muted, 5, "Ann"});
        hears(5, 31, 0ms);
        m_hearing.voiceIs({3, wire::VoiceState::carried, 5, "Ann"});
        hears(5, 500, 0ms);
        QCOMPARE(m_totals.lostStretches, std::uint64_t{2});
    }

    void framesOfNobodyDoNotCountAndTwoVoicesAreTwoStreams()
    {
        hears(6, 0, 0ms);
        QCOMPARE(m_totals.frames, std::uint64_t{0});
        wire::Speaking speaking;
        speaking.on = true;
        speaking.stream = 6;
        m_hearing.speakingIs(speaking);
        hears(5, 100, 0ms);
        hears(6, 7, 0ms);
        hears(5, 101, 20ms);
        hears(6, 8, 20ms);
        QCOMPARE(m_totals.frames, std::uint64_t{4});
        QCOMPARE(m_totals.lostStretches, std::uint64_t{0});
        QVERIFY(!m_hearing.frame(std::array<std::uint8_t, 4>{2, 1, 0, 0}, m_start, m_totals));
    }

    void delaysAreCountedFromTheQuickestFrame()
    {
        for (int i = 0; i < 100; ++i) // one in ten is 30 ms late
            hears(5, static_cast<std::uint64_t>(i), std::chrono::milliseconds(20 * i + (i % 10 == 5 ? 30 : 0)));
        QCOMPARE(m_totals.delayMs(0.5), std::size_t{0});
        QCOMPARE(m_totals.delayMs(0.99), std::size_t{30});
    }

    void theLeaderSpeaksInListenAndWithMeAndInNoOtherTurn()
    {
        const ClassScript script = vh::testing::shortClass();
        std::size_t samples = 0;
        for (std::optional<Place> place = Place{}; place; place = nextTurn(script, *place)) {
            const auto at = turnAt(script, *place);
            const std::vector<float> turn = leadersTurn(script, *place);
            const bool speaks = at->turn->kind == TurnKind::listen || at->turn->kind == TurnKind::withMe;
            QCOMPARE(energyOf(turn) > 1, speaks);
            QVERIFY(turn.size() <= static_cast<std::size_t>(at->turn->planned.count()) * 48);
            samples += static_cast<std::size_t>(at->turn->planned.count()) * 48;
        }
        QCOMPARE(leadersClass(script).size(), samples);
    }

    void whatIsSaidGoesOutAsOpusAtThePaceOfTheClock()
    {
        LiveVoice voice(9, m_start);
        const auto text =
            std::make_shared<const std::vector<float>>(leadersTurn(vh::testing::shortClass(), {0, 0, 0, 0}));
        voice.say(text);
        VoiceDecoder decoder;
        std::array<float, kSoundFrame> frame{};
        std::vector<float> heard;
        std::uint64_t next = 0;
        bool inOrder = true;
        for (auto at = m_start; at <= m_start + 2s; at += 7ms)
            voice.beat(at, [&](const wire::SoundHead& head, std::span<const std::uint8_t> payload) {
                inOrder = inOrder && head.stream == 9 && head.firstSample == std::exchange(next, next + kSoundFrame);
                QVERIFY(decoder.decode(payload, frame));
                heard.insert(heard.end(), frame.begin(), frame.end());
            });
        QVERIFY(inOrder && !voice.isSpeaking());
        QVERIFY(heard.size() > 1.9 * 48'000 && heard.size() <= 2 * 48'000);
        // The codec takes a little off (opus_codec.h); silence would take all.
        const double lossDb = 10 * std::log10(energyOf(heard) / energyOf(*text));
        QVERIFY2(lossDb > -2 && lossDb < 1, qPrintable(QString::number(lossDb)));
        // The process stood still: what is long past is not said afterwards.
        int frames = 0;
        voice.beat(m_start + 60s, [&](const auto&, auto) { ++frames; });
        QCOMPARE(frames, 50);
    }
};

QTEST_APPLESS_MAIN(TestHomeHearing)
#include "test_home_hearing.moc"
