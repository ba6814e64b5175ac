// What comes back of a known sound: its delay and level to the decibel, and a gain that did not stay the same.
#include "common/home/played_probe.h"

#include "common/home/probe_sound.h"
#include "common/signal/weighting.h"

#include <QtTest>

#include <cmath>

using namespace vh;

namespace
{

struct Played {
    ProbeLayout layout;
    std::vector<float> frames;
};

/// The check's own sound by the 10 ms, after a second of silence and before two.
const Played& theSound()
{
    static const Played sound = [] {
        const ProbeSound probe = makeProbeSound();
        Played made{probe.layout, std::vector<float>(120)};
        Weighting weighting(48'000);
        for (std::size_t at = 0; at + 480 <= probe.samples.size(); at += 480) {
            double sum = 0;
            for (std::size_t i = at; i < at + 480; ++i) {
                const double a = weighting.push(static_cast<double>(probe.samples[i])).a;
                sum += a * a / 480;
            }
            made.frames.push_back(static_cast<float>(sum));
        }
        made.frames.resize(made.frames.size() + 200);
        return made;
    }();
    return sound;
}

/// The microphone has it `late` frames later, after `through`, over a room.
template <class Through>
PlayedProbe::Result probed(std::size_t late, double roomDb, Through through)
{
    const Played& sound = theSound();
    PlayedProbe probe(sound.layout);
    for (std::size_t i = 0; i < sound.frames.size(); ++i) {
        const double came = i >= late ? static_cast<double>(sound.frames[i - late]) : 0;
        const double room = std::pow(10.0, roomDb / 10) * (1 + 0.05 * static_cast<double>(i % 7));
        probe.add(static_cast<float>(through(came) + room), sound.frames[i]);
    }
    return probe.result();
}

double gain(double played, double db)
{
    return played * std::pow(10.0, db / 10);
}

} // namespace

class TestPlayedProbe : public QObject
{
    Q_OBJECT
private slots:
    void delayAndGainAreFoundAsTheyAre()
    {
        for (const std::size_t late : {std::size_t{0}, std::size_t{9}, std::size_t{35}, std::size_t{60}}) {
            const auto found = probed(late, -80, [](double played) { return gain(played, -12); });
            QVERIFY(found.heard);
            QCOMPARE(found.delayMs, static_cast<std::uint32_t>(10 * late));
            QVERIFY(std::abs(found.gainDb + 12) < 0.3F);
        }
    }

    void aGainThatStaysIsFoundToStay()
    {
        const auto found = probed(8, -75, [](double played) { return gain(played, -6); });
        QVERIFY(found.tells);
        QVERIFY(std::abs(found.evenedDb) < 0.4F);
        QVERIFY(std::abs(found.softerDb) < 0.3F);
        QVERIFY(std::abs(found.driftDb) < 0.2F);
    }

    void whatEvensOutIsFoundByHowMuch()
    {
        // A compressor of 2:1: half the decibels of what was played, so the softer vowel gains half the difference.
        const auto found = probed(8, -95, [](double played) { return 1e-3 * std::sqrt(played); });
        QVERIFY(found.tells);
        QVERIFY2(found.softerDb > 3 && found.softerDb < 12, qPrintable(QString::number(found.softerDb)));
        QVERIFY(found.evenedDb > 5);
    }

    void whatShutsSoftSoundOutIsFound()
    {
        const auto found = probed(8, -95, [](double played) { return played < 3e-6 ? 0 : gain(played, -3); });
        QVERIFY(found.tells);
        QVERIFY(found.evenedDb < -10);
    }

    void headphonesAreNotHeard()
    {
        const auto found = probed(8, -60, [](double) { return 0.0; });
        QVERIFY(!found.heard);
        QVERIFY(!found.tells);
    }

    void aLoudRoomTellsNothing()
    {
        const auto found = probed(8, -30, [](double played) { return gain(played, -12); });
        QVERIFY(!found.tells);
    }
};

QTEST_APPLESS_MAIN(TestPlayedProbe)
#include "test_played_probe.moc"
