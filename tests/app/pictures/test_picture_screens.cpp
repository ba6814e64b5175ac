// What must hold on every screen with pictures, at every size of window and text, light and dark; and what their keys
// and controls ask for.
#include "app/help/desk_model.h"
#include "app/help/desk_room.h"
#include "app/help/word_list.h"
#include "app/look/look.h"
#include "app/pictures/large_page.h"
#include "app/pictures/picture_button.h"
#include "app/pictures/picture_sheet.h"
#include "app/pictures/send_flow.h"
#include "app/pictures/send_page.h"
#include "tests/app/look/paint_record.h"
#include "tests/app/pictures/picture_scenes.h"
#include "tests/app/walk/walk.h"
#include "tests/app/widgets/fits.h"
#include "tests/app/widgets/plain_words.h"

#include <QLineEdit>
#include <QPlainTextEdit>
#include <QSignalSpy>
#include <QtTest>

using namespace vh;
using namespace vh::pictures;
using namespace vh::testing;

namespace
{

constexpr QSize kWindows[] = {{1366, 700}, {1280, 720}, {1920, 1080}};

void show(QWidget& screen, QSize window)
{
    screen.resize(window);
    screen.show();
    screen.activateWindow();
    for (int i = 0; i < 3; ++i)
        QApplication::processEvents();
}

SheetView looking()
{
    SheetView view;
    view.item = 1;
    view.head = "From Ruth, 2 min ago";
    view.picture = gardenPicture({400, 300});
    return view;
}

} // namespace

class TestPictureScreens : public QObject
{
    Q_OBJECT
private:
    int m_wrong = 0;

    void note(const QString& screen, const QString& where, const QStringList& findings)
    {
        for (const QString& each : findings)
            qInfo().noquote() << screen << where << ':' << each;
        m_wrong += static_cast<int>(findings.size());
    }

private slots:
    void init()
    {
        m_wrong = 0;
        QVERIFY(look::Look{}.applyTo(*qApp));
    }

    void allWordsAreSeenAndAParticipantsControlsAreLargeAndApart()
    {
        for (const auto size : {look::TextSize::usual, look::TextSize::larger, look::TextSize::largest}) {
            QVERIFY(look::Look(look::Ground::light, size).applyTo(*qApp));
            for (const PictureScene& scene : pictureScenes()) {
                const auto screen = scene.make();
                for (const QSize window : kWindows) {
                    show(*screen, window);
                    const QString where = QStringLiteral("%1 %2").arg(window.width()).arg(static_cast<int>(size));
                    if (screen->size() != window)
                        note(scene.name, where,
                             {QStringLiteral("needs %1x%2").arg(screen->width()).arg(screen->height())});
                    note(scene.name, where,
                         tooLittleRoomIn(*screen, scene.participants ? KeyHints::stay : KeyHints::mayGo));
                    if (scene.participants)
                        note(scene.name, where, tooSmallOrCloseIn(*screen));
                }
            }
        }
        QCOMPARE(m_wrong, 0); // each is named above
    }

    void coloursAreOfThePaletteAndNoWordIsBorrowed()
    {
        for (const auto ground : {look::Ground::light, look::Ground::dark}) {
            QVERIFY(look::Look(ground).applyTo(*qApp));
            for (const PictureScene& scene : pictureScenes()) {
                const auto screen = scene.make();
                show(*screen, kWindows[0]);
                note(scene.name, ground == look::Ground::dark ? "dark" : "light",
                     unlistedPairsIn(*screen) + cutOffIn(*screen));
                note(scene.name, {}, borrowedWordsIn(*screen));
            }
        }
        QCOMPARE(m_wrong, 0);
    }

    void everyScreenIsWalkedByKeyboardAndByAReader()
    {
        for (const PictureScene& scene : pictureScenes()) {
            const auto screen = scene.make();
            show(*screen, kWindows[0]);
            QTRY_VERIFY(screen->isActiveWindow());
            note(scene.name, {}, unspokenIn(*screen) + outOfReachIn(*screen));
        }
        QCOMPARE(m_wrong, 0);
    }

    void oneKeyForEachThingTheDeskDoes()
    {
        PictureSheet sheet;
        SheetView view = looking();
        view.canUndo = true;
        sheet.setState(view);
        show(sheet, kWindows[0]);
        QSignalSpy turns(&sheet, &PictureSheet::turnRequested);
        QSignalSpy becomes(&sheet, &PictureSheet::becomesRequested);
        QSignalSpy undo(&sheet, &PictureSheet::undoRequested);
        QSignalSpy close(&sheet, &PictureSheet::closeRequested);
        for (const Qt::Key key : {Qt::Key_L, Qt::Key_R, Qt::Key_U, Qt::Key_1, Qt::Key_2, Qt::Key_3, Qt::Key_Escape})
            QTest::keyClick(QApplication::focusWidget(), key);
        QCOMPARE(turns.size(), 2);
        QCOMPARE(turns[0][0].toInt(), -1);
        QCOMPARE(turns[1][0].toInt(), 1);
        QCOMPARE(undo.size(), 1);
        QCOMPARE(becomes.size(), 3);
        QCOMPARE(becomes[0][0].value<Becomes>(), Becomes::board);
        QCOMPARE(becomes[1][0].value<Becomes>(), Becomes::aside);
        QCOMPARE(becomes[2][0].value<Becomes>(), Becomes::window);
        QCOMPARE(close.size(), 1);
    }

