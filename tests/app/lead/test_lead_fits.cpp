// Nothing of the leader's room is clipped: in every stage, at every text size, on the smallest screens, each label,
// button and painted text gets the room it asks for.
#include "app/lead/lead_room.h"
#include "app/lead/page_parts.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "app/widgets/hall_view.h"
#include "tests/app/lead/lead_states.h"
#include "tests/app/widgets/plain_words.h"

#include <QApplication>
#include <QLabel>
#include <QScrollArea>
#include <QTest>

using namespace vh;
using namespace vh::lead;
using namespace vh::testing;

namespace
{

bool inScrollArea(const QWidget* widget)
{
    for (const QWidget* each = widget; each; each = each->parentWidget())
        if (qobject_cast<const QAbstractScrollArea*>(each))
            return true;
    return false;
}

QString shortOf(const QString& what, QSize wanted, QSize given)
{
    return QStringLiteral("%1: wants %2 x %3, has %4 x %5")
        .arg(what)
        .arg(wanted.width())
        .arg(wanted.height())
        .arg(given.width())
        .arg(given.height());
}

/// What a widget needs so that nothing of it is cut; empty where it has that.
QString shortfall(const QWidget* widget)
{
    const QSize has = widget->size();
    if (const auto* label = qobject_cast<const QLabel*>(widget)) {
        const QSize wanted = label->wordWrap() ? QSize(0, label->heightForWidth(has.width())) : label->sizeHint();
        return wanted.width() > has.width() || wanted.height() > has.height() ? shortOf(label->text(), wanted, has)
                                                                              : QString();
    }
    if (const auto* button = qobject_cast<const BigButton*>(widget)) {
        const QSize wanted = button->minimumSizeHint();
        return wanted.width() > has.width() || wanted.height() > has.height() ? shortOf(button->text(), wanted, has)
                                                                              : QString();
    }
    if (const auto* flow = qobject_cast<const WordFlow*>(widget))
        return flow->linesFor(has.width()) > flow->lines() ? shortOf(flow->accessibleName(), flow->sizeHint(), has)
                                                           : QString();
    if (const auto* text = qobject_cast<const FittedText*>(widget))
        return text->lines().fits ? QString() : shortOf(text->accessibleName(), text->sizeHint(), has);
    if (const auto* turns = qobject_cast<const TurnRow*>(widget)) {
        const QSize wanted(turns->minimumSizeHint().width(), turns->heightForWidth(has.width()));
        return wanted.width() > has.width() || wanted.height() > has.height() ? shortOf("the turns", wanted, has)
                                                                              : QString();
    }
    if (const auto* notice = qobject_cast<const NoticeLine*>(widget)) {
        const QSize wanted(0, notice->heightForWidth(has.width()));
        return wanted.height() > has.height() ? shortOf(notice->state().words, wanted, has) : QString();
    }
    if (const auto* note = qobject_cast<const NoteText*>(widget)) {
        const QSize wanted(0, note->heightForWidth(has.width()));
        return wanted.height() > has.height() ? shortOf(note->accessibleName(), wanted, has) : QString();
    }
    if (qobject_cast<const LevelBar*>(widget) || qobject_cast<const OneLine*>(widget)) {
        const QSize wanted = widget->minimumSizeHint();
        return wanted.width() > has.width() || wanted.height() > has.height()
                   ? shortOf(widget->accessibleName(), wanted, has)
                   : QString();
    }
    return {};
}

/// Where a widget's own room is cut by what it stands in, or by another one over it.
QString cutOff(const QWidget* widget, const QWidget& room)
{
    const QRect whole(widget->mapTo(&room, QPoint()), widget->size());
    if (inScrollArea(widget) || room.rect().contains(whole))
        return {};
    return QStringLiteral("%1 stands outside").arg(widget->accessibleName());
}

struct Case {
    const char* name;
    LeadView view;
};

std::vector<Case> cases()
{
    std::vector<Case> all;
    LeadView longest = inClass();
    longest.title = "A morning at the lakeside plots, with rather a long name for a class of twenty minutes";
    longest.clock = {"ends 10:01, three minutes early", "ends 10:01"};
    longest.notice = {"A calm pause, because the leader's line was lost. Resume when you are ready.",
                      NoticeLine::Tone::heed};
    longest.endArmed = true;
    longest.waits = true;
    longest.hall.counts = {59, 17, 14, 12};
    longest.column.note = "Hold the vowel of golden. If many are quiet, once more, and let them hear one another.";
    longest.groupWindowShown = true;
    all.push_back({"in class", inClass()});
    all.push_back({"in class, everything long", longest});
    LeadView plays = longest;
    plays.voice = playing().voice;
    plays.level = {"They cannot hear you: the line is lost", std::nullopt, false};
    all.push_back({"in class, everything long, a recording plays", plays});
    all.push_back({"muted", muted()});
    all.push_back({"voice from elsewhere", elsewhere()});
    all.push_back({"somebody is asked", guestIs(false, "Bartholomea von Hohenstein-Lichtenberg")});
    all.push_back({"somebody is heard", guestIs(true)});
    LeadView heardSeat = guestIs(true, "Bartholomea von Hohenstein-Lichtenberg");
    heardSeat.hall.panel = panelOf(heardSeat.hall.seats[6], Addressed::prompts);
    heardSeat.hall.panel->mayInvite = false;
    heardSeat.hall.panel->guest = heardSeat.hall.guest;
    all.push_back({"a seat, somebody is heard", heardSeat});
    LeadView large = largeHall(1000);
    large.hall.guest = guestIs(true).hall.guest;
    all.push_back({"a thousand, somebody is heard", large});
    LeadView table = inClass();
    table.hall.asTable = true;
    all.push_back({"the table", table});
    all.push_back({"covered", covered()});
    LeadView seat = inClass();
    seat.hall.panel = panelOf(seat.hall.seats[6], Addressed::prompts);
    seat.hall.panel->sent = "Not sent: Maren is not here just now.";
    all.push_back({"a seat", seat});
    all.push_back({"sixty", largeHall(60)});
    all.push_back({"a thousand", largeHall(1000)});
    LeadView calls = inClass();
    calls.calls.rows = {
        {1, "Greta needs help, 18 s ago", "at the kitchen table, her neighbour: 555 0100", CallList::Hand::nobody},
        {2, "You have Wim's call", "", CallList::Hand::mine}};
    all.push_back({"calls", calls});
    all.push_back({"a call fills the screen", filled()});
    all.push_back({"a call fills the screen, everything long", filledLongest()});
    all.push_back({"a line is lost", withLostLine()});
    LeadView rung = withLostLine();
    rung.lostLines.rows[0] = {PersonId{}, "Jonas: line lost 40 s ago",
                              "Mill Lane 3 \u00B7 to ring: his neighbour Odile, 555 0100", LostList::Press::none, true};
    all.push_back({"a lost line in hand", rung});
    LeadView standInCalls = calls;
    standInCalls.role = Role::standIn;
    standInCalls.hall = {};
    all.push_back({"calls, of a stand-in", standInCalls});
    LeadView door = inClass();
    door.door.rows = {{1, "Marta", "tablet, 12 s"}};
    door.door.words = "amber ladder quiet river";
    all.push_back({"the door", door});
    LeadView follows = inClass();
    follows.hold = Hold::anotherSilent;
    follows.mayTake = true;
    follows.holder = "Anna";
    follows.notice = {"Anna's line is lost. You can take the place: press T.", NoticeLine::Tone::heed};
    all.push_back({"following", follows});
    all.push_back({"before class", beforeClass()});
    LeadView lost = beforeClass();
    lost.notice = {"Your line is lost; it is being tried again.", NoticeLine::Tone::heed};
    lost.groupWindowShown = true;
    lost.otherDisplay = true;
    all.push_back({"before class, the window shown", lost});
    LeadView check = beforeClass();
    check.soundCheck = checkUnderWay();
    all.push_back({"sound check", check});
    check.soundCheck = checkDone();
    all.push_back({"sound check done", check});
    check.voice.recording = "an evening by the lake, the long version with the birds.flac";
    check.soundCheck->facts = {
        {"The room", "heard", true},
        {"Your level", "no sound at all: is the right microphone chosen, and switched on?", true},
        {"Too loud?", "not known", true}};
    check.soundCheck->heading = "There is something to look at";
    all.push_back({"sound check, everything long", check});
    check.voice.way = VoiceWay::elsewhere;
    check.soundCheck->facts = {{"The room", "too loud beside your voice; come nearer, or switch something off", true},
                               {"Your level", "your voice comes through", true},
                               {"Too loud?", "no", true}};
    check.level = {"Your voice goes by the other call", -30.0F, false};
    check.soundCheck->level = check.level;
    all.push_back({"sound check, voice from elsewhere", check});
    all.push_back({"the steps", withSteps()});
    LeadView callAndSteps = withSteps();
    callAndSteps.calls = calls.calls;
    all.push_back({"the steps, and calls", callAndSteps});
    LeadView standInSteps = withSteps();
    standInSteps.role = Role::standIn;
    standInSteps.hall = {};
    all.push_back({"the steps, of a stand-in", standInSteps});
    all.push_back({"what to leave out", withTrim()});
    all.push_back({"nothing to leave out", onTime()});
    all.push_back({"a text", withText()});
    all.push_back({"a text that cannot go", withFault()});
    all.push_back({"questions", withQuestions()});
    all.push_back({"a picture waits", withPicture()});
    all.push_back({"a clinician is needed", withClinician()});
    LeadView urgent = withClinician();
    urgent.calls = calls.calls;
    urgent.desk.clinician.push_back({22, "Zora", "I see double.", false});
    all.push_back({"a clinician is needed, and calls", urgent});
    LeadView sixtyAsk = largeHall(60);
    sixtyAsk.desk = withQuestions().desk;
    all.push_back({"sixty, and questions", sixtyAsk});
    all.push_back({"the sheet of the desk", withDesk()});
    LeadView deskAndCall = withDesk();
    deskAndCall.calls = calls.calls;
    all.push_back({"the sheet of the desk, and calls", deskAndCall});
    all.push_back({"the sheet of the desk, all let", withDeskOpened()});
    LeadView acts = inClass();
    fillActs(acts.desk);
    all.push_back({"what was done at the desk", acts});
    LeadView readyDesk = beforeClass();
    readyDesk.desk = withClinician().desk;
    readyDesk.desk.clinician.push_back({22, "Zora", "I see double.", false});
    all.push_back({"before class, a clinician is needed", readyDesk});
    readyDesk.desk = withDesk().desk;
    all.push_back({"before class, the sheet of the desk", readyDesk});
    LeadView overActs = overWith();
    fillActs(overActs.desk);
    overActs.desk.clinician = withClinician().desk.clinician;
    LeadView overUrgent = overWith();
    overUrgent.desk.clinician = overActs.desk.clinician;
    all.push_back({"over, a clinician is needed", overUrgent});
    all.push_back({"over, what was done at the desk", overActs});
    all.push_back({"over", overWith()});
    LeadView choosing;
    choosing.stage = Stage::choosing;
    choosing.groupName = "Thursday voices";
    ClassChoice choice;
    choice.offerFolder(VH_SOURCE_DIR "/content/classes");
    choice.choose(choice.view().files.front().path);
    choosing.choice = choice.view();
    choosing.papers = PapersView::offered;
    all.push_back({"choosing", choosing});
    choosing.papers = PapersView::saved;
    all.push_back({"choosing, papers saved", choosing});
    return all;
}

} // namespace

