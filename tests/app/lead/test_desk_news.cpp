// What the helpers' desk has for the leader: when it comes and goes, what its keys take, that nothing moves under her
// eyes and nobody's name is left when the hall is covered; and all of it against a real relay.
#include "app/lead/clinician_strip.h"
#include "app/lead/cover_sheet.h"
#include "app/lead/desk_sheet.h"
#include "app/lead/desk_tray.h"
#include "app/lead/lead_room.h"
#include "app/lead/over_page.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "app/widgets/card_list.h"
#include "app/widgets/hall_view.h"
#include "tests/app/lead/lead_relay.h"
#include "tests/app/lead/lead_states.h"

#include <QAbstractButton>
#include <QApplication>
#include <QFile>
#include <QLabel>
#include <QTest>

using namespace vh;
using namespace vh::lead;
using namespace vh::testing;
using wire::DeskState;

namespace
{

constexpr int kSoon = 10'000;
const Instant kNow{Millis{1'700'000'000'000}};

wire::DeskItem item(std::uint64_t id, DeskState state, const char* text = "May I lean back?")
{
    wire::DeskItem made;
    made.item = id;
    made.name = "Greta";
    made.text = text;
    made.state = state;
    return made;
}

/// The leader's side with its desk there, in turn 7 of a class.
struct Desk {
    DeskNews news;
    DeskNews::Turn turn{7, false};
    Instant now = kNow;
    bool covered = false;

    Desk()
    {
        news.take(wire::OnDesk{true, {}});
        news.take(wire::DeskNow{});
        news.follow(turn, false, now);
    }
    void tell(std::uint64_t id, DeskState state) { news.take(wire::OnDesk{false, {item(id, state)}}); }
    DeskNewsView beat()
    {
        news.follow(turn, covered, now);
        return news.view(true);
    }
    DeskNewsView nextTurn()
    {
        ++turn.serial;
        return beat();
    }
};

std::vector<std::uint64_t> placesOf(const DeskNewsView& view)
{
    std::vector<std::uint64_t> items;
    for (const DeskLine& line : view.places)
        items.push_back(line.item);
    return items;
}

using Items = std::vector<std::uint64_t>;

QString nameOf(DeskRequest::Kind kind)
{
    const QStringList names{"desk", "acts", "close", "take", "open", "hold", "show", "hide"};
    return names.value(static_cast<int>(kind));
}

/// Everything that the room asked the desk for.
class Asked : public QStringList
{
public:
    explicit Asked(LeadRoom& room)
    {
        QObject::connect(&room, &LeadRoom::deskRequested, &room, [this](const DeskRequest& request) {
            append(request.item == 0 ? nameOf(request.kind)
                                     : QString("%1 %2").arg(nameOf(request.kind)).arg(request.item));
        });
        QObject::connect(&room, &LeadRoom::commandRequested, &room, [this] { append("lead"); });
    }
    QString take()
    {
        const QString all = join(' ');
        clear();
        return all;
    }
};

void press(LeadRoom& room, Qt::Key key)
{
    QWidget* focus = room.window()->focusWidget();
    QTest::keyClick(focus ? focus : &room, key);
}

QAbstractButton* button(QWidget& room, const QString& words)
{
    for (auto* each : room.findChildren<QAbstractButton*>())
        if (each->text() == words && each->isVisible())
            return each;
    return nullptr;
}

QRect whereIs(const QWidget& widget, const QWidget& room)
{
    return {widget.mapTo(&room, QPoint()), widget.size()};
}

} // namespace

class TestDeskNews : public QObject
{
    Q_OBJECT

    static void show(LeadRoom& room, const LeadView& view)
    {
        room.resize(1366, 700);
        room.setState(view);
        room.show();
        room.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&room));
    }

