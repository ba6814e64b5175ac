// The look as a running program gets it: the bundled typeface, the type scale, the style sheet.
#include "app/look/look.h"
#include "app/look/sign.h"
#include "app/look/style_sheet.h"

#include <QApplication>
#include <QFile>
#include <QFontInfo>
#include <QPainter>
#include <QRawFont>
#include <QRegularExpression>
#include <QtTest>

using namespace vh::look;

class TestLook : public QObject
{
    Q_OBJECT
private slots:
    void typefaceIsBundledWithItsLicence()
    {
        QVERIFY(loadTypeface());
        const QRawFont regular(QStringLiteral(":/look/fonts/Andika-Regular.ttf"), 40);
        QCOMPARE(regular.familyName(), typefaceFamily());
        QFile licence(QStringLiteral(":/look/fonts/LICENCE.txt"));
        QVERIFY(licence.open(QIODevice::ReadOnly));
        QVERIFY(licence.readAll().contains("Open Font License"));
    }

    void everyTypeIsDrawnInTheBundledTypeface()
    {
        QVERIFY(Look{}.applyTo(*qApp));
        for (const auto weight : {Weight::regular, Weight::bold}) {
            const QFontInfo info(Look::current().font(Type::cue, weight));
            QCOMPARE(info.family(), typefaceFamily());
            QCOMPARE(info.bold(), weight == Weight::bold);
        }
    }

    void cueIsNeverUnder32Pixels()
    {
        for (const auto size : {TextSize::usual, TextSize::larger, TextSize::largest})
            QVERIFY(pixelSizeOf(Type::cue, size) >= 32);
    }

    void eachStepOfTextSizeIsLarger()
    {
        for (const auto type :
             {Type::fine, Type::note, Type::body, Type::control, Type::touch, Type::title, Type::heading, Type::cue}) {
            QVERIFY(pixelSizeOf(type, TextSize::usual) < pixelSizeOf(type, TextSize::larger));
            QVERIFY(pixelSizeOf(type, TextSize::larger) < pixelSizeOf(type, TextSize::largest));
        }
    }

    void styleSheetHasNoNameLeftOpenAndNoForeignColour()
    {
        for (const auto ground : {Ground::light, Ground::dark}) {
            const Look look(ground);
            const QString sheet = styleSheetOf(look);
            QVERIFY(!sheet.contains(QRegularExpression(QStringLiteral("\\{[a-zA-Z0-9]+\\}"))));
            const Palette& p = look.palette();
            const QList<QColor> own{p.paper, p.sheet,  p.quiet, p.ink,     p.secondInk, p.line,
                                    p.deep,  p.onDeep, p.deep2, p.stretch, p.dashes};
            auto matches = QRegularExpression(QStringLiteral("#[0-9a-fA-F]{6}")).globalMatch(sheet);
            QVERIFY(matches.hasNext());
            while (matches.hasNext())
                QVERIFY(own.contains(QColor(matches.next().captured())));
        }
    }

    void everySignIsDrawnInTheColourThatIsAskedFor()
    {
        for (int sign = 0; sign < kSignCount; ++sign) {
            QImage image(64, 64, QImage::Format_ARGB32);
            image.fill(Qt::transparent);
            QPainter painter(&image);
            paintSign(painter, static_cast<Sign>(sign), QRectF(0, 0, 64, 64), QColor("#0A5793"));
            painter.end();
            int inked = 0;
            for (int y = 0; y < 64; ++y)
                for (int x = 0; x < 64; ++x)
                    if (qAlpha(image.pixel(x, y)) == 255) {
                        ++inked;
                        QCOMPARE(QColor(image.pixel(x, y)).name(), QStringLiteral("#0a5793"));
                    }
            QVERIFY2(inked > 150, qPrintable(QString::number(sign)));
        }
    }

    void signsCarryThePaletteColour()
    {
        const QHash<QString, QColor> wanted{{"light", paletteOf(Ground::light).deep},
                                            {"dark", paletteOf(Ground::dark).deep}};
        for (auto it = wanted.cbegin(); it != wanted.cend(); ++it) {
            for (const char* sign : {"tick", "dot"}) {
                QFile file(QStringLiteral(":/look/%1-%2.svg").arg(QLatin1String(sign), it.key()));
                QVERIFY(file.open(QIODevice::ReadOnly));
                QVERIFY(file.readAll().contains(it.value().name(QColor::HexRgb).toUpper().toLatin1()));
            }
        }
    }
};

QTEST_MAIN(TestLook)
#include "test_look.moc"
