// Widgets as a person meets them: presses, keys, names that a screen reader says, shapes that need no colour.
#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "app/widgets/cue_badge.h"
#include "app/widgets/level_bar.h"
#include "app/widgets/notice_line.h"
#include "app/widgets/script_rail.h"
#include "app/widgets/voice_meter.h"

#include <QAccessible>
#include <QApplication>
#include <QPainter>
#include <QSignalSpy>
#include <QtTest>

using namespace vh;
using namespace std::chrono_literals;

namespace
{

/// The shape alone: where anything was painted that is not the ground of the column's inside.
QImage shapeOfColumn(Standing standing)
{
    QImage image(40, 64, QImage::Format_RGB32);
    image.fill(look::Look::current().palette().sheet);
    QPainter painter(&image);
    paintColumn(painter, QRectF(1, 1, 38, 62), standing, std::nullopt, Band{});
    painter.end();
    const QRgb ground = look::Look::current().palette().sheet.rgb();
    QImage mask(image.size(), QImage::Format_Grayscale8);
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x)
            mask.setPixel(x, y, image.pixel(x, y) == ground ? 255 : 0);
    }
    return mask;
}

QString spoken(QWidget& widget)
{
    QAccessibleInterface* face = QAccessible::queryAccessibleInterface(&widget);
    return face ? face->text(QAccessible::Name) : QString();
}

} // namespace

class TestControls : public QObject
{
    Q_OBJECT
private slots:
    void initTestCase() { QVERIFY(look::Look{}.applyTo(*qApp)); }

    void participantControlsAreAtLeast60By60()
    {
        for (const char* words : {"I need help", "No", ""}) {
            BigButton button(words, BigButton::Rank::plain, BigButton::Size::touch);
            QVERIFY(button.minimumSizeHint().width() >= 60);
            QVERIFY(button.minimumSizeHint().height() >= 60);
        }
    }

    void largestTextStillFitsIntoItsControl()
    {
        QVERIFY(look::Look(look::Ground::light, look::TextSize::largest).applyTo(*qApp));
        BigButton button("Send a picture", BigButton::Rank::plain, BigButton::Size::touch);
        const QFontMetricsF metrics(look::Look::current().font(look::Type::touch));
        QVERIFY(button.sizeHint().width() >= metrics.horizontalAdvance(button.text()) + 20);
        QVERIFY(button.sizeHint().height() >= metrics.height());
        QVERIFY(look::Look{}.applyTo(*qApp));
    }

    void aBurstOfClicksIsOnePress()
    {
        HandClock clock;
        BigButton button("Say hello", BigButton::Rank::plain, BigButton::Size::touch);
        button.setClock(clock);
        button.show();
        QSignalSpy pressed(&button, &BigButton::pressRequested);
        for (int i = 0; i < 4; ++i) {
            QTest::mouseClick(&button, Qt::LeftButton);
            clock.advance(180ms);
        }
        QCOMPARE(pressed.count(), 1);
        clock.advance(400ms);
        QTest::mouseClick(&button, Qt::LeftButton);
        QCOMPARE(pressed.count(), 2);
    }

    void anotherControlIsNotHeldBack()
    {
        HandClock clock;
        BigButton one("Back", BigButton::Rank::plain, BigButton::Size::touch);
        BigButton other("Go on", BigButton::Rank::main, BigButton::Size::touch);
        one.setClock(clock);
        other.setClock(clock);
        one.show();
        other.show();
        QSignalSpy pressed(&other, &BigButton::pressRequested);
        QTest::mouseClick(&one, Qt::LeftButton);
        QTest::mouseClick(&other, Qt::LeftButton);
        QCOMPARE(pressed.count(), 1);
    }

    void aKeyHeldDownIsOnePress_data()
    {
        QTest::addColumn<int>("key");
        QTest::newRow("Enter") << int(Qt::Key_Return);
        QTest::newRow("Enter of the number pad") << int(Qt::Key_Enter);
        QTest::newRow("Space") << int(Qt::Key_Space);
    }
    void aKeyHeldDownIsOnePress()
    {
        QFETCH(int, key);
        HandClock clock;
        BigButton button("Go on", BigButton::Rank::main, BigButton::Size::touch);
        button.setClock(clock);
        button.show();
        QSignalSpy pressed(&button, &BigButton::pressRequested);
        for (int i = 0; i < 30; ++i) { // repeats every 33 ms, for a second
            QKeyEvent down(QEvent::KeyPress, key, Qt::NoModifier, {}, i > 0);
            QApplication::sendEvent(&button, &down);
            QKeyEvent up(QEvent::KeyRelease, key, Qt::NoModifier, {}, i < 29);
            QApplication::sendEvent(&button, &up);
            clock.advance(33ms);
        }
        QCOMPARE(pressed.count(), 1);
    }