class TestLeadFits : public QObject
{
    Q_OBJECT
private slots:
    void nothingIsCutInAnyStage_data()
    {
        QTest::addColumn<int>("which");
        QTest::addColumn<int>("size");
        QTest::addColumn<QSize>("screen");
        const auto all = cases();
        for (const auto& [name, screen] : {std::pair{"1366", QSize(1366, 700)}, std::pair{"1280", QSize(1280, 720)}})
            for (int size = 0; size < 3; ++size)
                for (std::size_t i = 0; i < all.size(); ++i)
                    QTest::addRow("%s, size %d, %s", all[i].name, size, name) << static_cast<int>(i) << size << screen;
    }
    void nothingIsCutInAnyStage()
    {
        QFETCH(int, which);
        QFETCH(int, size);
        QFETCH(QSize, screen);
        static int applied = -1;
        if (applied != size)
            QVERIFY(look::Look(look::Ground::light, static_cast<look::TextSize>(size)).applyTo(*qApp));
        applied = size;
        LeadRoom room;
        room.resize(screen);
        room.setState(cases()[static_cast<std::size_t>(which)].view);
        room.show();
        for (int i = 0; i < 3; ++i)
            QApplication::processEvents();
        QStringList wrong;
        if (room.size() != screen)
            wrong << shortOf("the room", room.size(), screen);
        for (const QWidget* widget : room.findChildren<QWidget*>()) {
            if (!widget->isVisible())
                continue;
            for (const QString& each : {shortfall(widget), cutOff(widget, room)})
                if (!each.isEmpty())
                    wrong << each;
        }
        for (const auto* notice : room.findChildren<NoticeLine*>())
            for (const auto* text : room.findChildren<FittedText*>())
                if (notice->isVisible() && text->isVisible() && notice->parentWidget() == text->parentWidget() &&
                    notice->geometry().intersects(text->geometry()))
                    wrong << "the notice stands over what is being said";
        QVERIFY2(wrong.isEmpty(), qPrintable(wrong.join("\n    ")));
    }

