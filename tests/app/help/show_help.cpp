// Saves a picture of the helper's desk in its states, with invented people, to be looked at:
//   QT_QPA_PLATFORM=offscreen .build/dev/bin/show_help FOLDER
#include "app/help/desk_room.h"
#include "app/look/look.h"

#include <QApplication>
#include <QDir>

#include <cstdio>

namespace
{

using namespace vh;
using namespace vh::help;

DeskView busy()
{
    DeskView view;
    view.groupName = "Thursday voices";
    view.classLine = "A morning at the lakeside plots, step 17 of 34";
    view.lineUp = true;
    view.toRead = {{1, "Rolf", "12 s", "My mother's garden had two kinds of weather: frost and slugs.", false},
                   {2, "Edda", "9 s", "Is the reading the same as last Tuesday's?", false},
                   {3, "Kofi", "5 s",
                    "We grew yams behind the house, and every evening all of us children carried water, two cans each, "
                    "up the whole hill.",
                    false},
                   {4, "Lena", "2 s", "<b>My beans</b> are called Ferdinand.", false}};
    view.board = {{5, "Ruth", {}, "Rain here this morning.", false},
                  {6, "Sami", {}, "I'm having rolls after this.", false},
                  {7, "From the desk", {}, "Pictures of your gardens are welcome all week.", true},
                  {8, {}, {}, "Good morning from somebody who likes to stay without a name.", false}};
    view.door.rows = {{1, "Marta", "tablet, 12 s"}};
    view.door.words = "amber ladder quiet river";
    view.lostLines.rows = {{PersonId{}, "Jonas: line lost 20 s ago", {}, LostList::Press::look, false}};
    view.hereWords = "Here: 27, line lost: 1";
    view.lost = "Jonas: line lost 20 s ago";
    view.names =
        "Odile, Bram, Ines, Tomas, Ruth, Kofi, Maren, Ivo, Lena, Paulo, Greta, Anselm, Noor, Hugo, Petra, Sami, "
        "Vera, Aiko, Rolf, Mina, Edda, Omar, Tilde, Wim, Zora, Karel, Ilse";
    view.byHand = "By hand: Mr Lindqvist";
    return view;
}

bool save(DeskRoom& room, const QString& file)
{
    room.show();
    room.activateWindow();
    for (int i = 0; i < 3; ++i)
        QApplication::processEvents();
    return room.grab().save(file);
}

} // namespace

int main(int argc, char** argv)
{
    QApplication app(argc, argv);
    if (argc != 2 || argv[1][0] == '-' || !QDir().mkpath(argv[1])) {
        std::fprintf(stderr, "usage: show_help FOLDER\n");
        return 2;
    }
    for (const auto ground : {look::Ground::light, look::Ground::dark}) {
        if (!look::Look(ground).applyTo(app))
            return 1;
        const QString name =
            QStringLiteral("%1/help-%2-%3.png").arg(argv[1], "%1", ground == look::Ground::light ? "light" : "dark");
        DeskRoom room;
        room.resize(1366, 700);
        DeskView view;
        view.groupName = "Thursday voices";
        view.hereWords = "Here: 0";
        view.lineUp = true;
        room.setState(view);
        if (!save(room, name.arg("empty")))
            return 1;
        view = busy();
        room.setState(view);
        if (!save(room, name.arg("busy")))
            return 1;
        view.calls.rows = {{1, "Greta needs help, 18 s ago",
                            "at the kitchen table \u00B7 to ring: her neighbour, 555 0100", CallList::Hand::nobody},
                           {2, "You have Wim's call", "", CallList::Hand::mine}};
        view.notice = {"The line of Anna is lost. The homes have been told; the class goes on by the clock.",
                       NoticeLine::Tone::heed};
        room.setState(view);
        if (!save(room, name.arg("calls")))
            return 1;
    }
    return 0;
}
