#include "app/lead/sound_check.h"

#include <QCoreApplication>

namespace vh::lead
{

namespace
{

QString say(const char* words)
{
    return QCoreApplication::translate("vh::lead", words);
}

SoundCheckView::Fact room(const MicCheck& check)
{
    const QString what = say("The room");
    if (check.stage() == MicCheck::Stage::room)
        return {what, say("being heard\u2026"), false};
    if (check.stage() == MicCheck::Stage::done && check.finding() == MicCheck::Finding::tooNoisy)
        return {what, say("too loud beside your voice; come nearer, or switch something off"), true};
    return {what, say("heard"), true};
}

SoundCheckView::Fact level(const MicCheck& check)
{
    const QString what = say("Your level");
    if (check.stage() != MicCheck::Stage::done)
        return {what, say("not heard yet"), false};
    switch (check.finding()) {
    case MicCheck::Finding::noSound:
        return {what, say("no sound at all: is the right microphone chosen, and switched on?"), true};
    case MicCheck::Finding::noVoice:
        return {what, say("no voice heard; speak a little nearer to the microphone"), true};
    default:
        return {what, say("your voice comes through"), true};
    }
}

SoundCheckView::Fact clipping(const MicCheck& check)
{
    const QString what = say("Too loud?");
    if (check.stage() != MicCheck::Stage::done)
        return {what, say("not known yet"), false};
    if (check.finding() == MicCheck::Finding::clipping)
        return {what, say("yes, for this microphone: turn its input down"), true};
    const bool heard = check.finding() == MicCheck::Finding::fine || check.finding() == MicCheck::Finding::tooNoisy;
    return {what, heard ? say("no") : say("not known"), true};
}

} // namespace

SoundCheckView soundCheckView(const MicCheck& check, sound::EarsState ears, const LevelBar::State& level_, VoiceWay way)
{
    SoundCheckView view;
    view.level = level_;
    view.progress = static_cast<double>(check.progress());
    view.facts = {room(check), level(check), clipping(check)};
    if (ears != sound::EarsState::hearing && check.stage() != MicCheck::Stage::done) {
        view.heading = say("No sound yet");
        view.words = sound::wordsOf(ears);
        return view;
    }
    switch (check.stage()) {
    case MicCheck::Stage::room:
        view.heading = say("Please be quiet for three seconds");
        view.words = say("So your room is heard on its own.");
        break;
    case MicCheck::Stage::speak:
        view.heading = say("Now speak as you will in class");
        view.words = say("For example: good morning, I am glad you are here. Let us take a breath together.");
        break;
    case MicCheck::Stage::done:
        view.done = true;
        view.heading = check.finding() == MicCheck::Finding::fine ? say("Your microphone works")
                                                                  : say("There is something to look at");
        view.words = way == VoiceWay::elsewhere
                         ? say("Voicehall does not carry your voice: the group hears you by the call it also uses. Ask "
                               "somebody there whether they hear you.")
                         : say("Nobody hears you yet. From the start of the class on the sign says whether they do; M "
                               "lets you speak to them before.");
        break;
    }
    return view;
}

} // namespace vh::lead
