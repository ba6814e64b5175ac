#pragma once
// States of the leader's room with invented people, for its pictures and for the tests that look at every one of them.
#include "app/lead/lead_view.h"
#include "app/lead/worth_words.h"

#include <chrono>

namespace vh::testing
{

using namespace vh::lead;
using namespace std::chrono_literals;

inline const QStringList kNames{"Odile", "Bram",   "Ines", "Tomas", "Ruth",  "Kofi", "Maren", "Ivo",   "Lena", "Paulo",
                                "Greta", "Anselm", "Noor", "Hugo",  "Petra", "Sami", "Vera",  "Jonas", "Aiko", "Rolf",
                                "Mina",  "Edda",   "Omar", "Tilde", "Wim",   "Zora", "Karel", "Ilse"};

inline std::vector<SeatRow> seats()
{
    std::vector<SeatRow> rows;
    for (int i = 0; i < kNames.size(); ++i) {
        SeatRow row;
        row.seat = row.place = i;
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

inline FittedText::State phrase()
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

inline LeadView inClass()
{
    LeadView view;
    view.stage = Stage::inClass;
    view.groupName = "Thursday voices";
    view.title = "Lakeside plots";
    view.way.code = "K7M 42P";
    view.hold = Hold::mine;
    view.clock = {"ends 10:01, one minute over", "ends 10:01"};
    view.level = {"They hear you", -30.0F, true};
    view.voice = {VoiceWay::voicehall, OwnVoice::Mouth::open, true, false, {}, false}; // in a turn of theirs
    view.column.last = "Grandfather mends the gate before the rain.";
    view.column.now = phrase();
    view.column.turns = {{TurnKind::listen, TurnKind::ready, TurnKind::withMe, TurnKind::yours},
                         3,
                         {"second time, with more voice \u00B7 0:04", "with more voice \u00B7 0:04", "0:04"}};
    view.column.note = "Hold the vowel of golden. If many are quiet, once more.";
    view.column.next = "Who taught you to plant beans?";
    view.column.mayChange = true;
    view.rail.parts = {{"Good morning", 80s, false, "Opening"},
                       {"Opening the shed", 120s, false, "Warm-up"},
                       {"Water", 30s, true},
                       {"Across the water", 180s, false, "Long vowel"},
                       {"Water", 30s, true},
                       {"Up the hill and down", 150s, false, "Glide"},
                       {"One by one", 120s, false, "Counting"},
                       {"Water", 30s, true},
                       {"At the plots", 300s, false, "Phrases"},
                       {"Water", 30s, true},
                       {"What is in the basket", 200s, false, "Word groups"},
                       {"Gate and key", 170s, false, "Back of tongue"},
                       {"The boat", 230s, false, "Passage"},
                       {"Going home", 70s, false, "Closing"}};
    view.rail.done = 880s;
    view.rail.current = 8;
    view.hall.seats = seats();
    view.hall.places = 29;
    view.hall.counts = {26, 17, 4, 1};
    view.hall.worth = {
        {3, worthWords("Tomas", WorthReason::easyForTheFirstTime, 3, "Counting"), "You are easy.", false},
        {16, worthWords("Vera", WorthReason::moreVoiceWorked, 3, "At the plots"), "I noticed.", true},
        {24, worthWords("Wim", WorthReason::noVoiceSince, 3, "Counting"), "I would like to hear you.", false}};
    view.hall.sent = "Sent to Vera.";
    return view;
}

/// Muted, with a recording at hand, in a turn in which she speaks.
inline LeadView muted()
{
    LeadView view = inClass();
    view.level = {"Nobody hears you", std::nullopt, false};
    view.voice.mouth = OwnVoice::Mouth::muted;
    view.voice.recording = "evening-by-the-lake.ogg";
    return view;
}

/// In mid-sentence, her recording plays.
inline LeadView playing()
{
    LeadView view = inClass();
    view.column.turns.current = 0;
    view.voice.mayRing = view.voice.plays = true;
    view.voice.recording = "evening-by-the-lake.ogg";
    return view;
}

inline LeadView elsewhere()
{
    LeadView view = inClass();
    view.level = {"Your voice goes by the other call", -30.0F, false};
    view.voice.way = VoiceWay::elsewhere;
    view.voice.offered = false;
    return view;
}

inline LeadView guestIs(bool heard, const QString& name = "Ruth")
{
    LeadView view = inClass();
    if (heard)
        view.hall.guest = {{name + " is heard by all", name + " is heard", "Heard by all"}, "Not any more", true};
    else
        view.hall.guest = {{"Asked: waiting for " + name, "Waiting for " + name, "Waiting"}, "Take back", false};
    view.hall.seats[4].heard = heard ? HeardByAll::yes : HeardByAll::asked; // Ruth
    return view;
}

inline SeatPanelState panelOf(const SeatRow& row, Addressed addressed)
{
    SeatPanelState panel;
    panel.seat = row.seat;
    panel.row = row;
    panel.addressed = addressedWords(addressed);
    panel.band = bandWords(2);
    panel.mayInvite = true;
    panel.mayAskLess = panel.mayAskMore = panel.mayReset = panel.mayUndo = true;
    Agreements agreements;
    agreements.addressed = addressed;
    for (std::size_t i = 0; i < ownWords().size(); ++i)
        if (mayAddress(agreements, ownWords()[i].kind))
            panel.words.push_back({static_cast<int>(i), ownWords()[i].text});
    return panel;
}

inline LeadView largeHall(int people)
{
    LeadView view = inClass();
    view.hall.seats.clear();
    view.hall.places = people;
    for (int i = 0; i < people; ++i) {
        SeatRow row;
        row.seat = row.place = i;
        row.name = kNames[i % kNames.size()];
        row.standing = i * 37 % 100 < 66   ? Standing::inBand
                       : i * 37 % 100 < 88 ? Standing::below
                       : i % 3 == 0        ? Standing::above
                       : i % 3 == 1        ? Standing::cantTell
                                           : Standing::private_;
        if (hasColumn(row.standing))
            row.overUsualDb =
                row.standing == Standing::below ? static_cast<float>(i % 3) : 4.0F + static_cast<float>(i % 7);
        if (row.standing == Standing::above)
            row.overUsualDb = 13.0F;
        if (i * 53 % 97 < 90)
            view.hall.seats.push_back(row);
    }
    view.hall.counts = people > 60 ? SeatCounts{928, 612, 204, 37} : SeatCounts{55, 36, 12, 4};
    if (people > 60)
        view.hall.group = "About a quarter are quiet, more than at One by one.";
    return view;
}

/// Before class, with everything that page can show.
inline LeadView beforeClass()
{
    LeadView view = inClass();
    view.stage = Stage::ready;
    view.papers = PapersView::offered;
    view.title = "A morning at the lakeside plots";
    view.level = {"Not heard yet", -30.0F, false};
    view.voice.mouth = OwnVoice::Mouth::closed;
    view.clock = {"ends 10:00 if you start now", "ends 10:00"};
    view.here = "12 are here, one helper";
    view.way.link = "voicehall://hall.example.org/#c=K7M42P&k=3q2-7wAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA";
    view.way.words = "amber ladder quiet river";
    view.way.helperLink = "voicehall://hall.example.org/#t=00112233445566778899aabbccddeeff";
    view.door.rows = {{1, "Marta", "tablet, 12 s"}, {2, "Piet", "old laptop, 1 min"}};
    view.door.words = "amber ladder quiet river";
    return view;
}

inline LeadView covered()
{
    LeadView view = inClass();
    view.hall = {};
    view.hall.covered = true;
    view.way = {};
    view.coverWords = "Somebody needs help. Somebody is at the door.";
    return view;
}

/// Questions on their places, and what needs a clinician.
inline LeadView withQuestions()
{
    LeadView view = inClass();
    view.desk.places[0] = {11, "Greta", "Is it all right to lean back in my chair while we do the long vowels?", false};
    view.desk.places[1] = {12, "Omar", "Which page are we on?", false};
    view.desk.places[2] = {14, "Bartholomea von Hohenstein-Lichtenberg",
                           "My neighbour would like to come along next week, and asks whether she needs a microphone "
                           "of her own or whether the one in her tablet will do.",
                           false};
    return view;
}

/// A picture for the group's window, beside three questions.
inline LeadView withPicture()
{
    LeadView view = withQuestions();
    QImage beans(160, 120, QImage::Format_RGB32);
    beans.fill(QColor(70, 130, 80));
    view.waiting = {31, beans, "Bartholomea von Hohenstein-Lichtenberg", "My beans by the lake", 2, false};
    return view;
}

inline LeadView withPictureShown()
{
    LeadView view = withPicture();
    view.waiting.shown = true;
    view.shown.picture = view.waiting.picture;
    view.shown.caption = "Ruth: My beans by the lake";
    return view;
}

inline LeadView withOneQuestion()
{
    LeadView view = inClass();
    view.desk.places[0] = withQuestions().desk.places[0];
    return view;
}

inline LeadView withClinician()
{
    LeadView view = withQuestions();
    view.desk.clinician = {{21, "Greta",
                            "The tea went down the wrong way and I have been coughing ever since, my voice is gone and "
                            "I am a little frightened now.",
                            false}};
    return view;
}

inline LeadView withDesk()
{
    LeadView view = withQuestions();
    view.desk.clinician = {{21, "Wim", "I fell this morning, nothing is broken, but I feel dizzy.", false}};
    view.desk.sheet = DeskNewsView::Sheet::desk;
    view.desk.opened = 1;
    view.desk.levelsOffered = true;
    return view;
}

inline LeadView withDeskOpened()
{
    LeadView view = inClass();
    view.desk.sheet = DeskNewsView::Sheet::desk;
    view.desk.opened = 1;
    view.desk.boardOpen = view.desk.levels = view.desk.levelsOffered = true;
    return view;
}

inline void fillActs(DeskNewsView& desk)
{
    desk.sheet = DeskNewsView::Sheet::acts;
    desk.opened = 1;
    desk.actsCame = true;
    desk.acts = {{"09:31", "Kim let through what Omar wrote.", "Good morning from the blue shed!"},
                 {"09:33", "Kim set aside what Rolf wrote.", "My neighbour's slugs are the worst in the county."},
                 {"09:34", "Kim put back to be read what Rolf wrote.", "My neighbour's slugs are the worst."},
                 {"09:40", "Anna let the desk see levels.", {}},
                 {"09:42", "Ben passed on to the leader what Greta asked.", "Is it all right to lean back?"},
                 {"09:43", "Anna took what Greta wrote.", "Is it all right to lean back?"},
                 {"09:51", "Kim let the writing of Rolf rest for ten minutes.", {}},
                 {"09:58", "Ben saw to the call for help of Wim.", "Rang his daughter; she is with him."}};
}

inline SoundCheckView checkUnderWay()
{
    SoundCheckView check;
    check.heading = "Now speak as you will in class";
    check.words = "For example: good morning, I am glad you are here. Let us take a breath together.";
    check.progress = 0.4;
    check.facts = {
        {"The room", "heard", true}, {"Your level", "not heard yet", false}, {"Too loud?", "not known yet", false}};
    check.level = {"Not heard yet", -28.0F, false};
    return check;
}

inline SoundCheckView checkDone()
{
    SoundCheckView check = checkUnderWay();
    check.done = true;
    check.heading = "Your microphone works";
    check.words =
        "Nobody hears you yet. From the start of the class on the sign says whether they do; M lets you speak "
        "to them before.";
    check.facts[1] = {"Your level", "your voice comes through", true};
    check.facts[2] = {"Too loud?", "no", true};
    return check;
}

inline LeadView overWith()
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
    return view;
}

/// The list of steps is open, in the turn that was given more time.
inline LeadView withSteps()
{
    using When = StepRow::When;
    LeadView view = inClass();
    view.column.turns.beside = {"second time, with more voice \u00B7 0:14 \u00B7 10 s added",
                                "with more voice \u00B7 0:14 \u00B7 10 s added", "0:14 \u00B7 10 s added", "0:14"};
    view.changes.sheet = ChangesView::Sheet::steps;
    view.changes.opened = 1;
    view.changes.mayCorrect = true;
    view.changes.wanted = {8, 2};
    view.changes.steps = {
        {{7, 0}, "Water", "Water", "0:30", When::past},
        {{8, 0}, "At the plots", "The beans have climbed to the top of the fence.", "0:44", When::past},
        {{8, 1}, "", "Grandfather mends the gate before the rain.", "0:44", When::past},
        {{8, 2}, "", "The boat comes home across the golden water.", "now", When::now},
        {{8, 3}, "", "Who taught you to plant beans?", "0:44", When::coming},
        {{8, 4}, "", "Somebody has already lit the stove in the blue shed.", "left out", When::leftOut},
        {{8, 5}, "", "We carry the baskets home together.", "0:44", When::coming},
        {{9, 0}, "Water", "Water", "0:30", When::coming},
        {{10, 0}, "What is in the basket", "Name things that grow under the ground", "1:10", When::coming},
        {{10, 1}, "", "Name things that smell of summer", "1:10", When::coming},
        {{11, 0}, "Gate and key", "Ga, ka, go, ko, gang", "0:50", When::coming},
        {{12, 0}, "The boat", "Every Saturday the gardeners meet at the gate at six.", "1:55", When::coming},
        {{13, 0}, "Going home", "Until Thursday.", "1:10", When::coming}};
    return view;
}

inline LeadView withTrim()
{
    LeadView view = inClass();
    view.clock = {"ends 10:03, three minutes over", "ends 10:03"};
    view.changes.sheet = ChangesView::Sheet::trim;
    view.changes.opened = 1;
    view.changes.trim.headline =
        "The class is 3 minutes behind its plan. Without these two steps, 3 minutes in all, it "
        "ends on time.";
    view.changes.trim.rows = {
        {{8, 4}, "At the plots", "Somebody has already lit the stove in the blue shed.", "1:24", StepRow::When::coming},
        {{10, 1}, "What is in the basket", "Name things that smell of summer", "1:20", StepRow::When::coming}};
    view.changes.trim.already = "Left out already, and still to come: one step.";
    view.changes.trim.agree = "Leave them out";
    return view;
}

inline LeadView onTime()
{
    LeadView view = withTrim();
    view.clock = {"ends 10:00, in time", "ends 10:00"};
    view.changes.trim = {"The class ends on time as it is. Nothing has to be left out.", {}, {}, {}};
    return view;
}

inline LeadView withText()
{
    LeadView view = inClass();
    view.changes.sheet = ChangesView::Sheet::text;
    view.changes.opened = 1;
    view.changes.mayCorrect = true;
    view.changes.text = {
        {8, 2}, "At the plots, step 3 of 6", "The b<oa>t comes h<o>me across the g<o>lden water.", {}, false, true};
    return view;
}

inline LeadView withFault()
{
    LeadView view = withText();
    view.changes.text.fault = "What has been led already is different in it, so the homes cannot go on with it. Texts "
                              "may be changed anywhere, steps and turns only from the next turn on.";
    return view;
}

/// A call that nobody has taken, over everything; all of it as long as it may be.
inline LeadView filled()
{
    LeadView view = inClass();
    CallScreen::State call;
    call.call = 1;
    call.heading = "Greta needs help";
    call.since = "Since 10:42, for 38 s. Nobody has taken the call yet.";
    call.where = "At home, in the kitchen: Mill Lane 3, Lakeside";
    call.ring = "her neighbour Odile, 555 0100";
    call.meanwhile = "The class is at: The boat comes home across the golden water.";
    view.filled = call;
    return view;
}

inline LeadView filledLongest()
{
    LeadView view = filled();
    view.filled->heading = "Bartholomea von Hohenstein-Lichtenberg needs help";
    view.filled->where =
        "At my sister's this week, not at home: Upper Harbour Terrace 114, third floor, the door at the end of the "
        "long corridor past the second staircase; the bell is broken, please knock loudly and wait a little.";
    view.filled->ring =
        "My sister Annegret, 555 0100, who is at work until four and may not hear it; otherwise the caretaker of the "
        "house, Mr Ottokar Lindqvist-Sommerfeld, 555 0142, who has a key to the flat.";
    view.filled->said = "as of 23/11/26";
    return view;
}

/// No helper is here: a line that broke off is hers to see to.
inline LeadView withLostLine()
{
    LeadView view = inClass();
    view.lostLines.rows = {{PersonId{}, "Jonas: line lost 40 s ago", {}, LostList::Press::look, false}};
    return view;
}

} // namespace vh::testing
