// Saves a picture of the leader's room in its states, with invented people, to be looked at:
//   QT_QPA_PLATFORM=offscreen .build/dev/bin/show_lead FOLDER
#include "app/lead/group_window.h"
#include "app/lead/lead_room.h"
#include "app/look/look.h"
#include "tests/app/lead/lead_states.h"

#include <QApplication>
#include <QDir>
#include <QFile>

#include <cstdio>

namespace
{

using namespace vh;
using namespace vh::lead;
using namespace vh::testing;

struct Show {
    QString folder;
    QString ground;
    bool save(QWidget& widget, const QString& name) const
    {
        widget.show();
        widget.activateWindow();
        for (int i = 0; i < 3; ++i)
            QApplication::processEvents();
        return widget.grab().save(QStringLiteral("%1/lead-%2-%3.png").arg(folder, name, ground));
    }
};

bool choosing(LeadRoom& room, const Show& show)
{
    LeadView view;
    view.stage = Stage::choosing;
    view.groupName = "Thursday voices";
    ClassChoice choice;
    choice.offerFolder(VH_SOURCE_DIR "/content/classes");
    view.choice = choice.view();
    room.setState(view);
    if (!show.save(room, "choose"))
        return false;
    choice.choose(choice.view().files.front().path);
    view.choice = choice.view();
    view.papers = PapersView::offered;
    room.setState(view);
    if (!show.save(room, "chosen"))
        return false;
    QFile bad(show.folder + "/bakers-morning.yaml");
    if (!bad.open(QIODevice::WriteOnly))
        return false;
    bad.write("title: The baker's morning\ntheme: Bread\nlanguage: en\nminutes: many\nsections:\n  - kind: phrase\n"
              "    title: Warm loaves\n    steps:\n      - text: The <oo>ven is warm.\n        second: 5\n");
    bad.close();
    view.papers = PapersView::none;
    choice.choose(bad.fileName());
    view.choice = choice.view();
    room.setState(view);
    return show.save(room, "mistakes");
}

bool ready(LeadRoom& room, const Show& show)
{
    LeadView view = beforeClass();
    room.setState(view);
    if (!show.save(room, "ready"))
        return false;
    view.role = Role::standIn;
    view.hold = Hold::another;
    view.level = {};
    view.notice = {"Anna leads; you follow.", NoticeLine::Tone::calm};
    view.door = {};
    room.setState(view);
    if (!show.save(room, "standin-ready"))
        return false;
    view = {};
    view.role = Role::standIn;
    view.groupName = "Thursday voices";
    room.setState(view);
    return show.save(room, "standin-waiting");
}

bool leading(LeadRoom& room, const Show& show)
{
    LeadView view = inClass();
    room.setState(view);
    if (!show.save(room, "class"))
        return false;
    for (const auto& [name, state] :
         {std::pair{"muted", muted()}, std::pair{"recording", playing()}, std::pair{"elsewhere", elsewhere()},
          std::pair{"guest-asked", guestIs(false)}, std::pair{"guest-heard", guestIs(true)}}) {
        room.setState(state);
        if (!show.save(room, name))
            return false;
    }
    view.level = {"They cannot hear you: the line is lost", -31.0F, false};
    view.notice = {"Your line is lost; it is being tried again. The homes go on by the clock for now.",
                   NoticeLine::Tone::heed};
    room.setState(view);
    if (!show.save(room, "line-lost"))
        return false;
    view = inClass();
    view.calls.rows = {{1, "Greta needs help, 18 s ago", "at the kitchen table \u00B7 to ring: her neighbour, 555 0100",
                        CallList::Hand::nobody},
                       {2, "You have Wim's call", "", CallList::Hand::mine},
                       {3, "Ben has Hugo's call", "", CallList::Hand::another}};
    view.door.rows = {{1, "Marta", "tablet, 12 s"}};
    view.endArmed = true;
    view.groupWindowShown = true;
    view.notice = {"The class had just moved on. Nothing has changed; press again if you still want to.",
                   NoticeLine::Tone::heed};
    room.setState(view);
    if (!show.save(room, "class-calls"))
        return false;
    for (const auto& [name, state] : {std::pair("call-fills", filled()), std::pair("call-fills-long", filledLongest()),
                                      std::pair("line-of-somebody-lost", withLostLine())}) {
        room.setState(state);
        if (!show.save(room, name))
            return false;
    }
    view = inClass();
    view.waits = true;
    view.column.turns.current = -1;
    view.column.turns.beside = {"the clock waits \u00B7 0:04", "0:04"};
    view.column.now.text =
        "Every Saturday the gardeners meet at the gate at six. By then the lake is silver, the reeds are still, and "
        "somebody has already lit the stove in the blue shed.";
    view.column.now.stretches.clear();
    view.column.note = "Read it once alone, slowly, one breath a line. People follow with their eyes.";
    room.setState(view);
    if (!show.save(room, "class-waits"))
        return false;
    view = inClass();
    view.hold = Hold::another;
    view.holder = "Anna";
    view.mayTake = true;
    view.notice = {"Anna leads now. To take the place back, press T.", NoticeLine::Tone::calm};
    view.level = {};
    room.setState(view);
    if (!show.save(room, "class-taken"))
        return false;
    view.role = Role::standIn;
    view.hold = Hold::anotherSilent;
    view.way = {};
    view.notice = {"Anna's line is lost. You can take the place: press T.", NoticeLine::Tone::heed};
    view.hall = {};
    room.setState(view);
    if (!show.save(room, "standin-take"))
        return false;
    room.setState(inClass());
    QWidget other; // takes the keyboard away
    other.show();
    other.activateWindow();
    for (int i = 0; i < 3; ++i)
        QApplication::processEvents();
    return room.grab().save(QStringLiteral("%1/lead-keyboard-%2.png").arg(show.folder, show.ground));
}

bool people(LeadRoom& room, const Show& show)
{
    LeadView view = inClass();
    view.hall.asTable = true;
    room.setState(view);
    if (!show.save(room, "table"))
        return false;
    view.hall.guest = guestIs(true).hall.guest;
    view.hall.seats[4].heard = HeardByAll::yes;
    room.setState(view);
    if (!show.save(room, "table-heard"))
        return false;
    view.hall.guest = {};
    view.hall.seats[4].heard = HeardByAll::no;
    view.hall.asTable = false;
    view.hall.panel = panelOf(view.hall.seats[16], Addressed::prompts);
    view.hall.panel->sent = "Sent to Vera.";
    room.setState(view);
    if (!show.save(room, "seat"))
        return false;
    view.hall.panel->guest = guestIs(true, "Vera").hall.guest;
    view.hall.panel->mayInvite = false;
    room.setState(view);
    if (!show.save(room, "seat-heard"))
        return false;
    view.hall.panel = panelOf(view.hall.seats[6], Addressed::notAtAll);
    room.setState(view);
    if (!show.save(room, "seat-not-addressed"))
        return false;
    view = covered();
    room.setState(view);
    if (!show.save(room, "covered"))
        return false;
    view = inClass();
    view.door.rows = {{1, "Marta", "tablet, 12 s"}};
    view.door.words = "amber ladder quiet river";
    room.setState(view);
    if (!show.save(room, "door"))
        return false;
    room.setState(largeHall(60));
    if (!show.save(room, "hall-60"))
        return false;
    room.setState(largeHall(1000));
    return show.save(room, "hall-1000");
}

bool changes(LeadRoom& room, const Show& show)
{
    for (const auto& [name, state] :
         {std::pair{"steps", withSteps()}, std::pair{"trim", withTrim()}, std::pair{"on-time", onTime()},
          std::pair{"text", withText()}, std::pair{"text-fault", withFault()}}) {
        room.setState(inClass());
        room.setState(state);
        if (!show.save(room, name))
            return false;
    }
    LeadView standIn = withSteps();
    standIn.role = Role::standIn;
    standIn.hall = {};
    standIn.way = {};
    standIn.changes.mayCorrect = false;
    room.setState(inClass());
    room.setState(standIn);
    if (!show.save(room, "standin-steps"))
        return false;
    LeadView call = withSteps();
    call.calls.rows = {{1, "Greta needs help, 18 s ago", "at the kitchen table \u00B7 to ring: her neighbour, 555 0100",
                        CallList::Hand::nobody}};
    room.setState(inClass());
    room.setState(call);
    return show.save(room, "steps-call");
}

bool desk(LeadRoom& room, const Show& show)
{
    LeadView calls = withClinician();
    calls.calls.rows = {{1, "Wim needs help, 18 s ago", "at the kitchen table \u00B7 to ring: her neighbour, 555 0100",
                         CallList::Hand::nobody},
                        {2, "You have Hugo's call", "", CallList::Hand::mine}};
    calls.desk.clinician.push_back({22, "Zora", "I see double.", false});
    LeadView table = withClinician();
    table.hall.asTable = true;
    LeadView taking = withQuestions();
    taking.desk.places[1].taking = true;
    LeadView large = largeHall(60);
    large.desk = withQuestions().desk;
    LeadView covering = covered();
    covering.coverWords = "Something needs a clinician.";
    LeadView acts = inClass();
    fillActs(acts.desk);
    LeadView before = beforeClass();
    before.desk = withClinician().desk;
    LeadView beforeSheet = beforeClass();
    beforeSheet.desk = withDesk().desk;
    LeadView over = overWith();
    fillActs(over.desk);
    LeadView overUrgent = overWith();
    overUrgent.desk.clinician = withClinician().desk.clinician;
    for (const auto& [name, state] :
         {std::pair{"desk-questions", withQuestions()}, std::pair{"desk-question", withOneQuestion()},
          std::pair{"picture", withPicture()}, std::pair{"picture-shown", withPictureShown()},
          std::pair{"desk-taking", taking}, std::pair{"desk-clinician", withClinician()},
          std::pair{"desk-clinician-calls", calls}, std::pair{"desk-clinician-table", table},
          std::pair{"desk-hall-60", large}, std::pair{"desk-sheet", withDesk()},
          std::pair{"desk-sheet-opened", withDeskOpened()}, std::pair{"desk-acts", acts},
          std::pair{"desk-covered", covering}, std::pair{"desk-ready", before},
          std::pair{"desk-ready-sheet", beforeSheet}, std::pair{"desk-over", over},
          std::pair{"desk-over-clinician", overUrgent}}) {
        room.setState(inClass());
        room.setState(state);
        if (!show.save(room, name))
            return false;
    }
    return true;
}

bool soundCheck(LeadRoom& room, const Show& show)
{
    LeadView view = beforeClass();
    view.soundCheck = checkUnderWay();
    room.setState(view);
    if (!show.save(room, "sound-check"))
        return false;
    view.soundCheck = checkDone();
    view.voice.recording = "evening-by-the-lake.ogg";
    room.setState(view);
    return show.save(room, "sound-check-done");
}

bool over(LeadRoom& room, const Show& show)
{
    const LeadView view = overWith();
    room.setState(view);
    return show.save(room, "over");
}

bool group(const Show& show)
{
    GroupWindow window;
    ClassSheet::State state;
    state.cue = {TurnKind::yours, true, {}};
    state.text = phrase();
    state.text.limits = {};
    window.setState(state, "Lakeside plots");
    if (!show.save(window, "group"))
        return false;
    window.setState(state, "Lakeside plots", withPictureShown().shown);
    return show.save(window, "group-picture");
}

} // namespace

int main(int argc, char** argv)
{
    QApplication app(argc, argv);
    if (argc != 2 || argv[1][0] == '-' || !QDir().mkpath(argv[1])) {
        std::fprintf(stderr, "usage: show_lead FOLDER\n");
        return 2;
    }
    for (const auto ground : {look::Ground::light, look::Ground::dark})
        for (const auto size : {look::TextSize::usual, look::TextSize::larger, look::TextSize::largest}) {
            if (!look::Look(ground, size).applyTo(app))
                return 1;
            const QString name = ground == look::Ground::light ? "light" : "dark";
            const Show show{argv[1], size == look::TextSize::usual    ? name
                                     : size == look::TextSize::larger ? name + "-larger"
                                                                      : name + "-largest"};
            LeadRoom room;
            room.resize(1366, 700);
            if (!choosing(room, show) || !ready(room, show) || !leading(room, show) || !people(room, show) ||
                !changes(room, show) || !desk(room, show) || !soundCheck(room, show) || !over(room, show) ||
                !group(show))
                return 1;
            if (room.size() != QSize(1366, 700))
                std::fprintf(stderr, "%s: the room has grown to %d x %d\n", qPrintable(show.ground), room.width(),
                             room.height());
        }
    return 0;
}
