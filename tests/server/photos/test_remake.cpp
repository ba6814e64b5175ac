// A picture made anew: its pixels stay, everything else goes, and what is no picture is refused in words.
#include "tests/server/photos/picture_files.h"

#include <QtTest>

using namespace vh::photos;

namespace
{

std::array<int, 3> pixel(const Picture& picture, int x, int y)
{
    const auto at = static_cast<std::size_t>(3 * (y * picture.width + x));
    return {picture.rgb[at], picture.rgb[at + 1], picture.rgb[at + 2]};
}

Picture readAgain(const Remade& remade)
{
    const auto picture = remade.format == Format::jpeg ? readJpeg(remade.bytes) : readPng(remade.bytes);
    return picture.value_or(Picture{});
}

} // namespace

class TestRemake : public QObject
{
    Q_OBJECT
private slots:
    void smallerIsTheMeanOfWhatItCovers()
    {
        // 6 x 4 to 3 x 2: each pixel covers four; to 4 x 3: by shares of area, computed by hand.
        Picture picture{6, 4, {}};
        for (int i = 0; i < 24; ++i)
            picture.rgb.insert(picture.rgb.end(), {static_cast<std::uint8_t>(10 * i), 0, 255});
        const auto scaled = [&](Size to) {
            RowScaler scaler({6, 4}, to);
            for (int y = 0; y < 4; ++y)
                scaler.push(std::span(picture.rgb).subspan(static_cast<std::size_t>(y) * 18, 18));
            return scaler.take();
        };
        const Picture half = scaled({3, 2});
        QCOMPARE(pixel(half, 0, 0)[0], (0 + 10 + 60 + 70) / 4);
        QCOMPARE(pixel(half, 2, 1)[0], (160 + 170 + 220 + 230) / 4);
        const Picture odd = scaled({4, 3});
        // Its first pixel covers 1.5 x 1.333 of the source: 0, 10, 60, 70 by areas 1, .5, .333, .1667 of 2.
        QCOMPARE(pixel(odd, 0, 0)[0], static_cast<int>(std::lround((0 + 5 + 20 + 70.0 / 6) / 2)));
        QCOMPARE(pixel(odd, 0, 0)[2], 255);
    }

