// A picture made ready to be sent, changed at the desk, and read again: what it carries, how large it is, and what is
// refused.
#include "app/pictures/edit_draft.h"
#include "app/pictures/prepare.h"
#include "app/pictures/shelf.h"
#include "tests/app/pictures/camera_file.h"
#include "tests/app/pictures/parts.h"

#include <QMimeData>
#include <QPainter>
#include <QRandomGenerator>
#include <QTemporaryDir>
#include <QUrl>
#include <QtTest>

using namespace vh;
using namespace vh::pictures;
using namespace vh::testing;

namespace
{

/// A red corner at the top left of a green picture.
QImage marked(int width, int height)
{
    QImage image(width, height, QImage::Format_RGB32);
    image.fill(QColor(40, 140, 60));
    QPainter(&image).fillRect(0, 0, width / 4, height / 4, QColor(200, 30, 30));
    return image;
}

bool isRed(const QImage& image, double x, double y)
{
    const QColor colour = image.pixelColor(static_cast<int>(x * image.width()), static_cast<int>(y * image.height()));
    return colour.red() > 150 && colour.green() < 90;
}

/// As little packed as pixels can be.
QImage noise(int width, int height)
{
    QImage image(width, height, QImage::Format_RGB32);
    QRandomGenerator random(7);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x)
            image.setPixel(x, y, random.generate() | 0xff000000);
    return image;
}

} // namespace

class TestMadeReady : public QObject
{
    Q_OBJECT
private:
    QTemporaryDir m_folder;

    QString file(const QString& name, const QByteArray& bytes)
    {
        QFile made(m_folder.filePath(name));
        if (!made.open(QIODevice::WriteOnly) || made.write(bytes) != bytes.size())
            qFatal("cannot write");
        return made.fileName();
    }
    static std::string codeOf(const Result<Prepared>& prepared) { return prepared ? "" : prepared.error().code; }

private slots:
    void nothingButPixelsOfAPhotographIsSent()
    {
        const QByteArray taken = cameraFile(marked(800, 600), 1);
        for (const char* carried : {"Exif", "Harbour Optics", "taken by Jonas", "ICC_PROFILE", "film"})
            QVERIFY2(taken.contains(carried), carried);
        const auto prepared = prepare(file("garden by the lake.jpg", taken));
        QVERIFY(prepared);
        for (const char* carried : {"Exif", "Harbour", "Jonas", "ICC_PROFILE", "film", "garden"})
            QVERIFY2(!prepared->bytes.contains(carried), carried);
        const QStringList allowed{"e0", "db", "c0", "c4", "da"}; // JFIF, tables, frame, tables, scan
        for (const QString& segment : segmentsOf(prepared->bytes))
            QVERIFY2(allowed.contains(segment), qPrintable(segment));
        QVERIFY(prepared->bytes.endsWith(QByteArray("\xff\xd9", 2)));
        QCOMPARE(QImage::fromData(prepared->bytes).size(), QSize(800, 600));
    }

    void nothingButPixelsOfADrawingIsSentAndItStaysOne()
    {
        QImage drawing = marked(500, 300);
        drawing.setText("Author", "Jonas");
        drawing.setColorSpace(QColorSpace(QColorSpace::AdobeRgb));
        drawing.setDotsPerMeterX(11811);
        const QString path = m_folder.filePath("drawing.png");
        QVERIFY(drawing.save(path));
        const auto prepared = prepare(path);
        QVERIFY(prepared);
        QStringList chunks = chunksOf(prepared->bytes);
        chunks.removeDuplicates();
        QCOMPARE(chunks, QStringList({"IHDR", "pHYs", "IDAT", "IEND"}));
        QCOMPARE(QImage::fromData(prepared->bytes).dotsPerMeterX(), 2835); // not of this machine's screen
        QVERIFY(isRed(QImage::fromData(prepared->bytes), 0.1, 0.1));
    }

    void itIsTurnedAsTheCameraNoted()
    {
        const auto prepared = prepare(file("turned.jpg", cameraFile(marked(400, 200), 6)));
        QVERIFY(prepared);
        QCOMPARE(prepared->shown.size(), QSize(200, 400));
        QVERIFY(isRed(prepared->shown, 0.9, 0.1)); // what was top left is top right
        QVERIFY(!isRed(prepared->shown, 0.1, 0.1));
    }

