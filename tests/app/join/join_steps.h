#pragma once
// What the tests of the participant's model share: looking at its view, and coming into class. GUI thread.
#include "tests/app/join/class_here.h"

#include <QList>

namespace vh::testing
{

using join::JoinModel;
using Kind = join::Wish::Kind;

inline join::AskView askOf(const JoinModel& model)
{
    return std::get<join::AskView>(model.view(nullptr));
}
inline join::WaitView waitOf(const JoinModel& model)
{
    return std::get<join::WaitView>(model.view(nullptr));
}
inline join::CheckView checkOf(const JoinModel& model)
{
    return std::get<join::CheckView>(model.view(nullptr));
}
inline join::CallView callOf(const JoinModel& model)
{
    return std::get<join::CallView>(model.view(nullptr));
}
inline join::ChoicesView choicesOf(const JoinModel& model)
{
    return std::get<join::ChoicesView>(model.view(nullptr));
}
inline join::BoardView boardOf(const JoinModel& model, const ClassHere& here)
{
    return std::get<join::BoardView>(model.view(&here.follow));
}
inline join::ClassView classOf(const JoinModel& model, const ClassHere& here)
{
    return std::get<join::ClassView>(model.view(&here.follow));
}
inline void hear(JoinModel& model, const std::vector<VoiceFrame>& frames)
{
    for (const VoiceFrame& frame : frames)
        model.frame(frame);
}
inline QList<Kind> kindsOf(const join::Wishes& wishes)
{
    QList<Kind> kinds;
    for (const join::Wish& wish : wishes)
        kinds.append(wish.kind);
    return kinds;
}

inline void knowAll(wire::Welcome& welcome)
{
    welcome.agreements = {{AgreementKind::levelVisible, "leader"}, {AgreementKind::resultsKept, "no"},
                          {AgreementKind::attendanceNamed, "yes"}, {AgreementKind::nameSeen, "yes"},
                          {AgreementKind::addressed, "kind"},      {AgreementKind::mayRing, "no"}};
    welcome.where = "Mill Lane 3";
}

/// Somebody known, in class, microphone on.
inline void intoClass(JoinModel& model, ClassHere& here, int voice = 0)
{
    knowAll(here.welcome);
    model.lineIs(link::LineState::in, {});
    model.earsAre(sound::EarsState::hearing);
    model.welcome(here.welcome, true);
    UsualLevel usual;
    usual.levelDbfsA = -30;
    model.meter().setUsuals({{TaskKind::phrases, usual}});
    model.meter().setRoom(-70);
    if (model.screen() == join::Screen::place)
        (void)model.choose(0); // where they were last time
    (void)model.choose(voice);
    if (model.screen() == join::Screen::check) // goes in without a greeting
        (void)model.pressCheck(join::CheckPress::skip);
}

/// The whole mic check, in frames: quiet, lines, a vowel, more voice; the loudspeaker is left out, one person.
inline void checkFully(JoinModel& model)
{
    hear(model, roomFrames(300));
    hear(model, voiceFrames(450, -30));
    hear(model, roomFrames(200));
    hear(model, voiceFrames(300, -30));
    hear(model, roomFrames(300));
    hear(model, voiceFrames(200, -24));
    hear(model, roomFrames(300));
    (void)model.pressCheck(join::CheckPress::skip);
    (void)model.choose(0);
}

} // namespace vh::testing
