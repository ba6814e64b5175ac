// A rehearsal: the class alone, by the clock and the keys of a class, and what comes of it.
#include "app/lead/lead_room.h"
#include "app/look/look.h"
#include "app/write/rehearse.h"
#include "app/write/rehearse_pages.h"
#include "tests/app/look/paint_record.h"
#include "tests/app/walk/walk.h"
#include "tests/app/write/start_scenes.h"

#include <QSignalSpy>
#include <QStackedWidget>
#include <QTemporaryDir>
#include <QtTest>

using namespace vh;
using namespace vh::write;
using namespace vh::testing;

namespace
{

struct Alone {
    explicit Alone(const ClassScript& script = shortScript(), const QString& folder = {})
        : book(disk.path()), rehearsal({&clock, nullptr, sound::DeviceChoice::nothing(), &book})
    {
        rehearsal.start(script, folder);
        QWidget& widget = *rehearsal.widget();
        widget.resize(1366, 700);
        widget.show();
        widget.activateWindow();
        QApplication::processEvents();
    }
    void pass(int seconds)
    {
        for (int i = 0; i < seconds * 2; ++i) {
            clock.advance(Millis{500});
            rehearsal.beat();
        }
    }
    void key(Qt::Key key)
    {
        QTest::keyClick(QApplication::focusWidget() ? QApplication::focusWidget() : rehearsal.widget(), key);
    }
    template <class PageType>
    [[nodiscard]] bool shows() const
    {
        const auto* page = rehearsal.widget()->findChild<PageType*>();
        return page && page->isVisible();
    }
    [[nodiscard]] QStringList words() const
    {
        QStringList all;
        for (const QLabel* label : rehearsal.widget()->findChildren<QLabel*>())
            if (label->isVisible())
                all << label->text();
        return all;
    }
    [[nodiscard]] Place place() const { return rehearsal.running()->state().place; }

    HandClock clock;
    QTemporaryDir disk;
    OwnPaceBook book;
    Rehearsal rehearsal;
    QSignalSpy ended{&rehearsal, &Rehearsal::ended};
    QSignalSpy leaves{&rehearsal, &Rehearsal::leaveRequested};
};

/// What she shows takes 130 s, so that a pace can be learned.
ClassScript longScript()
{
    ClassScript script = shortScript();
    script.sections[2].steps[0].rounds[0].turns[0].planned = Millis{120'000};
    script.plannedMinutes = 3;
    return script;
}

} // namespace

class TestRehearsal : public QObject
{
    Q_OBJECT
private slots:
    void initTestCase() { QVERIFY(look::Look().applyTo(*qApp)); }

    void itBeginsWithAPressAndNotBefore()
    {
        Alone alone;
        alone.pass(30);
        QVERIFY(alone.shows<BeforePage>());
        alone.key(Qt::Key_Space); // the focus stands on "Start the clock"
        QVERIFY(alone.shows<lead::LeadRoom>());
        QCOMPARE(alone.rehearsal.view().stage, lead::Stage::inClass);
        QVERIFY(alone.rehearsal.view().hold == lead::Hold::mine);
    }

    void theClockLeadsAsInClass()
    {
        Alone alone;
        alone.rehearsal.begin();
        alone.pass(5);
        QVERIFY((alone.place() == Place{0, 0, 0, 1}));
        QCOMPARE(QString::fromStdString(alone.rehearsal.view().column.now.text), QString("The loaf is warm."));
        alone.pass(84);
        QVERIFY(alone.rehearsal.running());
        alone.pass(1);
        QCOMPARE(alone.ended.size(), 1);
        QVERIFY(alone.shows<AfterPage>());
    }

    void keysDoWhatTheyDoInClass()
    {
        Alone alone;
        alone.rehearsal.begin();
        QApplication::processEvents();
        alone.pass(1);
        alone.key(Qt::Key_Space);
        QVERIFY((alone.place() == Place{0, 0, 1, 0}));
        alone.pass(1);
        alone.key(Qt::Key_Left);
        QVERIFY((alone.place() == Place{0, 0, 0, 0}));
        alone.pass(1);
        alone.key(Qt::Key_S);
        QVERIFY((alone.place() == Place{0, 1, 0, 0}));
        alone.key(Qt::Key_W);
        alone.pass(60);
        QVERIFY((alone.place() == Place{0, 1, 0, 0}));
        QVERIFY(alone.rehearsal.view().waits);
        alone.key(Qt::Key_W);
        alone.pass(5);
        QVERIFY((alone.place() == Place{0, 1, 0, 1}));
        alone.key(Qt::Key_PageDown);
        QVERIFY((alone.place() == Place{0, 1, 1, 0}));
        alone.key(Qt::Key_O);
        QVERIFY((alone.place() == Place{0, 1, 1, 0}));
        alone.key(Qt::Key_Escape);
        for (const Qt::Key key :
             {Qt::Key_M, Qt::Key_B, Qt::Key_R, Qt::Key_V, Qt::Key_T, Qt::Key_C, Qt::Key_L, Qt::Key_1})
            alone.key(key); // about people, who are not here
        QVERIFY(alone.rehearsal.running());
        QCOMPARE(alone.ended.size() + alone.leaves.size(), 0);
    }