    void fitsWithinAnEdge()
    {
        QCOMPARE(within({4000, 3000}, 1600), (Size{1600, 1200}));
        QCOMPARE(within({10, 20'000}, 1600), (Size{1, 1600}));
        QCOMPARE(within({800, 600}, 1600), (Size{800, 600}));
    }

    void turnsClockwiseAfterTheCut()
    {
        const Bytes png = writePng(motley(40, 20));
        const auto remade = remake(png, {1, {0.5, 0, 1, 1}});
        QVERIFY(remade);
        QCOMPARE(remade->size, (Size{20, 20}));
        const Picture out = readAgain(*remade);
        // Top left of what was kept is now top right; its red is half, its green none.
        QCOMPARE(pixel(out, 19, 0), (std::array{20 * 255 / 39, 0, 128}));
        QCOMPARE(pixel(out, 19, 19), (std::array{255, 0, 128}));
        QCOMPARE(pixel(readAgain(*remake(png, {-1, {}})), 0, 0), (std::array{255, 0, 128}));
        QCOMPARE(pixel(readAgain(*remake(png, {2, {}})), 0, 0), (std::array{255, 255, 128}));
    }

    void whatIsNotPixelsGoes()
    {
        for (const auto& [file, format] : {std::pair(withMetadata(writeJpeg(motley(300, 200), 85)), Format::jpeg),
                                           std::pair(pngWithMetadata(writePng(motley(300, 200))), Format::png)}) {
            QVERIFY(holds(file, "Greenhill Camera"));
            const auto remade = remake(file, {});
            QVERIFY2(remade, remade ? "" : remade.error().message.c_str());
            QCOMPARE(remade->format, format);
            for (const std::string_view trace : kTraces)
                QVERIFY2(!holds(remade->bytes, trace), trace.data());
            const Picture out = readAgain(*remade);
            QCOMPARE(out.width, 300);
            QVERIFY(std::abs(pixel(out, 150, 100)[0] - 150 * 255 / 299) <= 4);
        }
    }

    void transparentPartsAreWhite()
    {
        // The colour type with alpha, written by the library beside this one's own writer.
        const auto remade = remake(interlaced(motley(64, 48)), {});
        QVERIFY(remade);
        QCOMPARE(pixel(readAgain(*remade), 63, 47), (std::array{255, 255, 128}));
    }

    void largeOnesComeOutSmaller()
    {
        for (const Bytes& file : {writeJpeg(motley(5000, 2500), 85), plainPng(5000, 2500),
                                  interlaced(motley(3000, 1500)), progressive(motley(3200, 1600), 0)}) {
            const auto remade = remake(file, {});
            QVERIFY2(remade, remade ? "" : remade.error().message.c_str());
            QCOMPARE(remade->size, (Size{1600, 800}));
        }
    }

    void aGrainyPngBecomesAJpeg()
    {
        const auto remade = remake(writePng(grainy(1600, 1200, 1)), {});
        QVERIFY(remade);
        QCOMPARE(remade->format, Format::jpeg);
        QVERIFY(remade->bytes.size() <= kMostBytesOut);
    }

    void whatPacksBadlyBecomesSmallerUntilItFits()
    {
        const auto remade = remake(writeJpeg(grainy(1600, 800, 3), 90), {});
        QVERIFY2(remade, remade ? "" : remade.error().message.c_str());
        QVERIFY(remade->bytes.size() <= kMostBytesOut);
        QVERIFY(remade->size.width >= 640);
        QCOMPARE(remade->size.width, remade->size.height * 2);
        QVERIFY(readJpeg(remade->bytes));
    }

    void isRefusedInWords_data()
    {
        QTest::addColumn<QByteArray>("file");
        QTest::addColumn<QString>("code");
        const auto row = [](const char* name, Bytes bytes, const char* code) {
            QTest::newRow(name) << QByteArray(reinterpret_cast<const char*>(bytes.data()),
                                              static_cast<qsizetype>(bytes.size()))
                                << QString(code);
        };
        const auto text = [](std::string_view words) { return Bytes(words.begin(), words.end()); };
        Bytes half = writeJpeg(motley(300, 200), 85);
        half.resize(half.size() / 2);
        Bytes halfPng = writePng(grainy(100, 100, 2));
        halfPng.resize(halfPng.size() / 2);
        Bytes spoilt = writePng(grainy(100, 100, 2));
        spoilt[spoilt.size() / 2] ^= 0xFFU;
        row("nothing", {}, "picture-unknown");
        row("words", text("hello"), "picture-unknown");
        row("drawing", text("<svg xmlns='http://www.w3.org/2000/svg'/>"), "picture-unknown");
        row("document", text("%PDF-1.7"), "picture-unknown");
        row("moving picture", text("GIF89a\1\0\1\0"), "picture-unknown");
        row(
            "document that holds a picture",
            [&] {
                Bytes both = text("%PDF-1.7 ");
                const Bytes jpeg = writeJpeg(motley(8, 8), 85);
                both.insert(both.end(), jpeg.begin(), jpeg.end());
                return both;
            }(),
            "picture-unknown");
        row("only a beginning", {0xFF, 0xD8, 0xFF}, "picture-cut-short");
        row("half a jpeg", half, "picture-cut-short");
        row("half a png", halfPng, "picture-cut-short");
        row("spoilt png", spoilt, "picture-damaged");
        row("65,000 px wide jpeg", jpegThatSaysItIs(65'000, 65'000), "picture-too-large");
        row("20,000 px wide jpeg", jpegThatSaysItIs(19'999, 19'999), "picture-too-large");
        row("a billion px png", pngThatSaysItIs(1'000'000, 1000), "picture-damaged"); // over the library's own limit
        row("20,000 px png", pngThatSaysItIs(19'999, 19'999), "picture-too-large");
        row("no width", pngThatSaysItIs(0, 10), "picture-damaged");
        row("44 passes", progressive(grainy(64, 64, 3), 44), "picture-too-large");
        row("in passes and large", interlaced(motley(4500, 3000)), "picture-too-large");
        row("four inks", fourInks(30, 20), "picture-for-print");
        Bytes heavy = writeJpeg(motley(300, 200), 85);
        heavy.resize(kMostBytesIn + 1);
        row("heavy file", heavy, "picture-too-large");
    }
    void isRefusedInWords()
    {
        QFETCH(QByteArray, file);
        QFETCH(QString, code);
        const Bytes bytes(file.begin(), file.end());
        const auto remade = remake(bytes, {});
        QVERIFY(!remade);
        QCOMPARE(QString::fromStdString(remade.error().code), code);
        QVERIFY(remade.error().message.ends_with('.'));
    }

    void aCutOfNothingIsRefused()
    {
        const Bytes png = writePng(motley(10, 10));
        for (const Cut cut : {Cut{0.5, 0, 0.5, 1}, Cut{0, 0, 1.1, 1}, Cut{0, std::nan(""), 1, 1}})
            QCOMPARE(remake(png, {0, cut}).error().code, std::string("cut-impossible"));
        QCOMPARE(remake(png, {0, {0, 0, 0.001, 0.001}})->size, (Size{1, 1}));
    }
};

QTEST_APPLESS_MAIN(TestRemake)
#include "test_remake.moc"
