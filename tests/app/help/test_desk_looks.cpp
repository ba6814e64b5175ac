// Nothing of the helper's desk is clipped in any state, at any size of text, on the smallest screens; everything
// painted is readable; nothing is markup.
#include "app/look/look.h"
#include "tests/app/help/desk_fixture.h"
#include "tests/app/look/paint_record.h"
#include "tests/app/widgets/fits.h"
#include "tests/app/widgets/plain_words.h"

#include <QLabel>

using namespace vh;
using namespace vh::help;
using namespace vh::testing;

class TestDeskLooks : public QObject
{
    Q_OBJECT
private slots:
    void initTestCase() { QVERIFY(look::Look().applyTo(*qApp)); }

    void nothingIsCutInAnyState_data()
    {
        QTest::addColumn<int>("size");
        QTest::addColumn<QSize>("screen");
        QTest::newRow("usual") << 0 << QSize(1366, 700);
        QTest::newRow("larger") << 1 << QSize(1366, 700);
        QTest::newRow("largest") << 2 << QSize(1366, 700);
        QTest::newRow("usual, narrow") << 0 << QSize(1280, 720);
    }
    void nothingIsCutInAnyState()
    {
        QFETCH(int, size);
        QFETCH(QSize, screen);
        QVERIFY(look::Look(look::Ground::light, static_cast<look::TextSize>(size)).applyTo(*qApp));
        QStringList wrong;
        for (const DeskScene& scene : deskScenes()) {
            DeskModel model;
            DeskRoom room;
            shown(scene, model, room, screen);
            if (room.size() != screen)
                wrong << QString("%1: the room is %2 x %3").arg(scene.name).arg(room.width()).arg(room.height());
            for (const QString& each : tooLittleRoomIn(room) + borrowedWordsIn(room))
                wrong << QString("%1: %2").arg(scene.name, each);
        }
        QVERIFY(look::Look().applyTo(*qApp));
        QVERIFY2(wrong.isEmpty(), qPrintable(wrong.join("\n    ")));
    }

    void everythingPaintedIsReadable_data()
    {
        QTest::addColumn<int>("ground");
        QTest::newRow("light") << int(look::Ground::light);
        QTest::newRow("dark") << int(look::Ground::dark);
    }
    void everythingPaintedIsReadable()
    {
        QFETCH(int, ground);
        QVERIFY(look::Look(static_cast<look::Ground>(ground)).applyTo(*qApp));
        QStringList wrong;
        for (const DeskScene& scene : deskScenes()) {
            // A picture is of whatever colours it is; calls for help have their own tests.
            if (QByteArray(scene.name) == "picture" || QByteArray(scene.name) == "calls")
                continue;
            DeskModel model;
            DeskRoom room;
            shown(scene, model, room, QSize(1366, 700));
            for (const QString& each : unlistedPairsIn(room))
                wrong << QString("%1: %2").arg(scene.name, each);
        }
        QVERIFY(look::Look().applyTo(*qApp));
        QVERIFY2(wrong.isEmpty(), qPrintable(wrong.join("\n    ")));
    }

    void nothingShownIsReadAsMarkup()
    {
        Desk desk;
        for (auto* label : desk.room.findChildren<QLabel*>())
            QVERIFY2(label->textFormat() == Qt::PlainText || label->text().isEmpty(), qPrintable(label->text()));
    }

private:
    static void shown(const DeskScene& scene, DeskModel& model, DeskRoom& room, QSize screen)
    {
        scene.arrange(model);
        room.resize(screen);
        room.setState(model.view(kDeskNow));
        room.show();
        room.activateWindow();
        for (int i = 0; i < 3; ++i)
            QApplication::processEvents();
        if (scene.act)
            scene.act(room);
        for (int i = 0; i < 3; ++i)
            QApplication::processEvents();
    }
};

QTEST_MAIN(TestDeskLooks)
#include "test_desk_looks.moc"
