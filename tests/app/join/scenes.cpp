#include "tests/app/join/scenes.h"

#include "tests/app/join/join_steps.h"

#include <QBuffer>
#include <QPainter>

namespace vh::testing
{

using namespace vh::join;

namespace
{

QByteArray loaf()
{
    QImage image(480, 480, QImage::Format_ARGB32_Premultiplied);
    image.fill(Qt::transparent);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(Qt::NoPen);
    painter.setBrush(QColor(0xc6, 0x86, 0x42));
    painter.drawRoundedRect(QRectF(60, 140, 360, 240), 110, 110);
    painter.end();
    QByteArray bytes;
    QBuffer buffer(&bytes);
    image.save(&buffer, "PNG");
    return bytes;
}

const QByteArray& picture()
{
    static const QByteArray bytes = loaf();
    return bytes;
}

std::string pictureFile()
{
    return hexOf(wire::sha256(picture().toStdString())) + ".png";
}

void hear(JoinModel& model, const std::vector<VoiceFrame>& frames)
{
    for (const VoiceFrame& frame : frames)
        model.frame(frame);
}

/// As long as it may be.
const char* const kWhomToRing =
    "Sister Adelheid at the day clinic, 555 0142, until six; after that the clinic's night desk, "
    "555 0100. In an emergency 112: fire, ambulance and police in this country; say street "
    "and floor.";

/// Pressed, and back to the class.
void callFromClass(JoinModel& model)
{
    (void)model.pressHelp();
    (void)model.goBack();
}

/// The leader's voice comes, or does not.
void hears(JoinModel& model, wire::VoiceState state, const char* name = "Anna")
{
    model.voices().loudspeakerIs(sound::LoudspeakerState::playing);
    model.take(wire::ToClient(wire::VoiceNow{1, state, 7, name}));
}

void invite(JoinModel& model, const char* from)
{
    hears(model, wire::VoiceState::carried, from);
    model.take(wire::ToClient(wire::InvitedToSpeak{true, from}));
}

/// Asked, agreed, and heard by all.
void beHeard(JoinModel& model)
{
    invite(model, "Anna");
    (void)model.answerInvitation(true, 41);
    model.take(wire::ToClient(wire::Speaking{1, true, 41, 2, "Ruth", true}));
}

/// In the phrases, in the turn given.
std::function<void(JoinModel&, ClassHere&)> inTurn(std::uint16_t round, std::uint16_t turn, float level)
{
    return [=](JoinModel& model, ClassHere& here) {
        joinFully(model, here);
        if (turn == 3) { // a judged turn before, so that the meter says something
            here.place(model, {1, 0, 0, 3});
            hear(model, voiceFrames(300, level));
        }
        here.place(model, {1, 0, round, turn});
        if (turn >= 2)
            hear(model, voiceFrames(200, level));
    };
}

std::vector<Scene> inClass()
{
    const auto then = [](const std::function<void(JoinModel&, ClassHere&)>& before, auto after) {
        return [=](JoinModel& model, ClassHere& here) {
            before(model, here);
            after(model, here);
        };
    };
    const auto yours = inTurn(1, 3, -24);
    return {
        {"class-not-begun", [](JoinModel& model, ClassHere& here) { joinFully(model, here); }},
        {"class-handout-offered",
         [](JoinModel& model, ClassHere& here) {
             joinFully(model, here);
             model.handout().offeredIs(true);
         }},
        {"class-handout-saved",
         [](JoinModel& model, ClassHere& here) {
             joinFully(model, here);
             model.handout().offeredIs(true);
             (void)model.pressNotice(NoticeAction::handout);
             model.handout().savedAt("/home/ruth/Downloads/A morning at the lakeside plots - handout.pdf");
         }},
        {"class-handout-not-saved",
         [](JoinModel& model, ClassHere& here) {
             joinFully(model, here);
             model.handout().offeredIs(true);
             (void)model.pressNotice(NoticeAction::handout);
             model.handout().failedWith("/home/ruth/Downloads/A morning at the lakeside plots - handout.pdf could not "
                                        "be saved: No space left on device. Is the disk full, or may nothing be "
                                        "written there?");
         }},
        {"class-listen", inTurn(0, 0, -24)},
        {"class-listen-after", then(yours,
                                    [](JoinModel& m, ClassHere& here) {
                                        here.place(m, {1, 1, 0, 0});
                                    })},
        {"class-ready", inTurn(1, 1, -24)},
        {"class-with-me", inTurn(1, 2, -24)},
        {"class-yours-easy", yours},
        {"class-yours-more", inTurn(1, 3, -29)},
        {"class-yours-plenty", inTurn(1, 3, -16)},
        {"class-vowel",
         [](JoinModel& model, ClassHere& here) {
             joinFully(model, here);
             here.place(model, {2, 0, 1, 3});
         }},
        {"class-water",
         [](JoinModel& model, ClassHere& here) {
             joinFully(model, here);
             here.place(model, {3, 0, 0, 0});
         }},
        {"class-line-lost", then(yours, [](JoinModel& m, ClassHere&) { m.lineIs(link::LineState::lost, {}); })},
        {"class-device-lost", then(yours, [](JoinModel& m, ClassHere&) { m.earsAre(sound::EarsState::deviceLost); })},
        {"class-cant-tell",
         [](JoinModel& model, ClassHere& here) {
             joinFully(model, here);
             here.place(model, {1, 0, 0, 3});
             hear(model, voiceFrames(400, -30, Blank::roomTooNoisy));
             here.place(model, {1, 0, 1, 0});
         }},
        {"class-cant-tell-check",
         [](JoinModel& model, ClassHere& here) {
             joinFully(model, here);
             here.place(model, {1, 0, 0, 3});
             hear(model, voiceFrames(400, -30, Blank::setupChanged));
             here.place(model, {1, 0, 1, 3});
         }},
        {"class-cant-tell-longest",
         [](JoinModel& model, ClassHere& here) {
             joinFully(model, here);
             here.place(model, {1, 0, 0, 3});
             hear(model, voiceFrames(400, -30, Blank::somebodyElse));
             here.place(model, {1, 0, 1, 0});
             here.place(model, {1, 0, 1, 0}, Phase::waiting, HomeLine::classWaits);
         }},
        {"class-resting",
         [](JoinModel& model, ClassHere& here) {
             joinFully(model, here, 2);
             here.place(model, {1, 0, 1, 3});
         }},
        {"class-private", then(yours, [](JoinModel& m, ClassHere&) { (void)m.pressPrivate(); })},
        {"call-out", then(yours, [](JoinModel& m, ClassHere&) { (void)m.pressHelp(); })},
        {"call-out-nobody-here", then(yours,
                                      [](JoinModel& m, ClassHere&) {
                                          m.take(wire::ToClient(wire::Here{28, 0, 3, 0}));
                                          m.take(wire::ToClient(wire::WhomToRing{1, kWhomToRing}));
                                          (void)m.pressHelp();
                                      })},
        {"call-waits-for-the-line", then(yours,
                                         [](JoinModel& m, ClassHere&) {
                                             m.take(wire::ToClient(wire::WhomToRing{1, kWhomToRing}));
                                             m.lineIs(link::LineState::lost, {});
                                             (void)m.pressHelp();
                                         })},
        {"call-taken", then(yours,
                            [](JoinModel& m, ClassHere&) {
                                m.take(wire::ToClient(wire::WhomToRing{1, kWhomToRing}));
                                (void)m.pressHelp();
                                m.take(wire::ToClient(wire::CallStatus{1, "Bram", false}));
                            })},
        {"call-closed", then(yours,
                             [](JoinModel& m, ClassHere&) {
                                 (void)m.pressHelp();
                                 m.take(wire::ToClient(wire::CallStatus{1, "Bram", false}));
                                 m.take(wire::ToClient(wire::CallStatus{1, "Bram", true}));
                             })},
        {"class-nobody-to-help", then(yours,
                                      [](JoinModel& m, ClassHere&) {
                                          m.take(wire::ToClient(wire::Here{28, 0, 3, 0}));
                                          m.take(wire::ToClient(wire::WhomToRing{1, kWhomToRing}));
                                      })},
        {"class-helper-and-leader", then(yours,
                                         [](JoinModel& m, ClassHere&) {
                                             m.take(wire::ToClient(wire::Here{28, 1, 3, 1}));
                                         })},
        {"class-help-called", then(yours, [](JoinModel& m, ClassHere&) { callFromClass(m); })},
        {"class-help-taken", then(yours,
                                  [](JoinModel& m, ClassHere&) {
                                      callFromClass(m);
                                      m.take(wire::ToClient(wire::CallStatus{1, "Bram", false}));
                                  })},
        {"class-help-and-leader-away", then(yours,
                                            [](JoinModel& m, ClassHere& here) {
                                                callFromClass(m);
                                                m.take(wire::ToClient(wire::CallStatus{1, "Bram", false}));
                                                here.place(m, {1, 0, 1, 3}, Phase::running, HomeLine::leaderAway);
                                            })},
        {"class-help-and-line-lost", then(yours,
                                          [](JoinModel& m, ClassHere&) {
                                              callFromClass(m);
                                              (void)m.callHasGoneOut(1);
                                              m.lineIs(link::LineState::lost, {});
                                          })},
        {"class-help-waits-for-the-line", then(yours,
                                               [](JoinModel& m, ClassHere&) {
                                                   m.take(wire::ToClient(wire::WhomToRing{1, kWhomToRing}));
                                                   m.lineIs(link::LineState::lost, {});
                                                   callFromClass(m);
                                               })},
        {"class-help-called-nobody-here", then(yours,
                                               [](JoinModel& m, ClassHere&) {
                                                   m.take(wire::ToClient(wire::Here{28, 0, 3, 0}));
                                                   m.take(wire::ToClient(wire::WhomToRing{1, kWhomToRing}));
                                                   callFromClass(m);
                                               })},
        {"class-help-taken-back", then(yours,
                                       [](JoinModel& m, ClassHere&) {
                                           (void)m.pressHelp();
                                           (void)m.pressNotice(NoticeAction::takeBackCall);
                                       })},
        {"class-hello", then(yours,
                             [](JoinModel& m, ClassHere&) {
                                 m.take(wire::ToClient(wire::Here{28, 2, 26}));
                                 (void)m.pressHello();
                             })},
        {"class-word", then(yours,
                            [](JoinModel& m, ClassHere&) {
                                m.take(wire::ToClient(wire::WordHeard{
                                    WordKind::kind, "Anna", "That was easy to hear from the first word, lovely."}));
                            })},
        {"class-word-longest",
         then(yours,
              [](JoinModel& m, ClassHere&) {
                  m.take(wire::ToClient(wire::WordHeard{WordKind::kind, "Bartholomea von Hohenstein-Lichtenberg",
                                                        "You held the last one to its very end, with plenty of breath "
                                                        "left over; more than on any morning of this month."}));
                  m.earsAre(sound::EarsState::deviceLost);
              })},
        {"class-long-names",
         [yours](JoinModel& m, ClassHere& here) {
             here.open.title = "The singing and speaking group of the Northern Harbour community house, on its "
                               "second morning";
             here.now.leaderName = "Bartholomea von Hohenstein-Lichtenberg";
             emit here.line.received(wire::ToClient(here.open));
             yours(m, here);
             m.take(wire::ToClient(wire::Here{2814, 12, 1972}));
         }},
        {"class-board",
         then(inTurn(0, 0, -24),
              [](JoinModel& m, ClassHere& here) {
                  here.place(m, {0, 0, 0, 0});
                  wire::BoardItem item;
                  item.name = "Odile";
                  item.text = "Good morning from the lake, the ice is gone and my geraniums are out on the sill again "
                              "after this long winter.";
                  m.take(wire::ToClient(wire::Board{1, {item}}));
              })},
        {"class-calm-pause", then(yours,
                                  [](JoinModel& m, ClassHere& here) {
                                      here.place(m, {1, 0, 1, 3}, Phase::calmPause, HomeLine::calmPause);
                                  })},
        {"class-waits", then(yours,
                             [](JoinModel& m, ClassHere& here) {
                                 here.place(m, {1, 0, 1, 3}, Phase::waiting, HomeLine::classWaits);
                             })},
        {"class-hears-leader", then(yours, [](JoinModel& m, ClassHere&) { hears(m, wire::VoiceState::carried); })},
        {"class-leader-muted", then(yours, [](JoinModel& m, ClassHere&) { hears(m, wire::VoiceState::muted); })},
        {"class-voice-elsewhere", then(yours, [](JoinModel& m, ClassHere&) { hears(m, wire::VoiceState::elsewhere); })},
        {"class-hears-longest", then(yours,
                                     [](JoinModel& m, ClassHere&) {
                                         hears(m, wire::VoiceState::carried, "Bartholomea von Hohenstein-Lichtenberg");
                                         wire::Speaking said{1, true, 9, 4, "Maximiliana Ottilie von der Hohen", false};
                                         m.take(wire::ToClient(said));
                                     })},
        {"class-loudspeaker-lost", then(yours,
                                        [](JoinModel& m, ClassHere&) {
                                            hears(m, wire::VoiceState::carried);
                                            m.voices().loudspeakerIs(sound::LoudspeakerState::deviceLost);
                                        })},
        {"invited", then(yours, [](JoinModel& m, ClassHere&) { invite(m, "Anna"); })},
        {"invited-longest",
         then(inTurn(1, 3, -24),
              [](JoinModel& m, ClassHere&) { invite(m, "Bartholomea von Hohenstein-Lichtenberg"); })},
        {"invited-resting",
         [](JoinModel& model, ClassHere& here) {
             joinFully(model, here, 2);
             here.place(model, {1, 0, 1, 3});
             invite(model, "Anna");
         }},
        {"heard-class", then(yours, [](JoinModel& m, ClassHere&) { beHeard(m); })},
        {"heard-listen", then(yours,
                              [](JoinModel& m, ClassHere& here) {
                                  beHeard(m);
                                  here.place(m, {1, 1, 0, 0});
                              })},
        {"heard-cant-tell-longest",
         [](JoinModel& model, ClassHere& here) {
             joinFully(model, here);
             here.place(model, {1, 0, 0, 3});
             hear(model, voiceFrames(400, -30, Blank::somebodyElse));
             here.place(model, {1, 0, 1, 0});
             beHeard(model);
         }},
        {"heard-choices", then(yours,
                               [](JoinModel& m, ClassHere&) {
                                   beHeard(m);
                                   m.pressChoices();
                               })},
        {"heard-write", then(yours,
                             [](JoinModel& m, ClassHere&) {
                                 beHeard(m);
                                 m.pressWrite();
                             })},
        {"heard-leaving", then(yours,
                               [](JoinModel& m, ClassHere&) {
                                   beHeard(m);
                                   m.pressLeave();
                               })},
        {"heard-contact", then(yours,
                               [](JoinModel& m, ClassHere&) {
                                   beHeard(m);
                                   m.pressChoices();
                                   m.pressMore();
                               })},
        {"heard-check", then(yours,
                             [](JoinModel& m, ClassHere&) {
                                 beHeard(m);
                                 m.checkAgain();
                             })},
        {"choices", then(yours, [](JoinModel& m, ClassHere&) { m.pressChoices(); })},
        {"choices-changed", then(yours,
                                 [](JoinModel& m, ClassHere&) {
                                     m.pressChoices();
                                     (void)m.pick(1, 1);
                                 })},
        {"choices-contact", then(yours,
                                 [](JoinModel& m, ClassHere&) {
                                     m.pressChoices();
                                     m.pressMore();
                                 })},
        {"ask-leaving", then(yours, [](JoinModel& m, ClassHere&) { m.pressLeave(); })},
        {"wait-over", then(yours,
                           [](JoinModel& m, ClassHere& here) {
                               here.place(m, {1, 0, 1, 3}, Phase::ended, HomeLine::ended);
                           })},
        {"wait-over-handout", then(yours,
                                   [](JoinModel& m, ClassHere& here) {
                                       m.handout().offeredIs(true);
                                       here.place(m, {1, 0, 1, 3}, Phase::ended, HomeLine::ended);
                                   })},
        {"wait-over-handout-saved", then(yours,
                                         [](JoinModel& m, ClassHere& here) {
                                             m.handout().offeredIs(true);
                                             here.place(m, {1, 0, 1, 3}, Phase::ended, HomeLine::ended);
                                             (void)m.pressHandout();
                                             m.handout().savedAt(
                                                 "/home/ruth/Downloads/A morning at the lakeside plots - handout.pdf");
                                         })},
        {"wait-ended",
         then(yours, [](JoinModel& m,
                        ClassHere&) { m.lineIs(link::LineState::ended, "You have come in on another device."); })},
    };
}

} // namespace

void joinFully(JoinModel& model, ClassHere& here, int voice)
{
    walkIn(model, here);
    UsualLevel usual;
    usual.levelDbfsA = -30;
    model.meter().setUsuals({{TaskKind::phrases, usual}});
    model.meter().setRoom(-70);
    (void)model.choose(voice);
    if (model.screen() == Screen::check) // goes in without a greeting
        (void)model.pressCheck(CheckPress::skip);
}

std::vector<Scene> joinScenes()
{
    std::vector<Scene> scenes = beforeScenes();
    for (Scene& scene : checkScenes())
        scenes.push_back(std::move(scene));
    for (Scene& scene : inClass())
        scenes.push_back(std::move(scene));
    for (Scene& scene : boardScenes())
        scenes.push_back(std::move(scene));
    return scenes;
}

SceneClass::SceneClass() : ClassHere(homeClass(pictureFile()), picture()) {}

} // namespace vh::testing
