#include "common/signal/weighting.h"
#include "common/voice/random.h"
#include "common/voice/room.h"
#include "tests/common/voice/listening.h"

#include <QtTest>

using namespace vh;
using namespace vh::voice;
using namespace vh::voice::test;

namespace
{

double weighed(std::span<const float> samples)
{
    Weighting weighting(kRateHz);
    LevelAccumulator level;
    for (const float sample : samples) {
        const double a = weighting.push(sample).a;
        level.add(a * a);
    }
    return level.leqDb();
}

Room quiet(double rt60, double distance = 0.5)
{
    Room room;
    room.rt60Seconds = rt60;
    room.distanceMetres = distance;
    room.noise = NoiseKind::none;
    return room;
}

} // namespace

class TestRoom : public QObject
{
    Q_OBJECT
private slots:
    // ISO 3382-2: T20 is read from -5 to -25 dB of the decay curve, T30 from -5 to -35.
    void soundDiesAwayInTheTimeGiven_data()
    {
        QTest::addColumn<double>("rt60");
        for (const double rt60 : {0.2, 0.3, 0.4, 0.6, 0.8})
            QTest::addRow("%.1f s", rt60) << rt60;
    }
    void soundDiesAwayInTheTimeGiven()
    {
        QFETCH(double, rt60);
        const std::vector<float> response = impulseResponse(quiet(rt60, 1.5));
        QVERIFY(std::abs(reverberationSeconds(response, -5, -25) / rt60 - 1) < 0.05);
        // A decay by images is not quite a straight line: sound along the longest axis outlasts the rest.
        QVERIFY(std::abs(reverberationSeconds(response, -5, -35) / rt60 - 1) < 0.15);
    }

    // Spherical waves: pressure goes as 1/distance, the wave travels 343 m/s.
    void directSoundComesInTimeAndWeakerWithDistance()
    {
        for (const double distance : {0.3, 0.6, 1.2, 2.4}) {
            const std::vector<float> response = impulseResponse(quiet(0, distance));
            const auto peak = std::max_element(response.begin(), response.end());
            QVERIFY(std::abs(*peak - 0.3 / distance) < 1e-3);
            QVERIFY(std::abs(static_cast<double>(peak - response.begin()) - distance / 343 * kRateHz) <= 1);
        }
    }

    // Sabine: beyond the critical distance 0.057 sqrt(V / T) the reflections are the louder part.
    void farFromTheMicrophoneReflectionsPrevail()
    {
        const auto directShare = [](double distance) {
            const std::vector<float> response = impulseResponse(quiet(0.5, distance));
            const auto direct = static_cast<std::size_t>(distance / 343 * kRateHz) + 48;
            double early = 0;
            double all = 0;
            for (std::size_t i = 0; i < response.size(); ++i) {
                const double square = static_cast<double>(response[i]) * response[i];
                all += square;
                early += i < direct ? square : 0;
            }
            return early / all;
        };
        const double critical = 0.057 * std::sqrt(4.6 * 3.7 * 2.5 / 0.5); // 0.53 m
        QVERIFY(directShare(critical / 2) > 0.6);
        QVERIFY(directShare(critical * 4) < 0.2);
    }

    void noiseIsSoFarUnderTheVoice_data()
    {
        QTest::addColumn<int>("kind");
        for (const NoiseKind kind :
             {NoiseKind::room, NoiseKind::white, NoiseKind::fan, NoiseKind::hum, NoiseKind::babble})
            QTest::addRow("kind %d", static_cast<int>(kind)) << static_cast<int>(kind);
    }
    void noiseIsSoFarUnderTheVoice()
    {
        QFETCH(int, kind);
        const Sound dry = render(held(2), machine(), 1);
        Room room = quiet(0.4);
        const Sound clean = inRoom(dry, room, 9);
        room.noise = static_cast<NoiseKind>(kind);
        for (const double snrDb : {0.0, 10.0, 20.0}) {
            room.snrDb = snrDb;
            const Sound noisy = inRoom(dry, room, 9);
            std::vector<float> only(noisy.samples.size());
            for (std::size_t i = 0; i < only.size(); ++i)
                only[i] = noisy.samples[i] - clean.samples[i];
            QVERIFY(std::abs(voicedLevelDbfsA(clean) - weighed(only) - snrDb) < 0.2);
        }
        room.snrDb.reset();
        room.noiseDbfsA = -70;
        QVERIFY(std::abs(weighed(inRoom(std::vector<float>(kRateHz), room, 1)) + 70) < 0.2);
    }

    void theSameSeedIsTheSameNoise()
    {
        const std::vector<float> silence(kRateHz / 2);
        QVERIFY(inRoom(silence, Room{}, 1) == inRoom(silence, Room{}, 1));
        QVERIFY(inRoom(silence, Room{}, 1) != inRoom(silence, Room{}, 2));
    }

    // By definition: each output sample is the sum over the response.
    void fastConvolutionIsConvolution()
    {
        const Room room = quiet(0.2);
        const std::vector<float> response = impulseResponse(room);
        std::vector<float> sound(3 * response.size() + 12'345);
        Random random(4);
        for (float& sample : sound)
            sample = static_cast<float>(random.even());
        const std::vector<float> wet = RoomModel(room).reverberant(sound);
        QCOMPARE(wet.size(), sound.size());
        for (std::size_t at = 0; at < wet.size(); at += 997) {
            double sum = 0;
            for (std::size_t k = 0; k < response.size() && k <= at; ++k)
                sum += static_cast<double>(response[k]) * sound[at - k];
            QVERIFY(std::abs(wet[at] - sum) < 1e-4);
        }
    }
};

QTEST_APPLESS_MAIN(TestRoom)
#include "test_room.moc"