    void noWordIsOfAProgramForCalls()
    {
        QVERIFY(look::Look(look::Ground::light, look::TextSize::usual).applyTo(*qApp));
        for (const Case& each : cases()) {
            LeadRoom room;
            room.setState(each.view);
            const QStringList borrowed = borrowedWordsIn(room);
            QVERIFY2(borrowed.isEmpty(), qPrintable(borrowed.join('|')));
        }
    }

    void theCodeAndTheClockAreWholeAndALongTitleGivesWayInItsMiddle()
    {
        QVERIFY(look::Look(look::Ground::light, look::TextSize::largest).applyTo(*qApp));
        LeadRoom room;
        room.resize(1280, 720);
        LeadView view = inClass();
        view.title = "A morning at the lakeside plots, with rather a long name for a class of twenty minutes";
        view.clock = {"ends 10:01, three minutes early", "ends 10:01"};
        room.setState(view);
        room.show();
        QApplication::processEvents();
        QStringList shown;
        const OneLine* title = nullptr;
        for (const auto* line : room.findChildren<OneLine*>()) {
            if (!line->isVisible())
                continue;
            shown << line->shown();
            if (line->accessibleName() == view.title)
                title = line;
        }
        QVERIFY2(shown.contains(view.clock.back()) || shown.contains(view.clock.front()), qPrintable(shown.join('|')));
        QVERIFY(title);
        QVERIFY2(title->shown().startsWith("A mor") && title->shown().endsWith("minutes"), qPrintable(title->shown()));
        QCOMPARE(title->toolTip(), view.title);
        bool code = false;
        for (const auto* label : room.findChildren<QLabel*>())
            code = code || (label->isVisible() && label->text() == "code K7M 42P" &&
                            label->width() >= label->sizeHint().width());
        QVERIFY(code);
    }
};

QTEST_MAIN(TestLeadFits)
#include "test_lead_fits.moc"
