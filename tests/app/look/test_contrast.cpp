// Contrast as WCAG 2.2 defines it, and the promise that every pair of colours in use keeps.
#include "app/look/contrast.h"
#include "app/look/palette.h"

#include <QtTest>

using namespace vh::look;

class TestContrast : public QObject
{
    Q_OBJECT
private slots:
    void ratioMatchesPublishedValues_data()
    {
        QTest::addColumn<QColor>("front");
        QTest::addColumn<QColor>("ground");
        QTest::addColumn<double>("ratio");
        QTest::addColumn<double>("tolerance");
        // WCAG 2.2, "contrast ratio": "Contrast ratios can range from 1 to 21".
        QTest::newRow("black on white") << QColor("#000000") << QColor("#FFFFFF") << 21.0 << 1e-9;
        QTest::newRow("white on white") << QColor("#FFFFFF") << QColor("#FFFFFF") << 1.0 << 1e-9;
        // The grey customarily named as the lightest that passes 4.5:1 on white, at 4.54 (common practice).
        QTest::newRow("#767676 on white") << QColor("#767676") << QColor("#FFFFFF") << 4.54 << 0.005;
        // Pure sRGB primaries: their luminance is the coefficient itself, so the ratio to black is (L + 0.05) / 0.05.
        QTest::newRow("green on black") << QColor("#00FF00") << QColor("#000000") << (0.7152 + 0.05) / 0.05 << 1e-9;
        QTest::newRow("blue on black") << QColor("#0000FF") << QColor("#000000") << (0.0722 + 0.05) / 0.05 << 1e-9;
    }
    void ratioMatchesPublishedValues()
    {
        QFETCH(QColor, front);
        QFETCH(QColor, ground);
        QFETCH(double, ratio);
        QFETCH(double, tolerance);
        QVERIFY2(std::abs(contrastRatio(front, ground) - ratio) <= tolerance,
                 qPrintable(QString::number(contrastRatio(front, ground))));
        QCOMPARE(contrastRatio(front, ground), contrastRatio(ground, front));
    }

    void everyPairInUseIsReadable_data()
    {
        QTest::addColumn<Ground>("ground");
        QTest::newRow("light") << Ground::light;
        QTest::newRow("dark") << Ground::dark;
    }
    void everyPairInUseIsReadable()
    {
        QFETCH(Ground, ground);
        const auto pairs = pairsInUse(paletteOf(ground));
        QVERIFY(pairs.size() > 40);
        QStringList tooWeak;
        for (const ColourPair& pair : pairs) {
            const double least = pair.kind == ColourPair::Kind::text ? kTextContrast : kGraphicContrast;
            const double ratio = contrastRatio(pair.front, pair.ground);
            if (ratio < least)
                tooWeak << QStringLiteral("%1: %2 on %3 is %4:1, must be %5:1")
                               .arg(pair.what, pair.front.name(), pair.ground.name())
                               .arg(ratio, 0, 'f', 2)
                               .arg(least);
        }
        QVERIFY2(tooWeak.isEmpty(), qPrintable(tooWeak.join('\n')));
    }

    void noColourIsRed()
    {
        // "Red" here: a saturated hue within 15 degrees of sRGB red.
        for (const Ground ground : {Ground::light, Ground::dark}) {
            for (const ColourPair& pair : pairsInUse(paletteOf(ground))) {
                const int hue = pair.front.hsvHue();
                const bool red = pair.front.hsvSaturation() > 90 && hue >= 0 && (hue < 15 || hue > 345);
                QVERIFY2(!red, pair.what);
            }
        }
    }
};

QTEST_APPLESS_MAIN(TestContrast)
#include "test_contrast.moc"
