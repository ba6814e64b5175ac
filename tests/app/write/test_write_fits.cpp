// Nothing of the library and the days is clipped or lies outside: in every state, at every text size, on the smallest
// screens.
#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "tests/app/widgets/fits.h"
#include "tests/app/write/library_scenes.h"

#include <QApplication>
#include <QtTest>

using namespace vh;
using namespace vh::testing;
using namespace vh::write::testing;

class TestWriteFits : public QObject
{
    Q_OBJECT
private slots:
    void nothingIsCut_data()
    {
        QTest::addColumn<int>("which");
        int which = 0;
        for (const WriteScene& scene : libraryScenes())
            QTest::newRow(scene.name) << which++;
    }
    void nothingIsCut()
    {
        QFETCH(const int, which);
        const WriteScene scene = libraryScenes()[static_cast<std::size_t>(which)];
        QVERIFY(look::Look{}.applyTo(*qApp));
        WriteHere here;
        QVERIFY(here.isReady());
        scene.arrange(here);
        here.room().show();
        for (const auto size : {look::TextSize::usual, look::TextSize::larger, look::TextSize::largest})
            for (const QSize screen : {QSize(1366, 700), QSize(1280, 720)}) {
                QVERIFY(look::Look(look::Ground::light, size).applyTo(*qApp));
                here.room().resize(screen);
                for (int i = 0; i < 4; ++i)
                    QApplication::processEvents();
                const QString where =
                    QStringLiteral("size %1, %2 wide: ").arg(static_cast<int>(size)).arg(screen.width());
                QCOMPARE(here.room().size(), screen);
                const QStringList wrong = tooLittleRoomIn(here.room(), KeyHints::mayGo);
                QVERIFY2(wrong.isEmpty(), qPrintable(where + wrong.join("; ")));
            }
    }
};

QTEST_MAIN(TestWriteFits)
#include "test_write_fits.moc"