    void itIsAtMostSoLongAndSoManyBytes()
    {
        const auto photograph = prepare(file("large.jpg", cameraFile(marked(4000, 1000), 1)));
        QVERIFY(photograph);
        QCOMPARE(photograph->shown.size(), QSize(1600, 400));
        const auto copied = prepare(noise(2000, 2000));
        QVERIFY(copied);
        QVERIFY(copied->bytes.size() <= static_cast<qsizetype>(wire::kPictureBytes));
        QVERIFY(copied->bytes.startsWith("\xff\xd8")); // as a PNG it would be three times that
        const auto small = prepare(marked(3, 2));
        QVERIFY(small);
        QCOMPARE(small->shown.size(), QSize(3, 2));
    }

    void whatIsTransparentIsWhite()
    {
        QImage glass(20, 20, QImage::Format_ARGB32);
        glass.fill(Qt::transparent);
        const auto prepared = prepare(glass);
        QVERIFY(prepared);
        QCOMPARE(QImage::fromData(prepared->bytes).pixelColor(10, 10), QColor(Qt::white));
    }

    void whatCannotBeSentIsRefusedInWords()
    {
        const QByteArray photograph = cameraFile(marked(64, 64), 1);
        const auto unknown = prepare(file("letter.jpg", "Dear all, this is a letter."));
        QCOMPARE(codeOf(unknown), std::string("picture-unknown"));
        QVERIFY(!unknown.error().message.empty());
        QCOMPARE(codeOf(prepare(file("a.svg", "<svg xmlns='http://www.w3.org/2000/svg'/>"))),
                 std::string("picture-unknown"));
        QCOMPARE(codeOf(prepare(m_folder.filePath("not there.jpg"))), std::string("picture-unreadable"));
        QCOMPARE(codeOf(prepare(m_folder.path())), std::string("picture-unreadable"));
        QCOMPARE(codeOf(prepare(QImage())), std::string("picture-unreadable"));
        QCOMPARE(codeOf(prepare(file("half.png", QByteArray("\x89PNG\r\n\x1a\n\0\0\0\rIHDR", 16)))),
                 std::string("picture-unreadable"));
        QFile large(m_folder.filePath("large.bin")); // a hole: no disk is filled
        QVERIFY(large.open(QIODevice::WriteOnly) && large.write(photograph) > 0 && large.resize(40 << 20));
        large.close();
        QCOMPARE(codeOf(prepare(large.fileName())), std::string("picture-too-large"));
        QByteArray many("P6 30000 30000 255\n"); // not read at all, whatever it says
        QCOMPARE(codeOf(prepare(file("many.ppm", many))), std::string("picture-unknown"));
        QByteArray wide = QByteArray("GIF89a") + number(60000, 2) + number(60000, 2) + QByteArray(3, '\0') +
                          QByteArray(",\0\0\0\0", 5) + number(60000, 2) + number(60000, 2) + QByteArray("\0\2\0;", 4);
        QCOMPARE(codeOf(prepare(file("wide.gif", wide))), std::string("picture-too-large"));
    }

    void whatWasCopiedIsAFileOrAPicture()
    {
        QMimeData nothing;
        nothing.setText("words");
        QVERIFY(!sourceIn(&nothing));
        QVERIFY(!sourceIn(nullptr));
        QMimeData image;
        image.setImageData(marked(8, 8));
        QVERIFY(std::holds_alternative<QImage>(sourceIn(&image).value()));
        QMimeData files;
        files.setUrls({QUrl("https://example.org/a.jpg"), QUrl::fromLocalFile("/home/ruth/beans.jpg")});
        QCOMPARE(std::get<QString>(sourceIn(&files).value()), QString("/home/ruth/beans.jpg"));
    }

