// Saves a picture of the leader's room in its states, with invented people, to be looked at:
//   QT_QPA_PLATFORM=offscreen .build/dev/bin/show_lead FOLDER
#include "app/lead/group_window.h"
#include "app/lead/lead_room.h"
#include "app/look/look.h"
#include "common/script/plan.h"
#include "common/script/reader.h"

#include <QApplication>
#include <QDir>
#include <QFile>

#include <cstdio>

namespace
{

using namespace vh;
using namespace vh::lead;
using namespace std::chrono_literals;

const QStringList kNames{"Odile", "Bram",   "Ines", "Tomas", "Ruth",  "Kofi", "Maren", "Ivo",   "Lena", "Paulo",
                         "Greta", "Anselm", "Noor", "Hugo",  "Petra", "Sami", "Vera",  "Jonas", "Aiko", "Rolf",
                         "Mina",  "Edda",   "Omar", "Tilde", "Wim",   "Zora", "Karel", "Ilse"};

std::vector<SeatRow> seats()
{
    std::vector<SeatRow> rows;
    for (int i = 0; i < kNames.size(); ++i) {
        SeatRow row;
        row.seat = i;
        row.name = kNames[i];
        row.standing = Standing::inBand;
        row.overUsualDb = 4.5F + static_cast<float>(i % 4);
        rows.push_back(row);
    }
    const auto become = [&](int i, Standing standing, std::optional<float> level, Blank why = Blank::none) {
        rows[static_cast<std::size_t>(i)].standing = standing;
        rows[static_cast<std::size_t>(i)].overUsualDb = level;
        rows[static_cast<std::size_t>(i)].reason = why;
    };
    become(6, Standing::cantTell, {}, Blank::roomTooNoisy);
    become(9, Standing::private_, {});
    become(11, Standing::private_, {});
    become(12, Standing::below, 1.0F);
    become(16, Standing::below, 1.6F);
    become(17, Standing::away, {});
    become(18, Standing::above, 13.2F);
    become(21, Standing::below, 0.4F);
    become(24, Standing::noVoice, {});
    become(25, Standing::below, -0.6F);
    become(27, Standing::resting, {});
    return rows;
}

FittedText::State phrase()
{
    FittedText::State state;
    state.text = "The boat comes home across the golden water.";
    for (const char* part : {"oa", "o", "o"}) {
        const auto from = state.stretches.empty() ? 0 : state.stretches.back().end + 4;
        const auto at = state.text.find(part, from);
        state.stretches.push_back(
            {static_cast<std::uint32_t>(at), static_cast<std::uint32_t>(at + std::string_view(part).size())});
    }
    state.limits.smallest = 24;
    state.limits.largest = 60;
    state.alignment = Qt::AlignLeft | Qt::AlignTop;
    return state;
}

LeadView inClass()
{
    LeadView view;
    view.stage = Stage::inClass;
    view.groupName = "Thursday voices";
    view.title = "Lakeside plots";
    view.way.code = "K7M 42P";
    view.hold = Hold::mine;
    view.clock = "ends 10:01, one minute over";
    view.level = {"Your level", -30.0F};
    view.column.last = "Grandfather mends the gate before the rain.";
    view.column.now = phrase();
    view.column.turns = {{TurnKind::listen, TurnKind::ready, TurnKind::withMe, TurnKind::yours},
                         3,
                         "second time, with more voice \u00B7 0:04"};
    view.column.note = "Hold the vowel of golden. If many are quiet, once more.";
    view.column.next = "Who taught you to plant beans?";
    view.rail.parts = {{"Good morning", 80s, false},  {"Opening the shed", 120s, false},
                       {"Water", 30s, true},          {"Across the water", 180s, false},
                       {"Water", 30s, true},          {"Up the hill and down", 150s, false},
                       {"Counting", 120s, false},     {"Water", 30s, true},
                       {"At the plots", 300s, false}, {"Water", 30s, true},
                       {"Word groups", 200s, false},  {"Gate and key", 170s, false},
                       {"Passage", 230s, false},      {"Going home", 70s, false}};
    view.rail.done = 880s;
    view.rail.current = 8;
    view.seats = seats();
    view.counts = {26, 17, 4, 1};
    return view;
}

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
    room.setState(view);
    if (!show.save(room, "chosen"))
        return false;
    QFile bad(show.folder + "/bakers-morning.yaml");
    if (!bad.open(QIODevice::WriteOnly))
        return false;
    bad.write("title: The baker's morning\ntheme: Bread\nlanguage: en\nminutes: many\nsections:\n  - kind: phrase\n"
              "    title: Warm loaves\n    steps:\n      - text: The <oo>ven is warm.\n        second: 5\n");
    bad.close();
    choice.choose(bad.fileName());
    view.choice = choice.view();
    room.setState(view);
    return show.save(room, "mistakes");
}

bool ready(LeadRoom& room, const Show& show)
{
    LeadView view = inClass();
    view.stage = Stage::ready;
    view.title = "A morning at the lakeside plots";
    view.clock = "ends 10:00 if you start now";
    view.here = "12 are here, one helper";
    view.way.link = "voicehall://hall.example.org/#c=K7M42P&k=3q2-7wAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA";
    view.way.words = "amber ladder quiet river";
    view.way.helperLink = "voicehall://hall.example.org/#t=00112233445566778899aabbccddeeff";
    view.door.rows = {{1, "Marta", "tablet, 12 s"}, {2, "Piet", "old laptop, 1 min"}};
    view.door.words = "amber ladder quiet river";
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
    view.calls.rows = {{1, "Greta needs help, 18 s ago", "at the kitchen table \u00B7 to ring: her neighbour, 555 0100",
                        CallList::Hand::nobody},
                       {2, "You have Wim's call", "", CallList::Hand::mine},
                       {3, "Ben has Hugo's call", "", CallList::Hand::another}};
    view.door.rows = {{1, "Marta", "tablet, 12 s"}};
    view.endArmed = true;
    view.groupWindowShown = true;
    view.notice = {
        "The class had moved on just before your press. Nothing has changed; press again if you still want to.",
        NoticeLine::Tone::heed};
    room.setState(view);
    if (!show.save(room, "class-calls"))
        return false;
    view = inClass();
    view.waits = true;
    view.column.turns.current = -1;
    view.column.turns.beside = "the clock waits \u00B7 0:04";
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
    view.seats.clear();
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

bool over(LeadRoom& room, const Show& show)
{
    LeadView view = inClass();
    view.stage = Stage::over;
    view.title = "A morning at the lakeside plots";
    view.summary = {
        "The class is over. Thank you.",
        {"Planned: 20 minutes. It took 21 minutes.", "27 people came.",
         "Of 412 turns alone by people who share their level, 331 were easy to hear; in 24 the reading could "
         "not be trusted.",
         "2 calls for help."}};
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
    return show.save(window, "group");
}

} // namespace

int main(int argc, char** argv)
{
    QApplication app(argc, argv);
    if (argc != 2 || !QDir().mkpath(argv[1])) {
        std::fprintf(stderr, "usage: show_lead FOLDER\n");
        return 2;
    }
    for (const auto ground : {look::Ground::light, look::Ground::dark}) {
        if (!look::Look(ground).applyTo(app))
            return 1;
        const Show show{argv[1], ground == look::Ground::light ? "light" : "dark"};
        LeadRoom room;
        room.resize(1366, 700);
        if (!choosing(room, show) || !ready(room, show) || !leading(room, show) || !over(room, show) || !group(show))
            return 1;
    }
    return 0;
}