private slots:
    void initTestCase()
    {
        QVERIFY(look::Look().applyTo(*qApp));
        QAccessible::setActive(true);
    }

    // --- when it comes and goes -----------------------------------------------------------------------------------

    void aQuestionTakesItsPlaceBetweenTurns()
    {
        Desk desk;
        desk.tell(5, DeskState::withLeader);
        QCOMPARE(placesOf(desk.beat()), (Items{0, 0, 0}));
        QCOMPARE(placesOf(desk.nextTurn()), (Items{5, 0, 0}));
        QCOMPARE(desk.news.view(true).places[0].text, QString("May I lean back?"));
    }

    void atOnceWhileNothingIsToBeDisturbed()
    {
        Desk desk;
        desk.turn.calm = true; // a water pause, or the clock is held
        desk.tell(5, DeskState::withLeader);
        QCOMPARE(placesOf(desk.beat()), (Items{5, 0, 0}));
    }

    void aQuestionKeepsItsPlaceWhateverComesAndGoes()
    {
        Desk desk;
        for (const std::uint64_t id : {5, 6, 8})
            desk.tell(id, DeskState::withLeader);
        QCOMPARE(placesOf(desk.nextTurn()), (Items{5, 6, 8}));
        desk.tell(5, DeskState::held); // the desk takes it back: it goes with the turn
        QCOMPARE(placesOf(desk.beat()), (Items{5, 6, 8}));
        QCOMPARE(placesOf(desk.nextTurn()), (Items{0, 6, 8}));
        desk.tell(4, DeskState::withLeader); // older, and passed on later
        QCOMPARE(placesOf(desk.nextTurn()), (Items{4, 6, 8}));
    }

    void whatSheHasTakenGoesOnceTheRelayHasSaidSo()
    {
        Desk desk;
        desk.tell(5, DeskState::withLeader);
        desk.nextTurn();
        QVERIFY(desk.news.takeItem(5, desk.now));
        QVERIFY(!desk.news.takeItem(5, desk.now)); // once is enough
        QVERIFY(desk.beat().places[0].taking);
        desk.tell(5, DeskState::seenTo);
        QCOMPARE(placesOf(desk.beat()), (Items{0, 0, 0})); // her own doing: at once
    }

    void whatCouldNotBeTakenIsThereStill()
    {
        Desk desk;
        desk.tell(5, DeskState::withLeader);
        desk.nextTurn();
        QVERIFY(desk.news.takeItem(5, desk.now));
        const Error busy{"busy", "The relay has too much to write just now.", {}};
        QVERIFY(desk.news.takeAnswered(5, &busy));
        QVERIFY(!desk.beat().places[0].taking);
        QVERIFY(desk.news.takeItem(5, desk.now));
        const Error gone{"item-unknown", "This is no longer there.", {}};
        QVERIFY(!desk.news.takeAnswered(5, &gone)); // nothing that she should hear of
        QCOMPARE(placesOf(desk.beat()), (Items{0, 0, 0}));
    }

    void aPictureIsSaidToBeOne()
    {
        Desk desk;
        wire::DeskItem picture = item(5, DeskState::withLeader, "our shed");
        picture.kind = wire::ItemKind::picture;
        desk.news.take(wire::OnDesk{false, {picture}});
        QCOMPARE(desk.nextTurn().places[0].text, QString("a picture: our shed"));
    }

    void whatNeedsAClinicianIsThereAtOnceAndStaysTheFirst()
    {
        Desk desk;
        desk.tell(9, DeskState::withClinician);
        QCOMPARE(desk.beat().clinician.size(), std::size_t{1});
        desk.tell(3, DeskState::withClinician); // an older line
        const DeskNewsView view = desk.beat();
        QCOMPARE(view.clinician.size(), std::size_t{2});
        QCOMPARE(view.clinician.front().item, std::uint64_t{9});
    }

    void aSecondPressDoesNotTakeWhatHasOnlyJustCome()
    {
        Desk desk;
        desk.tell(9, DeskState::withClinician);
        desk.tell(10, DeskState::withClinician);
        desk.beat();
        QVERIFY(!desk.news.takeItem(9, desk.now)); // nobody can have read it yet
        desk.now += Millis{1'000};
        QVERIFY(desk.news.takeItem(9, desk.now));
        desk.tell(9, DeskState::seenTo);
        desk.beat();
        QVERIFY(!desk.news.takeItem(10, desk.now));
        desk.now += Millis{1'000};
        QVERIFY(desk.news.takeItem(10, desk.now));
    }

    void coveredThereIsNothingToReadAndNothingToTake()
    {
        Desk desk;
        desk.tell(5, DeskState::withLeader);
        desk.tell(9, DeskState::withClinician);
        desk.nextTurn();
        desk.news.showDesk();
        desk.covered = true;
        desk.now += Millis{5'000};
        const DeskNewsView view = desk.beat();
        QCOMPARE(placesOf(view), (Items{0, 0, 0}));
        QVERIFY(view.clinician.empty() && view.sheet == DeskNewsView::Sheet::none);
        QVERIFY(desk.news.waitsForClinician());
        QVERIFY(!desk.news.takeItem(5, desk.now) && !desk.news.takeItem(9, desk.now));
        desk.news.showDesk();
        QVERIFY(desk.beat().sheet == DeskNewsView::Sheet::none);
        desk.covered = false;
        QCOMPARE(placesOf(desk.beat()), (Items{5, 0, 0}));
    }

    void aLineThatComesBackMovesNothing()
    {
        Desk desk;
        for (const std::uint64_t id : {5, 6})
            desk.tell(id, DeskState::withLeader);
        desk.nextTurn();
        desk.news.take(wire::OnDesk{true, {}}); // the first of several messages
        QCOMPARE(placesOf(desk.nextTurn()), (Items{5, 6, 0}));
        desk.news.take(wire::OnDesk{false, {item(6, DeskState::withLeader)}});
        desk.news.take(wire::DeskNow{});
        QCOMPARE(placesOf(desk.nextTurn()), (Items{0, 6, 0}));
    }

    // --- on the screen --------------------------------------------------------------------------------------------

    void keysTakeWhatStandsOnTheirPlaces()
    {
        LeadRoom room;
        Asked asked(room);
        show(room, inClass());
        for (const Qt::Key key : {Qt::Key_7, Qt::Key_8, Qt::Key_9, Qt::Key_N})
            press(room, key); // nothing is there
        QCOMPARE(asked.take(), QString());
        LeadView view = withClinician();
        view.desk.places[1].taking = true;
        room.setState(view);
        for (const Qt::Key key : {Qt::Key_7, Qt::Key_8, Qt::Key_9, Qt::Key_N, Qt::Key_D, Qt::Key_Space})
            press(room, key);
        QCOMPARE(asked.take(), QString("take 11 take 14 take 21 desk lead"));
    }

    void aStandInHasNoDesk()
    {
        LeadRoom room;
        Asked asked(room);
        LeadView view = inClass();
        view.role = Role::standIn;
        view.hall = {};
        show(room, view);
        press(room, Qt::Key_D);
        QCOMPARE(asked.take(), QString());
        QVERIFY(!room.findChild<DeskTray*>()->isVisible());
    }

    void nothingElseMovesWhateverTheDeskHas()
    {
        LeadRoom room;
        show(room, inClass());
        const QList<QWidget*> all{room.findChild<HallView*>(), room.findChild<FittedText*>(),
                                  room.findChild<TurnRow*>(), room.findChild<DeskTray*>(), button(room, "Go on")};
        std::vector<QRect> before;
        for (const QWidget* each : all)
            before.push_back(whereIs(*each, room));
        for (const LeadView& view : {withQuestions(), withClinician(), withDesk(), withOneQuestion()}) {
            room.setState(view);
            QApplication::processEvents();
            for (qsizetype i = 0; i < all.size(); ++i)
                QCOMPARE(whereIs(*all[i], room), before[static_cast<std::size_t>(i)]);
        }
    }

    void aQuestionIsSaidWholeByAReaderAndUnderThePointer()
    {
        LeadRoom room;
        show(room, withQuestions());
        const QString whole = withQuestions().desk.places[2].text;
        int found = 0;
        for (const auto* each : room.findChild<DeskTray*>()->findChildren<QAbstractButton*>()) {
            QVERIFY(each->accessibleDescription().contains("Key "));
            found += each->accessibleName().contains(whole) && each->toolTip().contains(whole);
        }
        QCOMPARE(found, 1);
    }

    void whatNeedsAClinicianIsAnnounced()
    {
        LeadRoom room;
        show(room, inClass());
        QStringList said;
        for (auto* strip : room.findChildren<ClinicianStrip*>())
            connect(strip, &SpokenWidget::announced, &room, [&](const QString& words) { said << words; });
        room.setState(withClinician());
        room.setState(withClinician()); // once
        QCOMPARE(said.size(), 1);
        QVERIFY(said.front().startsWith("Greta needs a clinician. The tea"));
    }

    void coveredNoNameIsLeft()
    {
        LeadRoom room;
        show(room, withClinician());
        LeadView view = covered();
        view.coverWords = "Something needs a clinician.";
        room.setState(view);
        QVERIFY(room.findChild<CoverSheet*>()->accessibleName().contains("needs a clinician"));
        for (const auto* each : room.findChildren<QWidget*>()) {
            if (!each->isVisible() && !qobject_cast<const ClinicianStrip*>(each))
                continue;
            QVERIFY2(!each->accessibleName().contains("Greta") && !each->toolTip().contains("Greta"),
                     qPrintable(each->accessibleName()));
        }
        for (const auto* each : room.findChild<DeskTray*>()->findChildren<QAbstractButton*>())
            QVERIFY(each->accessibleName().isEmpty() && each->toolTip().isEmpty());
    }

    void theSheetSaysAllOfItAndItsPressesAsk()
    {
        HandClock clock;
        LeadRoom room;
        Asked asked(room);
        show(room, inClass());
        room.setState(withDesk());
        QWidget* sheet = button(room, "Open the board");
        while (!qobject_cast<DeskSheet*>(sheet))
            sheet = sheet->parentWidget();
        QVERIFY(sheet->hasFocus());
        for (auto* each : sheet->findChildren<BigButton*>())
            each->setClock(clock);
        QStringList words;
        for (const auto* label : room.findChildren<QLabel*>())
            if (label->isVisible())
                words << label->text();
        QVERIFY(words.contains(withDesk().desk.places[2].text) && words.contains("Wim needs a clinician"));
        button(room, "Open the board")->click();
        button(room, "Let it see levels")->click();
        button(room, "What was done at the desk")->click();
        QCOMPARE(asked.take(), QString("open show acts"));
        room.setState(withDeskOpened());
        clock.advance(Millis{1'000}); // else it is the tremor of the same press
        button(room, "Read first")->click();
        button(room, "Hide levels")->click();
        press(room, Qt::Key_PageDown); // the class goes on from here, too
        press(room, Qt::Key_Escape);
        QCOMPARE(asked.take(), QString("hold hide lead close"));
        room.setState(inClass());
        QVERIFY(!sheet->isVisible());
        press(room, Qt::Key_Space);
        QCOMPARE(asked.take(), QString("lead"));
    }

    void beforeClassTheSheetHasItsKeysToo()
    {
        LeadRoom room;
        Asked asked(room);
        LeadView view = beforeClass();
        view.desk = withDesk().desk;
        view.desk.sheet = DeskNewsView::Sheet::none;
        show(room, view);
        press(room, Qt::Key_7); // a question that is not shown
        press(room, Qt::Key_D);
        press(room, Qt::Key_N);
        QCOMPARE(asked.take(), QString("desk take 21"));
        view.desk.sheet = DeskNewsView::Sheet::desk;
        room.setState(view);
        press(room, Qt::Key_8);
        press(room, Qt::Key_Escape);
        QCOMPARE(asked.take(), QString("take 12 close"));
    }

    void afterClassTheLogIsOnePressAway()
    {
        LeadRoom room;
        Asked asked(room);
        LeadView view = overWith();
        show(room, view);
        button(room, "What was done at the desk")->click();
        QCOMPARE(asked.take(), QString("acts"));
        fillActs(view.desk);
        room.setState(view);
        auto* list = room.findChild<OverPage*>()->findChild<CardList*>();
        QVERIFY(list->isVisible());
        QCOMPARE(list->count(), static_cast<int>(view.desk.acts.size()));
        press(room, Qt::Key_Escape);
        QCOMPARE(asked.take(), QString("close"));
    }

    void everyKeyStandsInTheDocument()
    {
        QFile file(VH_SOURCE_DIR "/docs/leading.md");
        QVERIFY(file.open(QIODevice::ReadOnly));
        const QString text = QString::fromUtf8(file.readAll());
        for (const char* row : {"\n| 7, 8, 9 |", "\n| N |", "\n| D |"})
            QVERIFY2(text.contains(row), row);
    }

    // --- against a relay ------------------------------------------------------------------------------------------

    void theDeskReachesHer()
    {
        using Kind = DeskRequest::Kind;
        LeadRelay relay;
        QVERIFY(relay.start());
        Program leader;
        leader.line.open(relay.entry(relay.link(Role::leader), "Anna"));
        QTRY_COMPARE_WITH_TIMEOUT(leader.view().stage, Stage::choosing, kSoon);
        leader.control.offerFolder(VH_SOURCE_DIR "/content/classes");
        leader.control.chooseFile(leader.view().choice.files.front().path);
        leader.control.openChosen();
        QTRY_COMPARE_WITH_TIMEOUT(leader.view().stage, Stage::ready, kSoon);

        SystemClock clock;
        link::Line helper(clock);
        std::map<std::string, wire::DeskItem> seen;
        connect(&helper, &link::Line::received, this, [&](const wire::ToClient& message) {
            if (const auto* desk = std::get_if<wire::OnDesk>(&message))
                for (const wire::DeskItem& each : desk->items)
                    seen[each.text] = each;
        });
        helper.open(relay.entry(relay.link(Role::moderator), "Kim"));
        link::Line home(clock);
        home.open(relay.entry(relay.link(Role::participant), "Greta"));
        QTRY_COMPARE_WITH_TIMEOUT(home.state(), link::LineState::in, kSoon);
        QTRY_COMPARE_WITH_TIMEOUT(helper.state(), link::LineState::in, kSoon);
        const auto passOn = [&](const char* text, wire::Decision decision) {
            home.ask(wire::Write{{}, text});
            QTRY_VERIFY_WITH_TIMEOUT(seen.contains(text), kSoon);
            helper.ask(wire::Decide{{}, seen[text].item, seen[text].change, decision});
        };
        const auto ask = [&](Kind kind, quint64 item = 0) { emit leader.control.room().deskRequested({kind, item}); };

        passOn("May I lean back?", wire::Decision::forLeader);
        QTRY_COMPARE_WITH_TIMEOUT(leader.view().desk.places[0].text, QString("May I lean back?"), kSoon);
        QCOMPARE(leader.view().desk.places[0].name, QString("Greta"));
        ask(Kind::take, leader.view().desk.places[0].item);
        QVERIFY(leader.view().desk.places[0].taking);
        QTRY_COMPARE_WITH_TIMEOUT(seen["May I lean back?"].state, DeskState::seenTo, kSoon);
        QTRY_COMPARE_WITH_TIMEOUT(leader.view().desk.places[0].item, std::uint64_t{0}, kSoon);

        passOn("I fell.", wire::Decision::clinician);
        QTRY_COMPARE_WITH_TIMEOUT(leader.view().desk.clinician.size(), std::size_t{1}, kSoon);
        emit leader.control.room().coverRequested();
        QCOMPARE(leader.view().coverWords, QString("Something needs a clinician."));
        emit leader.control.room().coverRequested();

        ask(Kind::showDesk);
        QVERIFY(!leader.view().desk.boardOpen && !leader.view().desk.levels && leader.view().desk.levelsOffered);
        ask(Kind::openBoard);
        ask(Kind::showLevels);
        QTRY_VERIFY_WITH_TIMEOUT(leader.view().desk.boardOpen && leader.view().desk.levels, kSoon);
        ask(Kind::showActs);
        QTRY_COMPARE_WITH_TIMEOUT(leader.view().desk.acts.size(), std::size_t{5}, kSoon);
        QCOMPARE(leader.view().desk.acts.front().words, QString("Kim passed on to the leader what Greta asked."));
        QCOMPARE(leader.view().desk.acts.front().detail, QString("May I lean back?"));
        relay.stop();
    }
};

QTEST_MAIN(TestDeskNews)
#include "test_desk_news.moc"
