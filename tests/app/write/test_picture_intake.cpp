// A picture that is taken into a class: turned, made smaller, and with nothing left of where and when it was taken.
#include "app/widgets/picture_file.h"
#include "app/write/picture_intake.h"
#include "app/write/svg_rewrite.h"

#include <QBuffer>
#include <QDir>
#include <QFile>
#include <QImage>
#include <QPainter>
#include <QSvgRenderer>
#include <QTemporaryDir>
#include <QTest>

using namespace vh;
using namespace vh::write;

namespace
{

/// Little-endian TIFF, as Exif 2.3 (JEITA CP-3451C, 4.6) lays it out: orientation 6 ("turn right"), a GPS directory
/// with latitude reference and a datum, and a camera owner's words.
QByteArray exif(const QByteArray& words)
{
    QByteArray tiff;
    const auto put16 = [&](int value) {
        tiff.append(static_cast<char>(value & 255)).append(static_cast<char>(value >> 8));
    };
    const auto put32 = [&](int value) {
        put16(value & 0xffff);
        put16(value >> 16);
    };
    const auto entry = [&](int tag, int type, int count, int value) {
        put16(tag);
        put16(type);
        put32(count);
        put32(value);
    };
    tiff.append("II");
    put16(42);
    put32(8);
    put16(3); // entries of the first directory: 8 + 2 + 3 * 12 + 4 = 50
    entry(0x0112, 3, 1, 6);
    entry(0x010e, 2, static_cast<int>(words.size()) + 1, 68);
    entry(0x8825, 4, 1, 50);
    put32(0);
    put16(1); // GPS directory: 50 + 2 + 12 + 4 = 68
    entry(0x0001, 2, 2, 'N');
    put32(0);
    tiff.append(words).append('\0');
    return tiff;
}

/// Left half dark, right half light.
QImage halves(int width, int height)
{
    QImage image(width, height, QImage::Format_RGB32);
    image.fill(Qt::black);
    QPainter painter(&image);
    painter.fillRect(width / 2, 0, width - width / 2, height, Qt::white);
    return image;
}

QByteArray photo(const QByteArray& words)
{
    QByteArray jpeg;
    QBuffer buffer(&jpeg);
    buffer.open(QIODevice::WriteOnly);
    halves(400, 200).save(&buffer, "JPEG");
    const QByteArray segment = QByteArray("Exif\0\0", 6) + exif(words);
    const auto length = static_cast<int>(segment.size()) + 2;
    QByteArray app1("\xff\xe1", 2);
    app1.append(static_cast<char>(length >> 8)).append(static_cast<char>(length & 255)).append(segment);
    return jpeg.insert(2, app1);
}

const QByteArray kHead("<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" "
                       "viewBox=\"0 0 9 9\">");

QByteArray svgOf(const QByteArray& inside)
{
    return kHead + inside + "</svg>";
}

QByteArray contentOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

} // namespace

class TestPictureIntake : public QObject
{
    Q_OBJECT
private:
    QTemporaryDir m_folder;

    QString put(const QString& name, const QByteArray& bytes)
    {
        QFile file(m_folder.filePath(name));
        if (!file.open(QIODevice::WriteOnly) || file.write(bytes) != bytes.size())
            qFatal("cannot write");
        return file.fileName();
    }
    [[nodiscard]] QString whole(const QString& file) const { return QDir(m_folder.path()).filePath(file); }

private slots:
    void placeAndOwnerOfAPhotoStayBehind()
    {
        const QByteArray words = "Greta Lindqvist, 59.3293 N 18.0686 E";
        const QString chosen = put("photo.jpg", photo(words));
        QVERIFY(contentOf(chosen).contains(words));
        const auto file = takePicture(chosen, m_folder.path(), "At the pond!");
        QVERIFY(file);
        QCOMPARE(*file, QString("pictures/at-the-pond-1.jpg"));
        const QByteArray bytes = contentOf(whole(*file));
        for (const QByteArray& gone : {QByteArray("Exif"), QByteArray("Lindqvist"), words, QByteArray("\xff\xe1", 2)})
            QVERIFY(!bytes.contains(gone));
        // Turned as the camera said: the dark half, at the left, is now at the top.
        const QImage image(whole(*file));
        QCOMPARE(image.size(), QSize(200, 400));
        QVERIFY(qGray(image.pixel(100, 50)) < 60);
        QVERIFY(qGray(image.pixel(100, 350)) > 200);
    }

    void textsInsideAPngStayBehind()
    {
        QImage image = halves(60, 40);
        image.setText("Author", "Greta Lindqvist");
        image.setText("Comment", "at home");
        QByteArray png;
        QBuffer buffer(&png);
        buffer.open(QIODevice::WriteOnly);
        QVERIFY(image.save(&buffer, "PNG"));
        QVERIFY(png.contains("Lindqvist"));
        const auto file = takePicture(put("drawing.png", png), m_folder.path(), "drawing");
        QVERIFY(file && file->endsWith(".png"));
        const QByteArray bytes = contentOf(whole(*file));
        QVERIFY(!bytes.contains("Lindqvist") && !bytes.contains("tEXt") && !bytes.contains("zTXt") &&
                !bytes.contains("iTXt"));
        QCOMPARE(QImage(whole(*file)).pixel(50, 20), QColor(Qt::white).rgb());
    }

    void aLargePictureIsMadeSmallerAndKeepsItsShape()
    {
        QByteArray png;
        QBuffer buffer(&png);
        buffer.open(QIODevice::WriteOnly);
        QVERIFY(halves(4000, 1000).save(&buffer, "PNG"));
        const auto file = takePicture(put("wide.png", png), m_folder.path(), "wide");
        QVERIFY(file);
        QCOMPARE(QImage(whole(*file)).size(), QSize(kPictureEdge, kPictureEdge / 4));
    }