    void stepsMoreTimeAndTrimmingGoAsInClass()
    {
        ClassScript script = shortScript();
        script.sections[0].steps[1].optionalDearness = 1;
        Alone alone(script);
        alone.rehearsal.begin();
        alone.pass(1);
        auto* room = alone.rehearsal.widget()->findChild<lead::LeadRoom*>();
        using Kind = lead::ChangeRequest::Kind;
        emit room->changeRequested({Kind::moreTime, {}, {}});
        QVERIFY(alone.rehearsal.running()->state().turnLength > Millis{4'000});
        alone.rehearsal.command(CommandKind::wait);
        alone.pass(60);
        alone.rehearsal.command(CommandKind::resume);
        emit room->changeRequested({Kind::showTrim, {}, {}});
        QCOMPARE(alone.rehearsal.view().changes.sheet, lead::ChangesView::Sheet::trim);
        emit room->changeRequested({Kind::agree, {}, {}});
        QCOMPARE(alone.rehearsal.running()->state().leftOut.size(), std::size_t(1));
        emit room->changeRequested({Kind::putBack, {}, {}});
        QVERIFY(alone.rehearsal.running()->state().leftOut.empty());
        emit room->changeRequested({Kind::jump, StepAt{1, 0}, {}});
        QVERIFY((alone.place() == Place{1, 0, 0, 0}));
        QVERIFY(!alone.rehearsal.view().changes.mayCorrect); // there is nobody to correct it for
        emit room->changeRequested({Kind::correct, {}, QStringLiteral("x")});
        QVERIFY(alone.rehearsal.running());
    }

    void itSaysAllTheTimeThatNobodyHearsHerAndOffersNothingThatWouldReachAnybody()
    {
        Alone alone;
        alone.rehearsal.begin();
        alone.pass(3);
        const lead::LeadView& view = alone.rehearsal.view();
        QVERIFY(view.level.words.contains("nobody hears you"));
        QVERIFY(!view.level.on);
        QVERIFY(!view.voice.offered);
        QVERIFY(view.hall.seats.empty());
        QVERIFY(view.way.code.isEmpty());
        QVERIFY(view.rehearsal);
    }

    void endAsksOnceMore()
    {
        Alone alone;
        alone.rehearsal.begin();
        auto* room = alone.rehearsal.widget()->findChild<lead::LeadRoom*>();
        emit room->endRequested();
        QVERIFY(alone.rehearsal.running());
        QVERIFY(alone.rehearsal.view().endArmed);
        emit room->endRequested();
        QCOMPARE(alone.ended.size(), 1);
        QVERIFY(alone.book.pace().isAsPlanned()); // too little of it
        QVERIFY(alone.words().join('\n').contains("Too little"));
    }

    void plannedStandsAgainstActualForEachPart()
    {
        Alone alone;
        alone.rehearsal.begin();
        alone.pass(3);
        alone.rehearsal.command(CommandKind::wait);
        alone.pass(20);
        alone.rehearsal.command(CommandKind::resume);
        alone.pass(37); // to the end of the phrases
        alone.rehearsal.command(CommandKind::skip);
        alone.pass(40);
        QCOMPARE(alone.ended.size(), 1);
        const QStringList words = alone.words();
        QVERIFY2(words.contains("Planned: 1:30. It took 1:30."), qPrintable(words.join('\n')));
        const auto row = words.indexOf("Warm loaves");
        QVERIFY(row > 0);
        QCOMPARE(words.mid(row, 4), (QStringList{"Warm loaves", "0:40", "1:00", "20 seconds longer"}));
        const auto pause = words.indexOf("Water pauses");
        QCOMPARE(words.mid(pause, 4), (QStringList{"Water pauses", "0:20", "0:00", "20 seconds shorter"}));
    }

    void herPaceIsLearnedAndReckonedWithTheNextTime()
    {
        Alone alone(longScript());
        alone.rehearsal.begin();
        alone.pass(63);
        alone.rehearsal.command(CommandKind::wait); // in the closing
        alone.pass(60);
        alone.rehearsal.command(CommandKind::resume);
        alone.pass(130);
        QCOMPARE(alone.ended.size(), 1);
        QVERIFY(!alone.ended.first().first().value<PaceSample>().empty());
        QCOMPARE(alone.book.classes(), std::size_t(1));
        QCOMPARE(alone.book.words(),
                 QStringList{"You take about a quarter longer over the goodbye than the plan says."});
        QVERIFY(alone.words().join('\n').contains("about a quarter longer over the goodbye"));
        alone.rehearsal.start(longScript(), {});
        QVERIFY(alone.words().join('\n').contains("at your pace"));
    }

    void itGoesOnceMoreFromTheBeginning()
    {
        Alone alone;
        alone.rehearsal.begin();
        alone.pass(100);
        QVERIFY(alone.shows<AfterPage>());
        emit alone.rehearsal.widget()->findChild<AfterPage*>()->againRequested();
        QVERIFY(alone.shows<BeforePage>());
        alone.rehearsal.begin();
        QVERIFY((alone.place() == Place{0, 0, 0, 0}));
        alone.pass(100);
        QCOMPARE(alone.ended.size(), 2);
    }

    void picturesAreShownAsHomesGetThemAndAMissingOneIsSaid()
    {
        Alone alone(shipped("down-the-river"), VH_SOURCE_DIR "/content/classes");
        alone.rehearsal.begin();
        alone.pass(1);
        QVERIFY(!alone.rehearsal.view().group.picture.isNull());
        Alone without(shipped("down-the-river"), alone.disk.path());
        const auto notices = without.rehearsal.widget()->findChildren<NoticeLine*>();
        QVERIFY(std::ranges::any_of(notices, [](const NoticeLine* notice) {
            return notice->isVisible() && notice->state().words.contains("down-the-river-raft.svg");
        }));
        without.rehearsal.begin();
        without.pass(1);
        QVERIFY(without.rehearsal.view().group.picture.isNull());
        QVERIFY(without.rehearsal.running());
    }

    void theSamePressesGiveTheSameClassAsInAHall()
    {
        const auto script = std::make_shared<const ClassScript>(shortScript());
        HandClock clock;
        LocalClass local(script, clock.now());
        const PersonId leader = local.state().leader;
        ClassState hall = openClass(*script, 1, leader, {}, clock.now());
        const CommandKind presses[] = {CommandKind::start,  CommandKind::goOn, CommandKind::wait,
                                       CommandKind::resume, CommandKind::back, CommandKind::onceMore,
                                       CommandKind::skip,   CommandKind::end};
        for (const CommandKind kind : presses) {
            const wire::Lead lead{{}, kind, local.lease().lease, local.place().serial, {}, {}, {}};
            const auto refused = local.press(lead, clock.now());
            const Outcome outcome =
                apply(*script, hall, {kind, leader, lead.lease, lead.serial, {}, {}, {}}, clock.now());
            hall = outcome.state;
            QCOMPARE(refused.has_value(), outcome.refusal != Refusal::none);
            QVERIFY(local.state() == hall);
            clock.advance(Millis{3'000});
        }
        QVERIFY(local.press({{}, CommandKind::goOn, 1, 0, {}, {}, {}}, clock.now()).has_value());
    }

    void aTraceHasTheExactTimesOfTheClockHoweverLateItIsLookedAt()
    {
        HandClock clock;
        LocalClass local(std::make_shared<const ClassScript>(shortScript()), clock.now());
        const Instant began = clock.now();
        QVERIFY(!local.press({{}, CommandKind::start, 1, 0, {}, {}, {}}, began));
        clock.advance(Millis{4'700});
        QVERIFY(local.tick(clock.now()));
        QCOMPARE(local.trace().back().at, began + Millis{4'000});
    }

    void everythingIsSeenAndReachedAtEverySize()
    {
        QStringList wrong;
        for (const auto size : {look::TextSize::usual, look::TextSize::larger, look::TextSize::largest}) {
            QVERIFY(look::Look(look::Ground::light, size).applyTo(*qApp));
            for (const QSize window : {QSize(1366, 700), QSize(1280, 720)}) {
                Alone alone(shipped("village-band"), VH_SOURCE_DIR "/content/classes");
                QVERIFY(alone.book.learn(slowSample()));
                alone.rehearsal.widget()->resize(window);
                const auto look = [&](const char* what, bool whole) {
                    for (int i = 0; i < 3; ++i)
                        QApplication::processEvents();
                    QWidget& widget = *alone.rehearsal.widget();
                    if (widget.size() != window)
                        wrong << QStringLiteral("%1 has grown to %2x%3")
                                     .arg(what)
                                     .arg(widget.width())
                                     .arg(widget.height());
                    wrong << butForScrolled(widget, cutOffIn(widget)) << unspokenIn(widget);
                    if (whole)
                        wrong << tooLittleRoomIn(widget) << outOfReachIn(widget);
                };
                alone.rehearsal.start(shipped("village-band"), alone.disk.path()); // with its notice
                look("before", true);
                alone.rehearsal.begin();
                alone.pass(4);
                look("in class", false); // its parts: tests/app/lead
                alone.rehearsal.command(CommandKind::end);
                look("after", true);
            }
        }
        QVERIFY2(wrong.isEmpty(), qPrintable(wrong.join("\n    ")));
    }
};

QTEST_MAIN(TestRehearsal)
#include "test_rehearsal.moc"
