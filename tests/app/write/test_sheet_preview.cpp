// The sheet beside the text is what a home shows: the same widget, at the size that the room itself gives it.
#include "app/join/join_room.h"
#include "app/look/look.h"
#include "app/write/sheet_preview.h"

#include <QApplication>
#include <QTest>

using namespace vh;

class TestSheetPreview : public QObject
{
    Q_OBJECT
private slots:
    void itsSizesAreThoseOfAHome_data()
    {
        QTest::addColumn<int>("size");
        QTest::addColumn<bool>("spoken");
        for (int size = 0; size < 3; ++size)
            for (const bool spoken : {true, false})
                QTest::addRow("size %d, %s", size, spoken ? "spoken" : "shown") << size << spoken;
    }
    void itsSizesAreThoseOfAHome()
    {
        QFETCH(int, size);
        QFETCH(bool, spoken);
        const auto textSize = static_cast<look::TextSize>(size);
        QVERIFY(look::Look(look::Ground::light, textSize).applyTo(*qApp));
        join::JoinRoom room;
        join::ClassView view; // as it is in the middle of a class
        view.title = "Down the river";
        view.others = "12 others are here";
        view.leads = "Anna leads";
        view.rail.parts = {{"Hello", Millis{60'000}}};
        view.sheet.text.text = "The raft is made of bottles.";
        view.sheet.cue.turn = TurnKind::yours;
        view.showMeter = spoken;
        view.calmWords = "Stop if it hurts, if you feel dizzy, or if your voice turns hoarse.";
        room.setState(view);
        room.resize(1366, 700);
        room.show();
        for (int i = 0; i < 3; ++i)
            QApplication::processEvents();
        QCOMPARE(room.currentWidget()->findChild<ClassSheet*>()->size(), write::homeSheet(textSize, spoken));
    }

    void itBreaksItsLinesAsAHomeDoes()
    {
        QVERIFY(look::Look{}.applyTo(*qApp));
        ClassSheet::State state;
        state.cue.turn = TurnKind::yours;
        state.text.text = "The old ferry comes home across the lake when the fog is gone, and everybody waves.";
        state.text.limits = kHomeText;
        for (const auto size : {look::TextSize::usual, look::TextSize::largest}) {
            const QSize home = write::homeSheet(size, true);
            write::SheetPreview preview;
            preview.resize(430, preview.heightForWidth(430));
            preview.setState(state, home, size);
            preview.show();
            QApplication::processEvents();
            QVERIFY(look::Look(look::Ground::light, size).applyTo(*qApp));
            ClassSheet real;
            real.resize(home);
            real.setState(state);
            real.show();
            QApplication::processEvents();
            QCOMPARE(preview.sheet().findChild<FittedText*>()->lines().lines,
                     real.findChild<FittedText*>()->lines().lines);
            QCOMPARE(preview.sheet().findChild<FittedText*>()->lines().pixelSize,
                     real.findChild<FittedText*>()->lines().pixelSize);
            QVERIFY(look::Look{}.applyTo(*qApp));
            const QImage seen = preview.grab().toImage();
            // It fills its place: there is ink in both halves of its width, and nothing is at its natural size.
            int dark = 0;
            for (int x = 0; x < seen.width(); ++x)
                for (int y = 0; y < seen.height(); ++y)
                    dark += qGray(seen.pixel(x, y)) < 90 ? (x > seen.width() / 2 ? 1 : 0) : 0;
            QVERIFY(dark > 50);
            QCOMPARE(look::Look::current().textSize(), look::TextSize::usual); // borrowed only while it was drawn
        }
    }
};

QTEST_MAIN(TestSheetPreview)
#include "test_sheet_preview.moc"
