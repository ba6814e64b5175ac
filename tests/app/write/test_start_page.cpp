// The page that lays out a class: theme and Enter are enough, what is missing is said, every shape can be chosen by
// keyboard, and everything on it is seen.
#include "app/look/look.h"
#include "app/write/shape_card.h"
#include "app/write/start_page.h"
#include "common/script/review.h"
#include "tests/app/look/paint_record.h"
#include "tests/app/walk/walk.h"
#include "tests/app/write/start_scenes.h"

#include <QSignalSpy>
#include <QtTest>

using namespace vh;
using namespace vh::write;
using namespace vh::testing;

Q_DECLARE_METATYPE(vh::ClassScript)

namespace
{

struct Page {
    Page()
    {
        page.resize(1366, 700);
        page.show();
        page.activateWindow();
        QApplication::processEvents();
    }
    void type(const char* text) { QTest::keyClicks(QApplication::focusWidget(), text); }
    void press(Qt::Key key) { QTest::keyClick(QApplication::focusWidget(), key); }
    [[nodiscard]] ClassScript made() { return laidOut.last().first().value<ClassScript>(); }
    [[nodiscard]] QString notice() { return page.findChild<NoticeLine*>()->state().words; }
    [[nodiscard]] bool says(const QString& words)
    {
        const auto labels = page.findChildren<QLabel*>();
        return std::ranges::any_of(labels, [&](const QLabel* label) { return label->text().contains(words); });
    }
    StartPage page;
    QSignalSpy laidOut{&page, &StartPage::laidOut};
};

} // namespace

class TestStartPage : public QObject
{
    Q_OBJECT
private slots:
    void initTestCase() { QVERIFY(look::Look().applyTo(*qApp)); }

    void aThemeAndEnterAreEnough()
    {
        Page page;
        page.type("Kites");
        page.press(Qt::Key_Return);
        QCOMPARE(page.laidOut.size(), 1);
        const ClassScript script = page.made();
        QCOMPARE(script.title, std::string("Kites"));
        QCOMPARE(script.plannedMinutes, 20);
        for (const Finding& finding : review(script, rulesFor("en")).findings)
            QVERIFY(finding.kind == FindingKind::leftToWrite);
    }

    void wordsMinutesAndShapeAreTaken()
    {
        Page page;
        page.type("Kites");
        page.press(Qt::Key_Tab);
        page.type("kite, string, hill");
        page.press(Qt::Key_Tab);
        page.press(Qt::Key_Backspace);
        page.press(Qt::Key_Backspace);
        page.type("25");
        page.press(Qt::Key_Tab);
        page.press(Qt::Key_Down); // the second shape
        QVERIFY(page.says("There and back"));
        QVERIFY(page.says("one of your 3 words"));
        page.press(Qt::Key_Tab);
        page.press(Qt::Key_Return); // the button
        QCOMPARE(page.laidOut.size(), 1);
        Theme theme{"Kites", {"kite", "string", "hill"}, 25, 0, {}};
        QVERIFY(page.made() == laidOut(ClassShape::thereAndBack, theme));
    }

    void onAShapeEnterLaysItOutOnce()
    {
        Page page;
        page.type("Kites");
        for (int i = 0; i < 3; ++i)
            page.press(Qt::Key_Tab); // words, minutes, the first shape
        page.press(Qt::Key_Down);
        page.press(Qt::Key_Return);
        QCOMPARE(page.laidOut.size(), 1);
        QVERIFY(page.made() == laidOut(ClassShape::thereAndBack, {"Kites", {}, 20, 0, {}}));
    }

    void herOwnClassesLendTheirShapes()
    {
        Page page;
        const StartPage::State state = ownShapes();
        page.page.setState(state);
        const auto cards = page.page.findChildren<ShapeCard*>();
        QCOMPARE(cards.size(), kShapes + 3);
        page.type("Kites");
        cards[kShapes]->setChecked(true);
        page.press(Qt::Key_Return);
        Theme theme{"Kites", {}, 22, state.day, state.pace};
        QVERIFY(page.made() == laidOutAs(state.earlier.front(), theme));
        QVERIFY(page.says("at your pace"));
        QVERIFY(page.says("over sentences than the plan says"));
    }

    void withoutAThemeNothingIsMadeAndWhatIsMissingIsSaid()
    {
        Page page;
        page.type("   ");
        page.press(Qt::Key_Return);
        QCOMPARE(page.laidOut.size(), 0);
        QVERIFY(!page.notice().isEmpty());
        page.type("Tea");
        QVERIFY(page.notice().isEmpty()); // no longer missing
        page.press(Qt::Key_Return);
        QCOMPARE(page.laidOut.size(), 1);
        QCOMPARE(page.made().theme, std::string("Tea"));
    }

