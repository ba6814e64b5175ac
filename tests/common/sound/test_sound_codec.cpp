#include "common/sound/opus_codec.h"
#include "tests/common/signal/synthetic.h"
#include "tests/common/sound/journey.h"

#include <QtTest>

using namespace vh;
using namespace vh::test;

namespace
{
using Packet = std::vector<std::uint8_t>;

std::vector<Packet> coded(std::span<const float> sound, const VoiceCoding& coding = {})
{
    VoiceEncoder encoder(coding);
    std::vector<Packet> packets;
    for (std::size_t at = 0; at + kSoundFrame <= sound.size(); at += kSoundFrame) {
        const auto packet = encoder.encode(sound.subspan(at).first<kSoundFrame>());
        packets.emplace_back(packet.begin(), packet.end());
    }
    return packets;
}

enum class Missing { none, concealed, recovered };
/// Every `each`th frame is missing.
Samples decoded(const std::vector<Packet>& packets, Missing missing = Missing::none, std::size_t each = 12)
{
    VoiceDecoder decoder;
    Samples sound;
    std::array<float, kSoundFrame> frame{};
    for (std::size_t i = 0; i < packets.size(); ++i) {
        const bool gone = missing != Missing::none && i % each == each - 1 && i + 1 < packets.size();
        if (!gone)
            decoder.decode(packets[i], frame);
        else if (missing == Missing::recovered)
            decoder.recover(packets[i + 1], frame);
        else
            decoder.conceal(frame);
        sound.insert(sound.end(), frame.begin(), frame.end());
    }
    return sound;
}

double missingRestDb(const Samples& whole, const Samples& mended, std::size_t each = 12)
{
    double rest = 0, all = 0;
    for (std::size_t i = 0; i < whole.size(); ++i) {
        if (i / kSoundFrame % each != each - 1)
            continue;
        rest += std::pow(static_cast<double>(whole[i]) - mended[i], 2);
        all += std::pow(static_cast<double>(whole[i]), 2);
    }
    return 10 * std::log10(rest / all);
}

/// RFC 6716 table 2: frame lengths in samples at 48 kHz, by configuration number.
constexpr int kFrames[32] = {480, 960, 1920, 2880, 480, 960, 1920, 2880, 480, 960, 1920, 2880, 480, 960, 480, 960,
                             120, 240, 480,  960,  120, 240, 480,  960,  120, 240, 480,  960,  120, 240, 480, 960};
} // namespace

class TestSoundCodec : public QObject
{
    Q_OBJECT
private slots:
    void everyPacketIsOneMonoFrameOf20Ms()
    {
        for (const auto& packet : coded(leaderSpeech())) {
            QVERIFY(!packet.empty());
            const int toc = packet[0]; // RFC 6716 section 3.1: 5 bits configuration, 1 bit stereo, 2 bits count code
            QCOMPARE(kFrames[toc >> 3], 960);
            QCOMPARE(toc & 0x04, 0);
            QCOMPARE(toc & 0x03, 0);
        }
    }

    void lengthsFollowTheStandardsTable()
    {
        for (int toc = 0; toc < 256; ++toc) {
            Packet packet(7, 0);
            packet[0] = static_cast<std::uint8_t>(toc);
            packet[1] = 3; // for code 3: three frames, constant rate, no padding (section 3.2.5)
            const int frames[] = {1, 2, 2, 3};
            const int samples = kFrames[toc >> 3] * frames[toc & 3];
            const auto said = VoiceDecoder::samplesIn(packet);
            if (samples > 5760) // 120 ms is the most, requirement R5
                QVERIFY(!said);
            else
                QCOMPARE(static_cast<int>(said.value_or(0)), samples);
        }
        QVERIFY(!VoiceDecoder::samplesIn({}));
        QVERIFY(!VoiceDecoder::samplesIn(Packet(1276, 0x08)));
    }

    void aVoiceTakesAboutTheRateAskedFor()
    {
        std::size_t bytes = 0;
        const auto packets = coded(leaderSpeech());
        for (const auto& packet : packets)
            bytes += packet.size();
        const double bitsPerSecond = static_cast<double>(bytes) * 8 * 50 / static_cast<double>(packets.size());
        QVERIFY2(bitsPerSecond > 22'000 && bitsPerSecond < 30'000, qPrintable(QString::number(bitsPerSecond)));
    }

    // Measured for this project beforehand: the codec takes 0.2 to 0.7 dB off. A little room on both sides.
    void theLevelChangesByLessThanADecibel()
    {
        const double change = dbOf(decoded(coded(leaderSpeech()))) - dbOf(leaderSpeech());
        qInfo() << "level change" << change << "dB";
        QVERIFY2(change > -1.0 && change < 0.1, qPrintable(QString::number(change)));
    }

    void decodedSoundLiesOneLookaheadBehind()
    {
        const int lookahead = VoiceEncoder().lookahead();
        QCOMPARE(lookahead, 312); // 6.5 ms: RFC 6716 section 2, "5.0 ms plus 1.5 ms" beside the frame
        const auto& sound = leaderSpeech();
        const Samples heard = decoded(coded(sound));
        double best = 0;
        int at = 0;
        for (int lag = 0; lag < 960; lag += 4) {
            double sum = 0;
            for (std::size_t i = 48'000; i < 144'000; ++i)
                sum += static_cast<double>(sound[i]) * heard[i + static_cast<std::size_t>(lag)];
            if (sum > best)
                best = sum, at = lag;
        }
        QVERIFY2(std::abs(at - lookahead) <= 24, qPrintable(QString::number(at)));
    }

    void concealmentGoesOnAndThenFades()
    {
        const auto packets = coded(sine(200, 0.5, -20));
        VoiceDecoder decoder;
        std::array<float, kSoundFrame> frame{};
        for (const auto& packet : packets)
            decoder.decode(packet, frame);
        decoder.conceal(frame);
        QVERIFY(dbOf(frame) > -32); // the tone was at -20
        for (int i = 0; i < 12; ++i)
            decoder.conceal(frame);
        QVERIFY(dbOf(frame) < -40);
    }

    void redundancyMendsBetterThanConcealment()
    {
        const auto packets = coded(leaderSpeech(), {.inBandFec = true, .expectedLossPercent = 10});
        const Samples whole = decoded(packets);
        const double concealed = missingRestDb(whole, decoded(packets, Missing::concealed));
        const double recovered = missingRestDb(whole, decoded(packets, Missing::recovered));
        qInfo() << "rest in missing frames: concealed" << concealed << "dB, recovered" << recovered << "dB";
        QVERIFY(recovered < concealed - 3);
    }

    void whatIsNoPacketIsConcealed()
    {
        VoiceDecoder decoder;
        std::array<float, kSoundFrame> frame{};
        voice::Random dice(3);
        int taken = 0;
        for (int round = 0; round < 2000; ++round) {
            Packet packet(dice.next() % 100);
            for (auto& byte : packet)
                byte = static_cast<std::uint8_t>(dice.next());
            taken += decoder.decode(packet, frame) ? 1 : 0;
            for (const float sample : frame)
                QVERIFY(std::isfinite(sample));
        }
        QVERIFY(taken > 0); // some of it means something to the codec: that path was gone too
    }
};

QTEST_APPLESS_MAIN(TestSoundCodec)
#include "test_sound_codec.moc"