    void whileACaptionIsWrittenKeysAreLetters()
    {
        PictureSheet sheet;
        sheet.setState(looking());
        show(sheet, kWindows[0]);
        QSignalSpy turns(&sheet, &PictureSheet::turnRequested);
        QSignalSpy becomes(&sheet, &PictureSheet::becomesRequested);
        QSignalSpy captions(&sheet, &PictureSheet::captionRequested);
        QSignalSpy close(&sheet, &PictureSheet::closeRequested);
        auto* caption = sheet.findChild<QPlainTextEdit*>();
        caption->setFocus();
        QTest::keyClicks(caption, "l1r2");
        QCOMPARE(captions.last()[0].toString(), QString("l1r2"));
        QVERIFY(turns.isEmpty() && becomes.isEmpty());
        QTest::keyClick(caption, Qt::Key_Return); // back to the picture: no line break, and no decision
        QVERIFY(!caption->hasFocus() && becomes.isEmpty());
        caption->setFocus();
        QTest::keyClick(caption, Qt::Key_Escape);
        QVERIFY(!caption->hasFocus() && close.isEmpty());
    }

    void anEdgeIsMovedByArrowKeysAndByAMouse()
    {
        PictureSheet sheet;
        SheetView view = looking();
        sheet.setState(view);
        show(sheet, kWindows[0]);
        QSignalSpy frames(&sheet, &PictureSheet::frameRequested);
        QSignalSpy ended(&sheet, &PictureSheet::cutEnded);
        QSignalSpy becomes(&sheet, &PictureSheet::becomesRequested);
        const auto frame = [&] { return frames.last()[0].toRectF(); };
        connect(&sheet, &PictureSheet::frameRequested, this, [&](const QRectF& asked) {
            view.edit = withFrame(view.edit, asked);
            sheet.setState(view);
        });
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_C);
        auto* picture = sheet.findChild<CutView*>();
        QVERIFY(sheet.isCutting() && picture->hasFocus());
        QTest::keyClick(picture, Qt::Key_Right);
        QCOMPARE(frame(), QRectF(0.02, 0, 0.98, 1));
        QTest::keyClick(picture, Qt::Key_Up); // across: the top edge is marked, and nothing moves
        QCOMPARE(frames.size(), 1);
        QCOMPARE(picture->marked(), Edge::top);
        QTest::keyClick(picture, Qt::Key_Down, Qt::ShiftModifier);
        QCOMPARE(frame(), QRectF(0.02, 0.005, 0.98, 0.995));
        QTest::keyClick(picture, Qt::Key_Space);
        QCOMPARE(picture->marked(), Edge::right);
        QTest::keyClick(picture, Qt::Key_1); // nothing is decided with half a frame
        QVERIFY(becomes.isEmpty());
        // The right edge, by a mouse: the picture is as large as it may be, in the middle.
        const QRectF whole = placeFor(picture->rect());
        const QPoint right(static_cast<int>(whole.right()) - 1, picture->height() / 2);
        QTest::mousePress(picture, Qt::LeftButton, {}, right);
        QTest::mouseMove(picture, QPoint(static_cast<int>(whole.center().x()), right.y()));
        QTest::mouseRelease(picture, Qt::LeftButton, {}, right);
        QVERIFY2(std::abs(frame().right() - 0.5) < 0.01, qPrintable(QString::number(frame().right())));
        QTest::keyClick(picture, Qt::Key_Return);
        QVERIFY(!sheet.isCutting());
        QCOMPARE(ended.last()[0].toBool(), true);
        QTest::keyClick(picture, Qt::Key_C);
        QVERIFY(!sheet.isCutting()); // within one press of a trembling hand
    }

    void atTheDeskItStandsInThePlaceOfTheListsAndBelowTheCallsForHelp()
    {
        for (const auto size : {look::TextSize::usual, look::TextSize::largest}) {
            QVERIFY(look::Look(look::Ground::light, size).applyTo(*qApp));
            help::DeskModel model;
            help::DeskRoom room;
            help::DeskView view = model.view(Instant{});
            view.calls.rows = {{1, "Greta needs help, 18 s ago", "at the kitchen table", CallList::Hand::nobody}};
            room.setState(view);
            show(room, kWindows[0]);
            QTRY_VERIFY(room.isActiveWindow());
            QVERIFY(room.toRead().hasFocus());
            QSignalSpy becomes(&room.picture(), &PictureSheet::becomesRequested);
            QSignalSpy decided(&room, &help::DeskRoom::decisionRequested);
            view.picture = looking();
            view.picture.notice = "Somebody else has changed this picture meanwhile. Please look at it once more.";
            room.setState(view);
            for (int i = 0; i < 3; ++i)
                QApplication::processEvents();
            QVERIFY(room.picture().isVisible() && room.findChild<CallList*>()->isVisible());
            QVERIFY(!room.toRead().isVisible());
            QCOMPARE(room.size(), kWindows[0]);
            note("the desk", QString::number(static_cast<int>(size)), tooLittleRoomIn(room, KeyHints::mayGo));
            QTest::keyClick(QApplication::focusWidget(), Qt::Key_1);
            QCOMPARE(becomes.size(), 1);
            QVERIFY(decided.isEmpty());
            view.picture = {};
            room.setState(view);
            QVERIFY(room.toRead().isVisible() && room.toRead().hasFocus());
        }
        QCOMPARE(m_wrong, 0);
    }

    void aPictureIsSeenBeforeItGoes()
    {
        SendPage page;
        page.setState({SendView::Stage::looking, {}, gardenPicture({400, 300})});
        show(page, kWindows[0]);
        QSignalSpy sent(&page, &SendPage::sendRequested);
        QSignalSpy pasted(&page, &SendPage::pasteRequested);
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return); // the keyboard stands on no answer
        QVERIFY(sent.isEmpty());
        auto* caption = page.findChild<QLineEdit*>();
        caption->setFocus();
        QTest::keyClicks(caption, "my beans");
        QTest::keyClick(caption, Qt::Key_Return);
        QVERIFY(sent.isEmpty());
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
        QCOMPARE(sent.size(), 1);
        QCOMPARE(sent[0][0].toString(), QString("my beans"));
        page.setState({SendView::Stage::looking, {}, gardenPicture({300, 300})}); // another one: other words
        QVERIFY(caption->text().isEmpty());
        page.setState({});
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_V, Qt::ControlModifier);
        QCOMPARE(pasted.size(), 1);
    }

    void theWayOfAPictureUp()
    {
        HandClock clock{Instant{Millis{0}}};
        link::Line line(clock);
        PictureSender sender(line);
        SendFlow flow(sender);
        QSignalSpy agreed(&flow, &SendFlow::agreed);
        QSignalSpy handed(&flow, &SendFlow::handedOver);
        flow.open();
        flow.take(std::nullopt);
        QVERIFY(!flow.view().notice.isEmpty());
        flow.take(Source(QStringLiteral("/nowhere/at all.jpg")));
        QTRY_COMPARE(flow.view().stage, SendView::Stage::choosing);
        QVERIFY(flow.view().notice.contains("could not be read"));
        flow.take(Source(gardenPicture({400, 300})));
        QCOMPARE(flow.view().stage, SendView::Stage::preparing);
        QTRY_COMPARE(flow.view().stage, SendView::Stage::looking);
        QCOMPARE(flow.view().picture.size(), QSize(400, 300));
        flow.take(std::nullopt); // nothing to paste: the one that is looked at stays
        QCOMPARE(flow.view().stage, SendView::Stage::looking);
        flow.send("my  beans", false);
        QCOMPARE(flow.view().stage, SendView::Stage::agreeing);
        flow.agree(false);
        QCOMPARE(flow.view().stage, SendView::Stage::looking);
        QVERIFY(agreed.isEmpty() && sender.going().empty());
        flow.send("my  beans", false);
        flow.agree(true);
        QCOMPARE(agreed.size(), 1);
        QCOMPARE(handed.size(), 1);
        QVERIFY(!flow.isOpen());
        QCOMPARE(sender.going().size(), std::size_t{1});
        QCOMPARE(sender.going().front().caption, QString("my beans"));
        flow.take(Source(gardenPicture({40, 30})));
        flow.back(); // before it has been read
        QVERIFY(!flow.isOpen());
        QTest::qWait(1);
        QTRY_VERIFY(!flow.isOpen());
    }

    void aBurstOfPressesOpensOnePicture()
    {
        HandClock clock{Instant{Millis{1000}}};
        PictureButton button(PictureButton::Size::touch, nullptr);
        button.setClock(clock);
        button.setState({gardenPicture({80, 60}), "Ruth", "my beans", false});
        QCOMPARE(button.accessibleName(), QString("A picture from Ruth: my beans"));
        QVERIFY(button.sizeHint().height() >= look::Space::touch);
        QSignalSpy pressed(&button, &PictureButton::pressRequested);
        button.click();
        button.click();
        QCOMPARE(pressed.size(), 1);
    }

private:
    /// Where CutView places a picture of 4 to 3.
    static QRectF placeFor(const QRect& room)
    {
        const QRectF inside = QRectF(room).adjusted(8, 8, -8, -8);
        const QSizeF size = QSizeF(400, 300).scaled(inside.size().boundedTo(QSizeF(800, 600)), Qt::KeepAspectRatio);
        return {inside.center() - QPointF(size.width() / 2, size.height() / 2), size};
    }
};

QTEST_MAIN(TestPictureScreens)
#include "test_picture_screens.moc"