    void minutesThatNoShapeHasAreSaid_data()
    {
        QTest::addColumn<QString>("typed");
        QTest::newRow("too few") << "5";
        QTest::newRow("too many") << "90";
        QTest::newRow("no number") << "ab";
        QTest::newRow("nothing") << "";
    }
    void minutesThatNoShapeHasAreSaid()
    {
        QFETCH(QString, typed);
        Page page;
        page.type("Tea");
        fieldNamed(page.page, "Minutes")->setText(typed);
        page.press(Qt::Key_Return);
        QCOMPARE(page.laidOut.size(), 0);
        QVERIFY(page.notice().contains("15 to 30"));
        QCOMPARE(QApplication::focusWidget(), fieldNamed(page.page, "Minutes"));
    }

    void aReaderMeetsTheShapesAsAChoiceOfOne()
    {
        Page page;
        for (ShapeCard* card : page.page.findChildren<ShapeCard*>()) {
            QAccessibleInterface* face = QAccessible::queryAccessibleInterface(card);
            QVERIFY(face && face->role() == QAccessible::RadioButton);
            QVERIFY(!face->text(QAccessible::Name).isEmpty());
            QVERIFY(face->text(QAccessible::Description).endsWith('.'));
            QCOMPARE(face->state().checked, card->isChecked() ? 1U : 0U);
        }
    }

    void pushingStateEmitsNothing()
    {
        Page page;
        QSignalSpy leave(&page.page, &StartPage::leaveRequested);
        page.page.setState(ownShapes());
        page.page.setState({});
        QCOMPARE(page.laidOut.size() + leave.size(), 0);
        QCOMPARE(page.page.findChildren<ShapeCard*>().size(), kShapes);
    }

    void anythingTypedMakesAClassThatCanBeKept()
    {
        Page page;
        page.page.setState(ownShapes());
        fieldNamed(page.page, "What is it about?")->setText(QString::fromUtf8("<b> \"A\" & \\ \u00e9\u4e2d\U0001F600"));
        fieldNamed(page.page, "About a dozen words that belong to it")->setText("<x>,\\,>,a<b,\u202eb");
        for (ShapeCard* card : page.page.findChildren<ShapeCard*>()) {
            card->setChecked(true);
            const auto before = page.laidOut.size();
            page.press(Qt::Key_Return);
            QVERIFY(page.laidOut.size() == before + 1 || !page.notice().isEmpty());
        }
    }

    void everythingIsSeenAndReachedAtEverySize()
    {
        QStringList wrong;
        for (const auto size : {look::TextSize::usual, look::TextSize::larger, look::TextSize::largest}) {
            QVERIFY(look::Look(look::Ground::light, size).applyTo(*qApp));
            for (const QSize window : {QSize(1366, 700), QSize(1280, 720)})
                for (const bool own : {false, true}) {
                    Page page;
                    page.page.setState(own ? ownShapes() : StartPage::State{});
                    fieldNamed(page.page, "What is it about?")->setText("Kites, and all that flies");
                    page.page.resize(window);
                    for (int i = 0; i < 3; ++i)
                        QApplication::processEvents();
                    if (page.page.size() != window)
                        wrong << QStringLiteral("it has grown to %1x%2").arg(page.page.width()).arg(page.page.height());
                    wrong << tooLittleRoomIn(page.page) << butForScrolled(page.page, cutOffIn(page.page));
                    for (const QString& each : unspokenIn(page.page))
                        if (!each.contains("button to a reader") && !each.contains("pressed by a reader"))
                            wrong << each; // the shapes are radio buttons, which are chosen
                    for (const QString& each : outOfReachIn(page.page))
                        if (!each.contains(QChar(0x201C)) && !each.contains("There and back") &&
                            !each.contains("Talking day")) // arrows reach these
                            wrong << each;
                }
        }
        QVERIFY2(wrong.isEmpty(), qPrintable(wrong.join("\n    ")));
    }

    void whateverIsPaintedIsAPairOfColoursThatWasChecked()
    {
        QStringList wrong;
        for (const auto ground : {look::Ground::light, look::Ground::dark}) {
            QVERIFY(look::Look(ground).applyTo(*qApp));
            Page page;
            page.page.setState(ownShapes());
            page.press(Qt::Key_Return); // with its notice
            QApplication::processEvents();
            wrong << unlistedPairsIn(page.page);
        }
        QVERIFY2(wrong.isEmpty(), qPrintable(wrong.join("\n    ")));
    }
};

QTEST_MAIN(TestStartPage)
#include "test_start_page.moc"