    void everyPictureHasANameOfItsOwn()
    {
        const QString chosen = put("one.svg", svgOf("<rect width=\"9\" height=\"9\"/>"));
        QCOMPARE(takePicture(chosen, m_folder.path(), "Café Ñandú").value(), QString("pictures/cafe-nandu-1.svg"));
        QCOMPARE(takePicture(chosen, m_folder.path(), "Café Ñandú").value(), QString("pictures/cafe-nandu-2.svg"));
        QCOMPARE(takePicture(chosen, m_folder.path(), "湖").value(), QString("pictures/picture-1.svg"));
    }

    void whatIsNoPictureIsSaid()
    {
        QCOMPARE(takePicture(put("words.png", "not a picture"), m_folder.path(), "x").error().code,
                 std::string("picture-unreadable"));
        QCOMPARE(takePicture(whole("missing.png"), m_folder.path(), "x").error().code,
                 std::string("picture-unreadable"));
        const QString good = put("good.svg", svgOf("<rect width=\"9\" height=\"9\"/>"));
        QCOMPARE(takePicture(good, put("a-file", "x"), "x").error().code, std::string("not-saved"));
    }

    void anSvgKeepsWhatDrawsAndNothingElse()
    {
        const QByteArray svg = contentOf(QStringLiteral(VH_SOURCE_DIR "/tests/app/write/data/signed_drawing.svg"));
        const auto written = rewrittenSvg(svg);
        QVERIFY2(written, written ? "" : written.error().message.c_str());
        for (const char* gone : {"Lindqvist", "Greta", "steal", "script", "onload", "onclick", "example.org", "import",
                                 "DOCTYPE", "drawer", "metadata"})
            QVERIFY2(!written->contains(gone), gone);
        QSvgRenderer renderer(*written);
        QVERIFY(renderer.isValid());
        QImage image(100, 100, QImage::Format_RGB32);
        image.fill(Qt::white);
        QPainter painter(&image);
        renderer.render(&painter);
        QCOMPARE(QColor(image.pixel(25, 50)), QColor(Qt::blue));
        QCOMPARE(QColor(image.pixel(75, 25)), QColor(Qt::red));
        QCOMPARE(rewrittenSvg(*written).value(), *written); // there is nothing more to take away
    }

    void thePicturesThatShipLookTheSameRewritten()
    {
        const QDir pictures(QStringLiteral(VH_SOURCE_DIR "/content/classes/pictures"));
        const QStringList all = pictures.entryList({"*.svg"});
        QVERIFY(all.size() >= 40);
        for (const QString& each : all) {
            const QByteArray svg = contentOf(pictures.filePath(each));
            const auto written = rewrittenSvg(svg);
            QVERIFY2(written, qPrintable(each));
            QImage before(160, 160, QImage::Format_RGB32);
            before.fill(Qt::white);
            QImage after = before;
            QPainter one(&before);
            QSvgRenderer(svg).render(&one);
            QPainter other(&after);
            QSvgRenderer(*written).render(&other);
            QVERIFY2(before == after, qPrintable(each));
        }
    }

    void anSvgThatCannotBeTrustedOrReadIsRefused_data()
    {
        QTest::addColumn<QByteArray>("svg");
        QTest::addColumn<QString>("code");
        const QByteArray head = kHead;
        QTest::newRow("a photo inside")
            << head + "<image xlink:href=\"file:///etc/hostname\" width=\"9\" height=\"9\"/></svg>"
            << "picture-refused";
        QTest::newRow("a page inside") << head + "<foreignObject/></svg>"
                                       << "picture-refused";
        QTest::newRow("no drawing") << QByteArray("<html/>") << "picture-unreadable";
        QTest::newRow("torn") << head + "<rect"
                              << "picture-unreadable";
        QTest::newRow("nothing") << QByteArray() << "picture-unreadable";
        QTest::newRow("too deep") << head + QByteArray("<g>").repeated(200) + QByteArray("</g>").repeated(200) +
                                         "</svg>"
                                  << "picture-too-large";
        QTest::newRow("too many parts") << head + QByteArray("<g/>").repeated(30'000) + "</svg>"
                                        << "picture-too-large";
        QTest::newRow("too many bytes") << head + "<!--" + QByteArray(kMostSvgBytes, 'x') + "--></svg>"
                                        << "picture-too-large";
        QTest::newRow("entities in entities")
            << "<!DOCTYPE svg [<!ENTITY a \"aaaaaaaaaaaaaaaaaaaa\"><!ENTITY b \"" + QByteArray("&a;").repeated(14) +
                   "\"><!ENTITY c \"" + QByteArray("&b;").repeated(14) + "\">]>" + head + "<text>&c;&c;&c;</text></svg>"
            << "picture-unreadable";
    }
    void anSvgThatCannotBeTrustedOrReadIsRefused()
    {
        QFETCH(QByteArray, svg);
        QFETCH(QString, code);
        const auto written = rewrittenSvg(svg);
        QVERIFY(!written);
        QCOMPARE(QString::fromStdString(written.error().code), code);
    }

    void noTornSvgGetsThrough()
    {
        const QByteArray svg = contentOf(QStringLiteral(VH_SOURCE_DIR "/content/classes/pictures/lake.svg"));
        QVERIFY(svg.size() > 500);
        for (qsizetype length = 0; length < svg.size() - 8; length += 61)
            QVERIFY(!rewrittenSvg(svg.left(length)));
    }
};

QTEST_GUILESS_MAIN(TestPictureIntake)
#include "test_picture_intake.moc"
