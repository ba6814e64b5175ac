// The vowels against Peterson and Barney 1952, Table II: F1 to F3 averaged over 33 men and 28 women, typed from a
// public transcription of the paper. Whispered, so that there is sound at every frequency and not at the harmonics
// alone.
#include "common/voice/tract.h"
#include "tests/common/voice/listening.h"

#include <QtTest>

using namespace vh::voice;
using namespace vh::voice::test;

namespace
{

struct VowelRow {
    const char* word;
    Phone phone;
    std::array<double, 3> men;
    std::array<double, 3> women;
};

constexpr VowelRow kTable[] = {{"heed", Phone::heed, {270, 2290, 3010}, {310, 2790, 3310}},
                               {"hid", Phone::hid, {390, 1990, 2550}, {430, 2480, 3070}},
                               {"head", Phone::head, {530, 1840, 2480}, {610, 2330, 2990}},
                               {"had", Phone::had, {660, 1720, 2410}, {860, 2050, 2850}},
                               {"hod", Phone::hod, {730, 1090, 2440}, {850, 1220, 2810}},
                               {"hawed", Phone::hawed, {570, 840, 2410}, {590, 920, 2710}},
                               {"hood", Phone::hood, {440, 1020, 2240}, {470, 1160, 2680}},
                               {"who'd", Phone::whod, {300, 870, 2240}, {370, 950, 2670}},
                               {"hud", Phone::hud, {640, 1190, 2390}, {760, 1400, 2780}},
                               {"heard", Phone::heard, {490, 1350, 1690}, {500, 1640, 1960}}};

/// A second of noise through the tract of one phone.
std::vector<float> throughTract(Phone phone, Tract tract)
{
    Control control;
    control.hz = formantsOf(phone, tract);
    control.widthHz = {60, 90, 150, 200, 250};
    Random random(3);
    std::vector<Tract3::Lanes> lanes(kRateHz);
    for (Tract3::Lanes& each : lanes)
        each = {random.even(), 0, 0};
    Tract3().push(control, lanes);
    std::vector<float> samples;
    for (const Tract3::Lanes& each : lanes)
        samples.push_back(static_cast<float>(each[0]));
    return samples;
}

} // namespace

class TestVoiceShape : public QObject
{
    Q_OBJECT
private slots:
    void vowelsHaveTheFormantsOfTheTable_data()
    {
        QTest::addColumn<int>("row");
        QTest::addColumn<bool>("woman");
        for (int row = 0; row < static_cast<int>(std::size(kTable)); ++row) {
            QTest::addRow("a man's %s", kTable[row].word) << row << false;
            QTest::addRow("a woman's %s", kTable[row].word) << row << true;
        }
    }
    void vowelsHaveTheFormantsOfTheTable()
    {
        QFETCH(int, row);
        QFETCH(bool, woman);
        const std::array<double, 3>& table = woman ? kTable[row].women : kTable[row].men;
        const std::vector<float> samples = throughTract(kTable[row].phone, woman ? Tract::woman : Tract::man);
        for (const double hz : table) {
            // Peaks of two near formants lean on each other; the window tells frequencies about 50 Hz apart.
            const double found = peakBetween(samples, hz - 120, hz + 120, 2880);
            QVERIFY2(std::abs(found - hz) <= std::max(40.0, 0.04 * hz),
                     qPrintable(QString("%1 for %2").arg(found).arg(hz)));
        }
    }

    // Klatt 1980: gain 1 at 0 Hz; at resonance nearly F / BW for a narrow one; half power BW/2 to either side.
    void aResonanceIsAsKlattDefinesIt()
    {
        const auto gainAt = [](const Resonance& at, double hz) {
            const std::complex<double> back = std::polar(1.0, -kTwoPi * hz / kRateHz);
            return std::abs(at.a / (1.0 - back * (at.b + back * at.c)));
        };
        for (const double hz : {300.0, 1000.0, 2500.0}) {
            const Resonance at = resonanceAt(hz, 60);
            QVERIFY(std::abs(gainAt(at, 0) - 1) < 1e-9);
            QVERIFY(std::abs(gainAt(at, hz) / (hz / 60) - 1) < 0.05);
            const double sides = std::sqrt(gainAt(at, hz + 30) * gainAt(at, hz - 30));
            QVERIFY(std::abs(20 * std::log10(sides / gainAt(at, hz)) + 3.01) < 0.3);
        }
    }
};

QTEST_APPLESS_MAIN(TestVoiceShape)
#include "test_voice_shape.moc"