    void aTurnAndACutAreWhatTheFrameShows()
    {
        const QImage picture = marked(400, 200);
        PictureEdit edit = turned({}, 1);
        QCOMPARE(applied(picture, edit).size(), QSize(200, 400));
        QVERIFY(isRed(applied(picture, edit), 0.9, 0.1));
        edit = withFrame(edit, QRectF(0.5, 0, 0.5, 0.25)); // its top right, where the red corner is now
        QCOMPARE(edit.cut, QRectF(0, 0, 0.25, 0.5));       // of the picture as it came: the wire's order
        QCOMPARE(framed(edit), QRectF(0.5, 0, 0.5, 0.25));
        QCOMPARE(applied(picture, edit).size(), QSize(100, 100));
        QVERIFY(isRed(applied(picture, edit), 0.9, 0.1));
        for (int quarters = 0; quarters < 8; ++quarters) // the frame turns with the picture
            QCOMPARE(withFrame(turned(edit, quarters), framed(turned(edit, quarters))).cut, edit.cut);
        QVERIFY(!turned(turned({}, 3), 1).isOther());
        QCOMPARE(turned({}, -1).quarterTurns, 3);
    }

    void anEdgeKeepsInsideAndAwayFromTheOther()
    {
        QRectF frame(0, 0, 1, 1);
        frame = moved(frame, Edge::left, 0.02);
        frame = moved(frame, Edge::left, -0.02);
        QCOMPARE(frame, QRectF(0, 0, 1, 1));
        QCOMPARE(moved(frame, Edge::left, -0.5).left(), 0.0);
        QCOMPARE(moved(frame, Edge::left, 2).left(), 1 - kLeastShare);
        QCOMPARE(moved(frame, Edge::bottom, -2).bottom(), kLeastShare);
        QCOMPARE(moved(frame, Edge::right, 0.3).right(), 1.0);
    }

    void stepsAreUndoneOneByOne()
    {
        EditDraft draft("as it came");
        QVERIFY(!draft.isChanged() && !draft.canUndo());
        draft.change(turned(draft.now(), 1), EditDraft::Step::anew);
        for (const double left : {0.1, 0.2, 0.3}) // one step, however many presses
            draft.change(withFrame(draft.now(), QRectF(left, 0, 1 - left, 1)), EditDraft::Step::goesOn);
        draft.endStep();
        draft.change(withFrame(draft.now(), QRectF(0.5, 0, 0.5, 1)), EditDraft::Step::goesOn);
        draft.undo();
        QCOMPARE(framed(draft.now()), QRectF(0.3, 0, 0.7, 1));
        draft.undo();
        QCOMPARE(draft.now().quarterTurns, 1);
        QVERIFY(!framed(draft.now()).isNull() && framed(draft.now()).width() == 1);
        draft.undo();
        QVERIFY(!draft.isChanged() && !draft.canUndo());
        QCOMPARE(draft.now().caption, QString("as it came"));
        draft.undo();
        QCOMPARE(draft.now().caption, QString("as it came"));
    }

    void whatComesFromARelayIsReadWithLimits()
    {
        const auto png = [](const QImage& image) {
            QByteArray bytes;
            QBuffer buffer(&bytes);
            buffer.open(QIODevice::WriteOnly);
            return image.save(&buffer, "PNG") ? bytes : QByteArray();
        };
        const QImage read = decodeShown(png(marked(160, 120)));
        QCOMPARE(read.size(), QSize(160, 120));
        QVERIFY(isRed(read, 0.1, 0.1));
        QCOMPARE(decodeShown(cameraFile(marked(160, 120), 1)).size(), QSize(160, 120));
        QVERIFY(decodeShown(png(marked(1601, 20))).isNull()); // the relay makes none so wide
        QVERIFY(decodeShown(png(marked(16, 12)).left(60)).isNull());
        QVERIFY(decodeShown(QByteArray(int(wire::kPictureShownBytes) + 1, '\xff')).isNull());
        QVERIFY(decodeShown("<svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'/>").isNull());
        QVERIFY(decodeShown("GIF89a").isNull());
        QVERIFY(decodeShown({}).isNull());
        QByteArray liar = png(marked(16, 12));
        liar[16] = 0x7f; // width, in the head
        QVERIFY(decodeShown(liar).isNull());
    }
};

int vh::testing::picturesMadeReady(int argc, char** argv)
{
    TestMadeReady test;
    return QTest::qExec(&test, argc, argv);
}
#include "made_ready.moc"
