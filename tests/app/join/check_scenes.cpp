// Every screen of the mic check, reached by what is heard and pressed.
#include "tests/app/join/join_steps.h"
#include "tests/app/join/scenes.h"

namespace vh::testing
{

using namespace vh::join;

namespace
{

void atCheck(JoinModel& model)
{
    model.lineIs(link::LineState::in, {});
    wire::Welcome welcome;
    knowAll(welcome);
    model.earsAre(sound::EarsState::hearing);
    model.devicesAre({"Built-in microphone", "USB headset with a rather long name, mono"}, 1);
    model.welcome(welcome, false);
    (void)model.choose(0); // where they were last time
    (void)model.choose(0);
}

void atVowel(JoinModel& model)
{
    atCheck(model);
    hear(model, roomFrames(300));
    hear(model, voiceFrames(450, -28));
    hear(model, roomFrames(200));
}

void atLouder(JoinModel& model)
{
    atVowel(model);
    hear(model, voiceFrames(300, -28));
    hear(model, roomFrames(300));
}

void atLoudspeaker(JoinModel& model)
{
    atLouder(model);
    hear(model, voiceFrames(200, -22));
    hear(model, roomFrames(300));
}

void leaveOut(JoinModel& model)
{
    (void)model.pressCheck(CheckPress::skip);
}

void atResult(JoinModel& model, int people = 0)
{
    atLoudspeaker(model);
    leaveOut(model);
    (void)model.choose(people);
}

/// The sound is played, and the microphone does this with it: `microphone` of what was played by frame.
void playThrough(JoinModel& model, const std::function<float(std::size_t frame, float played)>& microphone)
{
    atLoudspeaker(model);
    const ProbeLayout layout{300, 600, 800, 1300, 1300};
    model.playingBegins(layout);
    for (std::size_t i = 0; i < 1700; ++i) {
        const std::size_t at = i - 120;
        float played = 0;
        if (i >= 120 && at < 250)
            played = at % 40 < 30 ? 1e-3F : 1e-5F;
        else if (i >= 120 && at >= 300 && at < 600)
            played = 1e-4F;
        else if (i >= 120 && at >= 800 && at < 1300)
            played = std::pow(10.0F, -0.25F - static_cast<float>(at - 800) / 110);
        model.checkPlayed(roomFrames(1).front(), microphone(i, played), played);
    }
    (void)model.choose(0);
}

void atMeter(JoinModel& model)
{
    atResult(model);
    (void)model.pressCheck(CheckPress::more);
}

void atFigures(JoinModel& model)
{
    atMeter(model);
    (void)model.pressCheck(CheckPress::goOn);
    (void)model.choose(1);
    hear(model, voiceFrames(1000, -28));
}

using Act = void (*)(JoinModel&);

Scene scene(const char* name, Act act)
{
    return {name, [act](JoinModel& model, ClassHere&) { act(model); }};
}

std::vector<Scene> questions()
{
    return {
        scene("check-room",
              [](JoinModel& model) {
                  atCheck(model);
                  hear(model, roomFrames(120));
              }),
        scene("check-speak",
              [](JoinModel& model) {
                  atCheck(model);
                  hear(model, roomFrames(300));
                  hear(model, voiceFrames(180, -28));
              }),
        scene("check-speak-hint",
              [](JoinModel& model) {
                  atCheck(model);
                  hear(model, roomFrames(300));
                  hear(model, roomFrames(1600));
              }),
        scene("check-settling",
              [](JoinModel& model) {
                  atCheck(model);
                  hear(model, roomFrames(300));
                  hear(model, voiceFrames(450, -28));
              }),
        scene("check-vowel",
              [](JoinModel& model) {
                  atVowel(model);
                  hear(model, voiceFrames(120, -28));
              }),
        scene("check-louder", atLouder),
        scene("check-loudspeaker", atLoudspeaker),
        scene("check-loudspeaker-none",
              [](JoinModel& model) {
                  atLoudspeaker(model);
                  model.loudspeakerIs(sound::LoudspeakerState::noDevice);
              }),
        scene("check-playing",
              [](JoinModel& model) {
                  atLoudspeaker(model);
                  model.playingBegins({0, 0, 0, 0, 1200});
                  for (int i = 0; i < 500; ++i)
                      model.checkPlayed(roomFrames(1).front(), 1e-5F, 1e-4F);
              }),
        scene("check-people",
              [](JoinModel& model) {
                  atLoudspeaker(model);
                  leaveOut(model);
              }),
        scene("check-no-device",
              [](JoinModel& model) {
                  atCheck(model);
                  model.earsAre(sound::EarsState::noDevice);
                  model.devicesAre({}, 0);
              }),
        scene("check-device-lost",
              [](JoinModel& model) {
                  atVowel(model);
                  model.earsAre(sound::EarsState::deviceLost);
              }),
    };
}

std::vector<Scene> results()
{
    return {
        scene("check-fine", [](JoinModel& model) { atResult(model); }),
        scene("check-fine-two", [](JoinModel& model) { atResult(model, 1); }),
        scene("check-no-sound",
              [](JoinModel& model) {
                  atCheck(model);
                  hear(model, roomFrames(800, -120, Blank::noSignal));
              }),
        scene("check-clipping",
              [](JoinModel& model) {
                  atCheck(model);
                  hear(model, roomFrames(300));
                  hear(model, voiceFrames(500, -3, Blank::clipping));
                  hear(model, roomFrames(200));
                  for (int i = 0; i < 3; ++i)
                      leaveOut(model);
                  (void)model.choose(0);
              }),
        scene("check-gated",
              [](JoinModel& model) {
                  playThrough(model, [](std::size_t, float played) { return played < 1e-4F ? 1e-9F : played / 10; });
              }),
        scene("check-rides-gain",
              [](JoinModel& model) {
                  playThrough(model, [](std::size_t, float played) { return 1e-9F + 0.03F * std::sqrt(played); });
              }),
        scene("check-late-loudspeaker",
              [](JoinModel& model) {
                  std::vector<float> line(40, 0.0F);
                  playThrough(model, [line, at = std::size_t{0}](std::size_t, float played) mutable {
                      const float late = std::exchange(line[at % line.size()], played);
                      ++at;
                      return 1e-9F + late / 100;
                  });
              }),
        scene("check-meter-how", atMeter),
        scene("check-meter-kind",
              [](JoinModel& model) {
                  atMeter(model);
                  (void)model.pressCheck(CheckPress::goOn);
              }),
        scene("check-meter-read",
              [](JoinModel& model) {
                  atMeter(model);
                  (void)model.pressCheck(CheckPress::goOn);
                  (void)model.choose(1);
                  hear(model, voiceFrames(400, -28));
              }),
        scene("check-meter-figures", atFigures),
        scene("check-meter-wrong",
              [](JoinModel& model) {
                  atFigures(model);
                  (void)model.submit({"66", "3"});
              }),
        scene("check-calibrated",
              [](JoinModel& model) {
                  atFigures(model);
                  (void)model.submit({"66", "30"});
              }),
        {"greeting",
         [](JoinModel& model, ClassHere& here) {
             walkIn(model, here);
             model.devicesAre({"Built-in microphone", "USB headset with a rather long name, mono"}, 1);
             (void)model.choose(0);
         }},
        {"greeting-different",
         [](JoinModel& model, ClassHere& here) {
             walkIn(model, here);
             UsualLevel usual;
             usual.levelDbfsA = -50;
             model.meter().setUsuals({{TaskKind::phrases, usual}});
             (void)model.choose(0);
             hear(model, voiceFrames(150, -28));
             hear(model, roomFrames(80));
         }},
    };
}

} // namespace

std::vector<Scene> checkScenes()
{
    std::vector<Scene> scenes = questions();
    for (Scene& each : results())
        scenes.push_back(std::move(each));
    return scenes;
}

} // namespace vh::testing
