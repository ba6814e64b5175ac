// Calibration by a meter: closed-form answers, and the stated uncertainty beside a published one.
#include "common/home/calibration.h"

#include <QtTest>

#include <cmath>

using namespace vh;

namespace
{

CalibrationReading reading(float meterDba, float cm, MeterKind meter = MeterKind::class1)
{
    return {-30, 0, meterDba, cm, meter};
}

} // namespace

class TestCalibration : public QObject
{
    Q_OBJECT
private slots:
    void theOffsetIsTheReadingAt30CmLessOurs() { QCOMPARE(calibrate(reading(66, 30), {})->offsetDb, 96.0F); }

    void anotherDistanceIsCorrectedByTheInverseDistanceLaw_data()
    {
        // Level re 30 cm = 20 lg(30/d): 15 cm reads 6.02 dB more, 60 cm 6.02 less, 1 m 10.46 less.
        QTest::addColumn<float>("cm");
        QTest::addColumn<float>("readsDb");
        QTest::newRow("15 cm") << 15.0F << 6.02F;
        QTest::newRow("20 cm") << 20.0F << 3.52F;
        QTest::newRow("50 cm") << 50.0F << -4.44F;
        QTest::newRow("60 cm") << 60.0F << -6.02F;
        QTest::newRow("1 m") << 100.0F << -10.46F;
    }
    void anotherDistanceIsCorrectedByTheInverseDistanceLaw()
    {
        QFETCH(const float, cm);
        QFETCH(const float, readsDb);
        QVERIFY(std::abs(calibrate(reading(66 + readsDb, cm), {})->offsetDb - 96) < 0.01F);
    }

    void theUncertaintyIsTheRootOfTheSumOfSquaresTwice()
    {
        // By hand, 30 cm, class 1: meter 1/sqrt 3 = 0.577; held 2 cm x 0.2895 dB/cm / sqrt 3 = 0.334; read 1.5/sqrt 3 =
        // 0.866. Root of the sum of squares 1.093, twice 2.186.
        QVERIFY(std::abs(calibrate(reading(66, 30), {})->uncertaintyDb - 2.186F) < 0.005F);
    }

    void itIsOfTheSizeThatWasPublishedForAClass1Meter()
    {
        // Winholtz & Titze 1997, J Speech Lang Hear Res 40:894 (abstract): +-1.6 dB with a stable sound. A voice that
        // is read off a moving figure is less sure, by less than a decibel.
        const float ours = calibrate(reading(66, 30), {})->uncertaintyDb;
        QVERIFY(ours > 1.6F && ours < 2.6F);
    }

    void nearerAndBySimplerMetersItIsLessSure()
    {
        const float best = calibrate(reading(66, 30), {})->uncertaintyDb;
        QVERIFY(calibrate(reading(72, 10), {})->uncertaintyDb > best);
        QVERIFY(calibrate(reading(66, 30, MeterKind::class2), {})->uncertaintyDb > best);
        const float phone = calibrate(reading(66, 30, MeterKind::phone), {})->uncertaintyDb;
        QVERIFY(phone > 5);
        QCOMPARE(calibrate(reading(66, 30, MeterKind::unknown), {})->uncertaintyDb, phone);
    }

    void whatCannotBeIsRefusedInWords()
    {
        for (const auto& wrong : {reading(66, 5), reading(66, 150), reading(20, 30), reading(130, 30),
                                  reading(std::nanf(""), 30), reading(66, std::nanf(""))}) {
            const auto found = calibrate(wrong, {});
            QVERIFY(!found);
            QVERIFY(!found.error().message.empty());
        }
    }
};

QTEST_APPLESS_MAIN(TestCalibration)
#include "test_calibration.moc"
