// The way into the class: link or code, the door, the questions.
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
             for (int i = 0; i < 6; ++i)
                 (void)model.choose(0);
         }},
        {"ask-today",
         [](JoinModel& model, ClassHere& here) {
             here.welcome.where = "Mill Lane 3";
             model.welcome(here.welcome, false);
             for (int i = 0; i < 6; ++i)
                 (void)model.choose(0);
         }},
    };
}

} // namespace vh::testing
