// The process that makes pictures anew, run for real: it answers, and when it breaks it takes nothing along.
#include "server/photos/picture_maker.h"
#include "tests/server/photos/picture_files.h"

#include <QtTest>

#include <future>

using namespace vh::photos;

namespace
{

vh::Result<Remade> made(PictureMaker& maker, Bytes bytes, const Wish& wish = {})
{
    std::promise<vh::Result<Remade>> answer;
    const bool taken = maker.submit(
        std::move(bytes), wish, [&](const vh::Result<Remade>& remade) { answer.set_value(remade); },
        [](const std::function<void()>& run) { run(); });
    return taken ? answer.get_future().get() : vh::fail("not-taken", "");
}

/// A JPEG, to get past the first look, that asks the breaking build for something.
Bytes asking(std::string_view what)
{
    Bytes bytes = writeJpeg(motley(16, 16), 85);
    bytes.insert(bytes.end(), what.begin(), what.end());
    return bytes;
}

} // namespace

class TestPictureMaker : public QObject
{
    Q_OBJECT
private slots:
    void errandsAndAnswersComeThrough()
    {
        const Wish wish{3, {0.125, 0, 0.75, 1}};
        const std::string line = errandLine(wish) + "bytes";
        const Bytes in(line.begin(), line.end());
        const auto errand = readErrand(in);
        QVERIFY(errand);
        QCOMPARE(errand->wish, wish);
        QCOMPARE(errand->bytes.size(), 5U);
        for (const std::string_view bad : {"", "1 0 0 1 1", "1 0 0 1\n", "1 0 0 1 1 1\n", "x 0 0 1 1\n", "1 0 0 1 y\n"})
            QVERIFY2(!readErrand(Bytes(bad.begin(), bad.end())), bad.data());
        QCOMPARE(readAnswer(answerOf(vh::fail("picture-damaged", "It is."))).error().message, std::string("It is."));
        for (const std::string_view lie :
             {"", "jpeg 10 10\nno jpeg", "jpeg 9999 10\n\xFF\xD8\xFF", "no \n", "png 1 1 1\n"})
            QCOMPARE(readAnswer(Bytes(lie.begin(), lie.end())).error().code, std::string("picture-unmade"));
    }

    void aPictureComesBackMadeAnew()
    {
        PictureMaker maker(VH_PHOTOS_PROGRAM);
        const auto remade = made(maker, withMetadata(writeJpeg(motley(2000, 1000), 85)), {1, {}});
        QVERIFY2(remade, remade ? "" : remade.error().code.c_str());
        QCOMPARE(remade->size, (Size{800, 1600}));
        QVERIFY(!holds(remade->bytes, "Greenhill"));
        QVERIFY(maker.tryOut());
        const auto refused = made(maker, jpegThatSaysItIs(60'000, 60'000));
        QCOMPARE(refused.error().code, std::string("picture-too-large"));
        QCOMPARE(maker.counts().made, 1U);
        QCOMPARE(maker.counts().refused, 1U);
        QCOMPARE(maker.counts().broken, 0U);
    }

    void whatBreaksItIsLostAloneAndTheNextComesThrough_data()
    {
        QTest::addColumn<QByteArray>("asked");
        QTest::newRow("crashes") << QByteArray("please crash");
        QTest::newRow("hangs") << QByteArray("please hang");
        QTest::newRow("lies") << QByteArray("please lie");
#ifndef VH_SANITIZED
        QTest::newRow("opens a file") << QByteArray("please open a file");
        QTest::newRow("takes memory") << QByteArray("please take memory");
#endif
    }
    void whatBreaksItIsLostAloneAndTheNextComesThrough()
    {
        QFETCH(QByteArray, asked);
        PictureMaker maker(VH_PHOTOS_BREAKING);
        const auto broken = made(maker, asking({asked.data(), static_cast<std::size_t>(asked.size())}));
        QVERIFY(!broken);
        QCOMPARE(broken.error().code, std::string("picture-unmade"));
        QVERIFY(made(maker, writeJpeg(motley(40, 30), 85)));
    }

    void withoutItsProgramItSaysSo()
    {
        PictureMaker maker("/nowhere/voicehall-photos");
        QCOMPARE(made(maker, writeJpeg(motley(4, 4), 85)).error().code, std::string("picture-unmade"));
        QCOMPARE(maker.counts().broken, 1U);
        QVERIFY(maker.tryOut().error().message.find("/nowhere/voicehall-photos") == 0);
    }

    void tooManyAreRefusedAndThoseThatWaitAreAnswered()
    {
        std::atomic<int> answered = 0;
        int taken = 0;
        {
            PictureMaker maker(VH_PHOTOS_PROGRAM);
            for (int i = 0; i < 100; ++i)
                taken += maker.submit(
                    writeJpeg(motley(64, 64), 85), {}, [&](const vh::Result<Remade>&) { ++answered; },
                    [](const std::function<void()>& run) { run(); });
        }
        QVERIFY(taken >= static_cast<int>(PictureMaker::kMostWaiting) && taken < 100);
        QCOMPARE(answered.load(), taken);
    }
};

QTEST_APPLESS_MAIN(TestPictureMaker)
#include "test_picture_maker.moc"