    void focusIsSeen()
    {
        BigButton button("Go on", BigButton::Rank::plain, BigButton::Size::touch);
        button.resize(button.sizeHint());
        button.show();
        button.activateWindow();
        button.setFocus();
        QTRY_VERIFY(button.hasFocus());
        const QImage with = button.grab().toImage();
        button.clearFocus();
        const QImage without = button.grab().toImage();
        QVERIFY(with != without);
        // The ring stands at the very edge, in a colour of 3:1 at least (test_contrast has the pair).
        QCOMPARE(with.pixelColor(1, with.height() / 2), look::Look::current().palette().deep);
    }

    void everythingSaysWhatItShows()
    {
        BigButton button("I need help", BigButton::Rank::main, BigButton::Size::touch);
        button.setKeyHint("F1");
        QCOMPARE(spoken(button), QStringLiteral("I need help"));
        QVERIFY(button.accessibleDescription().contains("F1"));

        CueBadge cue;
        cue.setState({TurnKind::yours, true, {}});
        QCOMPARE(spoken(cue), QStringLiteral("You, with more voice"));
        QCOMPARE(QAccessible::queryAccessibleInterface(&cue)->role(), QAccessible::StaticText);

        VoiceMeter meter;
        VoiceMeter::State state;
        state.standing = Standing::cantTell;
        state.reason = Blank::roomTooNoisy;
        meter.setState(state);
        QCOMPARE(spoken(meter), QStringLiteral("I can't tell just now. The room is loud."));

        NoticeLine notice;
        notice.setState({"The line is lost. Trying again.", NoticeLine::Tone::heed});
        QCOMPARE(spoken(notice), QStringLiteral("The line is lost. Trying again."));
        QCOMPARE(QAccessible::queryAccessibleInterface(&notice)->role(), QAccessible::AlertMessage);

        ScriptRail rail(ScriptRail::Form::full);
        rail.setState({{{"Opening", 60s, false}, {"Phrases", 60s, false}}, 70s, 1});
        QCOMPARE(spoken(rail), QStringLiteral("Phrases, part 2 of 2"));

        LevelBar level;
        level.setState({"They hear you", -30.0F});
        QCOMPARE(spoken(level), QStringLiteral("They hear you"));

        TurnRow turns;
        turns.setState({{TurnKind::listen, TurnKind::yours}, 1, {"0:04"}});
        QCOMPARE(spoken(turns), QStringLiteral("Turn: You"));
    }

    void aMovingBarIsNotSpokenAllTheTime()
    {
        VoiceMeter meter;
        VoiceMeter::State state;
        state.standing = Standing::inBand;
        state.overUsualDb = 4;
        meter.setState(state);
        const QString before = spoken(meter);
        state.overUsualDb = 7;
        meter.setState(state);
        QCOMPARE(spoken(meter), before);
    }

    void everyShapeIsToldApartWithoutColour()
    {
        const std::vector<Standing> different{Standing::notYet,  Standing::inBand,   Standing::below,
                                              Standing::above,   Standing::noVoice,  Standing::cantTell,
                                              Standing::resting, Standing::private_, Standing::away};
        for (std::size_t i = 0; i < different.size(); ++i) {
            for (std::size_t j = i + 1; j < different.size(); ++j) {
                const QImage one = shapeOfColumn(different[i]);
                const QImage other = shapeOfColumn(different[j]);
                int differing = 0;
                for (int y = 0; y < one.height(); ++y) {
                    for (int x = 0; x < one.width(); ++x)
                        differing += one.pixel(x, y) != other.pixel(x, y);
                }
                // At least as many pixels as a dash has: seen at arm's length.
                QVERIFY2(differing > 50, qPrintable(QStringLiteral("%1 and %2: %3").arg(i).arg(j).arg(differing)));
            }
        }
    }

    void aBlankNoticeKeepsItsPlace()
    {
        NoticeLine notice;
        const int blank = notice.sizeHint().height();
        notice.setState({"Trying again.", NoticeLine::Tone::calm});
        QCOMPARE(notice.sizeHint().height(), blank);
    }
};

QTEST_MAIN(TestControls)
#include "test_controls.moc"
