// The way into the class: link or code, the door, the questions.
#include "tests/app/join/join_steps.h"
#include "tests/app/join/scenes.h"

namespace vh::testing
{

using namespace vh::join;

std::vector<Scene> beforeScenes()
{
    return {
        {"ask-entry", [](JoinModel& model, ClassHere&) { model.startAtEntry({}, {}, {}); }},
        {"ask-entry-wrong",
         [](JoinModel& model, ClassHere&) {
             model.startAtEntry("hall.example.org", "K7M 42", "Ruth",
                                "The code has six signs, such as K7M 4AP. Please look at it once more.");
         }},
        {"wait-connecting", [](JoinModel& model, ClassHere&) { model.connecting("Looking for hall.example.org."); }},
        {"wait-door",
         [](JoinModel& model, ClassHere&) {
             model.lineIs(link::LineState::atDoor, {});
             model.keyWords({"lantern", "orchard", "pebble", "thimble"});
         }},
        {"wait-door-with-pin", [](JoinModel& model, ClassHere&) { model.lineIs(link::LineState::atDoor, {}); }},
        {"ask-same-words",
         [](JoinModel& model, ClassHere&) {
             model.keyWords({"lantern", "orchard", "pebble", "thimble"});
             model.askForSameWords();
         }},
        {"ask-agree-level",
         [](JoinModel& model, ClassHere& here) {
             model.lineIs(link::LineState::in, {});
             model.welcome(here.welcome, false);
         }},
        {"ask-agree-results",
         [](JoinModel& model, ClassHere& here) {
             model.welcome(here.welcome, false);
             (void)model.choose(0);
         }},
        {"ask-contact",
         [](JoinModel& model, ClassHere& here) {
             model.welcome(here.welcome, false);
             while (model.screen() == Screen::agreements)
                 (void)model.choose(0);
         }},
        {"ask-place",
         [](JoinModel& model, ClassHere& here) {
             knowAll(here.welcome);
             here.welcome.where = "At home, in the kitchen: Mill Lane 3, Lakeside";
             here.welcome.ring = "Odile, my daughter, 555 0112";
             model.welcome(here.welcome, false);
         }},
        {"ask-today",
         [](JoinModel& model, ClassHere& here) {
             here.welcome.where = "Mill Lane 3";
             model.welcome(here.welcome, false);
             while (model.screen() != Screen::today)
                 (void)model.choose(0);
         }},
        {"ask-today-nowhere",
         [](JoinModel& model, ClassHere& here) {
             knowAll(here.welcome);
             here.welcome.where.clear();
             model.welcome(here.welcome, false);
         }},
    };
}

} // namespace vh::testing
