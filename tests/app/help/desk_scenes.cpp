#include "tests/app/help/desk_scenes.h"

#include "app/help/ready_replies.h"
#include "app/help/word_list.h"

#include <QAbstractButton>
#include <QApplication>
#include <QLineEdit>
#include <QPainter>
#include <QTest>

namespace vh::testing
{

using namespace std::chrono_literals;
using namespace vh::help;
using wire::DeskState;

PersonId deskPerson(const std::string& name)
{
    PersonId id;
    for (std::size_t at = 0; at < id.bits.bytes.size(); ++at)
        id.bits.bytes[at] = static_cast<std::uint8_t>(name[at % name.size()]);
    return id;
}

wire::DeskItem deskLine(std::uint64_t item, const char* name, const std::string& text, int secondsAgo)
{
    wire::DeskItem line;
    line.item = item;
    line.change = item;
    line.person = *name ? deskPerson(name) : PersonId::random();
    line.name = name;
    line.text = text;
    line.at = kDeskNow - std::chrono::seconds(secondsAgo);
    return line;
}

wire::DeskItem dealtWith(wire::DeskItem item, DeskState state, const char* by)
{
    item.change += 1000;
    item.state = state;
    item.by = by;
    if (state == DeskState::goingUp)
        item.due = kDeskNow + 3s;
    return item;
}

namespace
{

constexpr std::array kPeople{"Odile", "Bram",  "Ines",   "Tomas", "Ruth",  "Kofi",  "Maren", "Ivo",   "Lena",
                             "Paulo", "Greta", "Anselm", "Noor",  "Hugo",  "Petra", "Sami",  "Vera",  "Aiko",
                             "Rolf",  "Mina",  "Edda",   "Omar",  "Tilde", "Wim",   "Zora",  "Karel", "Jonas"};

void seats(DeskModel& model, int more)
{
    wire::Seats seats{true, {}};
    std::uint32_t seat = 0;
    for (const char* name : kPeople)
        seats.seats.push_back({seat++, deskPerson(name), name, true, 0, Addressed::notAtAll});
    for (int i = 0; i < more; ++i) {
        const std::string name = std::string(kPeople[seat % kPeople.size()]) + " " + std::to_string(seat);
        seats.seats.push_back({seat++, PersonId::random(), name, true, 0, Addressed::notAtAll});
    }
    model.take(seats, kDeskNow - 10min);
    model.take(wire::DeskNow{}, kDeskNow - 10min);
    model.take(wire::Here{static_cast<std::uint32_t>(kPeople.size()) + static_cast<std::uint32_t>(more), 2, 12},
               kDeskNow - 10min);
}

void isHere(DeskModel& model, std::uint32_t seat, const char* name, bool here, Instant at)
{
    model.take(wire::Seats{false, {{seat, deskPerson(name), name, here, 0, Addressed::notAtAll}}}, at);
}

wire::BoardItem onBoard(std::uint64_t item, wire::ItemKind kind, const char* name, const char* text)
{
    wire::BoardItem line;
    line.item = item;
    line.change = item;
    line.kind = kind;
    line.name = name;
    line.text = text;
    line.at = kDeskNow - 5min;
    return line;
}

void key(DeskRoom& room, int which)
{
    QTest::keyClick(&room.toRead(), static_cast<Qt::Key>(which));
}

void acts(DeskModel& model)
{
    const auto at = [](int minutes) { return kDeskNow - std::chrono::minutes(minutes); };
    model.take(
        wire::Acts{{{at(24), "Kim", "line-let-through", "Ruth", "Rain here this morning."},
                    {at(20), "Ines", "quiet-for-a-while", "Wim", ""},
                    {at(12), "Kim", "answered", "Edda", "It is the same as last Tuesday's."},
                    {at(9), "Kim", "line-set-aside", "Omar", "Buy my raffle tickets, everybody, they are going fast"},
                    {at(8), "Ines", "line-taken-back", "Omar", "Buy my raffle tickets, everybody, they are going fast"},
                    {at(3), "Anna", "line-taken", "Petra", "Can we do the glide again at the end?"},
                    {at(1), "Ines", "call-done", "Greta", "rang her neighbour, all is well"}}},
        kDeskNow);
}

} // namespace

void comeIn(DeskModel& model)
{
    model.setLine(DeskModel::LineNow::up);
    wire::Welcome welcome;
    welcome.name = "Kim";
    welcome.role = Role::moderator;
    welcome.person = deskPerson("Kim");
    welcome.groupName = "Thursday voices";
    welcome.here = 27;
    welcome.hellos = 12;
    welcome.open = wire::ClassOpen{1, {}, "A morning at the lakeside plots", {}};
    wire::PlaceNow place;
    place.phase = Phase::running;
    place.leaderName = "Anna";
    welcome.place = place;
    model.take(welcome, kDeskNow - 10min);
    seats(model, 0);
}

void beBusy(DeskModel& model)
{
    comeIn(model);
    model.take(
        wire::OnDesk{true,
                     {deskLine(1, "Rolf", "My mother's garden had two kinds of weather: frost and slugs.", 42),
                      deskLine(2, "Edda", "Is the reading the same as last Tuesday's?", 29),
                      deskLine(3, "Omar", "Mine never rises.", 21),
                      deskLine(4, "Kofi",
                               "We grew yams behind the house, and every evening all of us children carried water, "
                               "two cans each, up the whole hill.",
                               15),
                      deskLine(5, "Lena", "<b>My beans</b> are called Ferdinand.", 4),
                      dealtWith(deskLine(6, "Petra", "Can we do the glide again at the end?", 130),
                                DeskState::withLeader, "Ines")}},
        kDeskNow);
    model.take(wire::DeskNow{}, kDeskNow);
    model.take(wire::Claimed{4, "Ines"}, kDeskNow);
    using enum wire::ItemKind;
    model.take(wire::Board{1,
                           {onBoard(101, line, "Ruth", "Rain here this morning."),
                            onBoard(102, line, "Sami", "I'm having rolls after this."),
                            onBoard(103, notice, "", "Pictures of your gardens are welcome all week."),
                            onBoard(104, line, "", "Good morning from somebody who likes to stay without a name.")}},
               kDeskNow);
    wire::Door door;
    door.waiting = {{1, "Marta", "tablet", kDeskNow - 12s, ""}, {2, "R\u03BFlf", "laptop", kDeskNow - 5s, "Rolf"}};
    door.words = {"amber", "ladder", "quiet", "river"};
    model.take(door, kDeskNow);
    isHere(model, 26, "Jonas", false, kDeskNow - 40s);
    wire::LostLine jonas;
    jonas.person = deskPerson("Jonas");
    jonas.name = "Jonas";
    jonas.since = kDeskNow - 40s;
    jonas.mayRing = true;
    model.take(wire::LostLines{{jonas}}, kDeskNow);
    isHere(model, 27, "Marta Berg", true, kDeskNow - 25s);
    model.attended("Mr Lindqvist");
}

namespace
{

void decided(DeskModel& model)
{
    beBusy(model);
    model.take(wire::OnDesk{false,
                            {dealtWith(deskLine(1, "Rolf",
                                                "My mother's garden had two kinds of weather: frost and slugs.", 42),
                                       DeskState::goingUp, "Kim"),
                             dealtWith(deskLine(2, "Edda", "Is the reading the same as last Tuesday's?", 29),
                                       DeskState::withLeader, "Kim"),
                             dealtWith(deskLine(3, "Omar", "Mine never rises.", 21), DeskState::setAside, "Ines"),
                             dealtWith(deskLine(7, "Wim", "I feel dizzy and nobody is at home.", 12),
                                       DeskState::withClinician, "Ines")}},
               kDeskNow);
}

void openBoardWithRests(DeskModel& model)
{
    beBusy(model);
    wire::DeskNow desk;
    desk.boardOpen = true;
    desk.resting = {{deskPerson("Wim"), "Wim", wire::Rest::tenMinutes, kDeskNow + 8min},
                    {deskPerson("Omar"), "Omar", wire::Rest::out, kDeskNow + 6h}};
    model.take(desk, kDeskNow);
    isHere(model, 21, "Omar", false, kDeskNow);
}

void withLevels(DeskModel& model)
{
    beBusy(model);
    wire::DeskNow desk;
    desk.levels = true;
    model.take(desk, kDeskNow);
    wire::Roster roster{true, {}};
    const std::array standings{Standing::inBand, Standing::below,    Standing::private_,
                               Standing::above,  Standing::cantTell, Standing::notYet};
    for (std::uint16_t seat = 0; seat < kPeople.size(); ++seat)
        roster.entries.push_back({seat, standings[seat % standings.size()]});
    model.take(roster);
}

void withCalls(DeskModel& model)
{
    beBusy(model);
    wire::Call greta;
    greta.call = 1;
    greta.name = "Greta";
    greta.person = deskPerson("Greta");
    greta.at = kDeskNow - 18s;
    wire::Call wim;
    wim.call = 2;
    wim.name = "Wim";
    wim.at = kDeskNow - 50s;
    wim.person = deskPerson("Wim");
    wim.takenBy = "Kim";
    wim.taker = deskPerson("Kim");
    model.take(wire::Calls{true, {greta, wim}}, kDeskNow);
    wire::PlaceNow place;
    place.phase = Phase::running;
    place.line = HomeLine::leaderAway;
    place.leaderName = "Anna";
    model.take(place, kDeskNow);
}

void thousands(DeskModel& model)
{
    beBusy(model);
    seats(model, 2973);
    wire::OnDesk many{false, {}};
    for (std::uint64_t item = 10; item < 400; ++item)
        many.items.push_back(deskLine(item, kPeople[item % kPeople.size()],
                                      "Line " + std::to_string(item) + ", and a few more words to read.", 3));
    model.take(many, kDeskNow);
    for (std::uint32_t seat = 100; seat < 160; ++seat) {
        const std::string name = std::string(kPeople[seat % kPeople.size()]) + " " + std::to_string(seat);
        model.take(wire::Seats{false, {{seat, PersonId::random(), name, false, 0, Addressed::notAtAll}}}, kDeskNow);
    }
}

void longWords(DeskModel& model)
{
    beBusy(model);
    std::string unbroken(300, 'w');
    model.take(
        wire::OnDesk{
            false,
            {deskLine(20, "Bartholomea von Hohenstein-Lichtenberg", unbroken, 75),
             dealtWith(deskLine(3, "Omar", "Mine never rises.", 21), DeskState::seenTo,
                       "Bartholomea von Hohenstein-Lichtenberg"),
             deskLine(21, "\u0644\u064A\u0646\u0627",
                      "\u0635\u0628\u0627\u062D \u0627\u0644\u062E\u064A\u0631 \U0001F44B \u304A\u306F\u3088\u3046",
                      4)}},
        kDeskNow);
    model.take(wire::Claimed{20, "Wilhelmina Charlotte von der Osterwiese"}, kDeskNow);
    model.say("Three questions are on the leader's screen. Please wait until she has taken one.", kDeskNow);
}

void withPicture(DeskModel& model)
{
    beBusy(model);
    wire::DeskItem yams = deskLine(30, "Kofi", "Our first yams this year", 7);
    yams.kind = wire::ItemKind::picture;
    wire::DeskItem onItsWay = deskLine(31, "Aiko", "", 3);
    onItsWay.kind = wire::ItemKind::picture;
    model.take(wire::OnDesk{false, {yams, onItsWay}}, kDeskNow);
    QImage picture(264, 176, QImage::Format_RGB32);
    picture.fill(QColor("#7A9A5B"));
    QPainter painter(&picture);
    painter.setBrush(QColor("#8B5A2B"));
    painter.drawEllipse(60, 50, 150, 80);
    painter.end();
    model.words().setPicture(30, picture);
}

void lineLost(DeskModel& model)
{
    beBusy(model);
    model.setLine(DeskModel::LineNow::lost);
    model.words().setOnItsWay(2, true);
}

} // namespace

std::vector<DeskScene> deskScenes()
{
    const auto replies = [](DeskRoom& room) { room.setReplies(keptReplies({})); };
    return {
        {"empty", comeIn, {}},
        {"busy", beBusy, {}},
        {"decided", decided, [](DeskRoom& room) { key(room, Qt::Key_Down); }},
        {"open-board", openBoardWithRests, {}},
        {"levels", withLevels, {}},
        {"calls", withCalls, {}},
        {"thousands", thousands, {}},
        {"long-words", longWords, {}},
        {"picture", withPicture, [](DeskRoom& room) { key(room, Qt::Key_End); }},
        {"line-lost", lineLost, {}},
        {"answer", beBusy,
         [replies](DeskRoom& room) {
             replies(room);
             key(room, Qt::Key_5);
         }},
        {"answer-all", beBusy,
         [replies](DeskRoom& room) {
             replies(room);
             key(room, Qt::Key_6);
             if (auto* line = qobject_cast<QLineEdit*>(QApplication::focusWidget()))
                 QTest::keyClick(line, Qt::Key_3);
         }},
        {"out", beBusy, [](DeskRoom& room) { key(room, Qt::Key_9); }},
        {"ready-made", beBusy,
         [replies](DeskRoom& room) {
             replies(room);
             key(room, Qt::Key_5);
             for (auto* each : room.findChildren<QAbstractButton*>())
                 if (each->text().startsWith("Ready-made"))
                     each->click();
         }},
        {"what-was-done",
         [](DeskModel& model) {
             beBusy(model);
             acts(model);
         },
         [](DeskRoom& room) { key(room, Qt::Key_L); }},
    };
}

} // namespace vh::testing
