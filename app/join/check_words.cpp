// What stands on the screens of the mic check.
#include "app/join/check_flow.h"

#include <QCoreApplication>

#include <array>
#include <cmath>

namespace vh::join
{

namespace
{

constexpr std::array kQuestions{FullCheck::Stage::room,   FullCheck::Stage::usual,       FullCheck::Stage::vowel,
                                FullCheck::Stage::louder, FullCheck::Stage::loudspeaker, FullCheck::Stage::people};

QString tr(const char* source)
{
    return QCoreApplication::translate("vh::join::CheckFlow", source);
}

QString whereOf(FullCheck::Stage stage)
{
    return tr("Question %1 of %2").arg(static_cast<int>(stage) + 1).arg(kQuestions.size());
}

/// What has been heard is enough: the same on all questions.
void settle(CheckView& view)
{
    view.words = tr("Thank you, that is enough. A moment of quiet, please.");
    view.line.clear();
}

} // namespace

FindingWords wordsOf(CheckFinding finding)
{
    switch (finding) {
    case CheckFinding::fine:
        return {tr("Your microphone hears you well"),
                tr("Please leave it where it is now, and stay at about this distance during class.")};
    case CheckFinding::noSound:
        return {tr("No sound comes from this microphone"),
                tr("It may be switched off, or another one is meant. Please choose one below and try again.")};
    case CheckFinding::wrongDevice:
        return {tr("This microphone does not hear you"),
                tr("It hears neither you nor this room. Please choose another one below and try again.")};
    case CheckFinding::noVoice:
        return {tr("I did not hear enough of your voice"),
                tr("Please come a little nearer to the microphone and try again.")};
    case CheckFinding::clipping:
        return {tr("This microphone is turned up too far"),
                tr("Please turn it down in the sound settings, or move back a little, and try again.")};
    case CheckFinding::gated:
        return {tr("This computer takes soft sounds away"),
                tr("Please switch off noise removal for the microphone in the sound settings, and try again. Somebody "
                   "who knows the computer can help.")};
    case CheckFinding::ridesGain:
        return {tr("This computer makes soft and loud alike"),
                tr("Please switch off automatic volume for the microphone in the sound settings, and try again. "
                   "Somebody who knows the computer can help.")};
    case CheckFinding::tooFar:
        return {tr("The microphone is too far away"), tr("Please come nearer, about an arm's length, and try again.")};
    case CheckFinding::roomTooNoisy:
        return {tr("The room is too loud beside your voice"),
                tr("Please switch off what hums or plays, and try again.")};
    case CheckFinding::otherVolume:
        return {tr("The microphone is set to another volume"),
                tr("Your usual level has been found anew for it. Please leave the volume as it is now.")};
    case CheckFinding::lateLoudspeaker:
        return {
            tr("Your loudspeaker is late"),
            tr("It seems to be wireless. With one on a cable you hear the class in time. Everything else is well.")};
    case CheckFinding::loudspeakerTooLoud:
        return {tr("The loudspeaker drowns your voice"),
                tr("Please turn the loudspeaker down a little, or put on headphones.")};
    }
    return {};
}

JoinView CheckFlow::view(const CheckAround& around) const
{
    if (m_step == Step::full && m_full.stage() == FullCheck::Stage::people)
        return peopleView();
    if (m_step == Step::meterKind)
        return kindView();
    if (m_step == Step::meterFigures)
        return figuresView();
    CheckView view;
    const bool isResult = m_step == Step::full && isDone();
    if (isResult)
        view = resultView();
    else if (m_step == Step::full)
        view = listeningView(around);
    else if (m_step == Step::greeting || m_step == Step::different)
        view = greetingView();
    else
        view = meterView();
    view.levelDbfsA = around.levelDbfsA;
    view.devices = around.devices;
    view.device = around.device;
    if (!view.listening)
        return view;
    if (around.ears == sound::EarsState::noDevice) {
        view.heading = tr("No microphone was found");
        view.words = tr("Please plug one in. It is used as soon as it is there.");
        view.line.clear();
        view.goOn.clear();
        view.skip = tr("Go on without");
        view.skipMeans = tr("No level is shown");
        view.listening = false;
    } else if (around.ears != sound::EarsState::hearing && around.ears != sound::EarsState::opening) {
        view.notice = sound::wordsOf(around.ears);
    }
    return view;
}

CheckView CheckFlow::listeningView(const CheckAround& around) const
{
    using Stage = FullCheck::Stage;
    CheckView view;
    const Stage stage = m_full.stage();
    view.where = whereOf(stage);
    view.progress = m_full.progress();
    view.showsDevices = stage == Stage::room || stage == Stage::usual;
    view.back = stage == Stage::room ? QString() : tr("Back");
    view.skip = tr("Leave this out");
    switch (stage) {
    case Stage::room:
        view.heading = tr("First, your room");
        view.words = tr("Please be quiet for three seconds.");
        view.skip = tr("Not now");
        view.skipMeans = tr("No level is shown until this check is done");
        break;
    case Stage::usual:
        view.heading = tr("Now your voice");
        view.words = tr("I am listening. Please read this aloud, and begin again at the end.");
        view.line = tr("Good morning. I live here, and I like it. On some days I walk to the shop and back.");
        view.skip = tr("Not now");
        view.skipMeans = tr("No level is shown until this check is done");
        if (m_full.needsHint()) {
            view.words = tr("I hear little so far. Take your time. Is this the right microphone?");
            view.goOn = tr("Go on");
        }
        break;
    case Stage::vowel:
        view.heading = tr("One long sound");
        view.words = tr("Please breathe in, and hold this for some seconds, as is comfortable.");
        view.line = tr("aah");
        view.skipMeans = tr("Then I may miss that the computer swallows long sounds");
        break;
    case Stage::louder:
        view.heading = tr("Once with more voice");
        view.words = tr("Please say this as if to somebody across the room. Stop if it hurts, if you feel dizzy or "
                        "short of breath, or if your voice turns hoarse.");
        view.line = tr("Come in, the door is open!");
        view.skipMeans = tr("Then I may miss that the computer makes soft and loud alike");
        break;
    default:
        view.heading = tr("Now a voice from your computer");
        view.words = isPlaying() ? tr("Please listen, and be quiet until it is over.")
                                 : tr("You will hear a voice for about a quarter of a minute. Please be quiet "
                                      "meanwhile. It shows how your loudspeaker sounds in the microphone.");
        view.goOn = isPlaying() ? QString() : tr("Play the voice");
        view.skipMeans = tr("Then your level may show a little later in class");
        if (around.loudspeaker == sound::LoudspeakerState::noDevice ||
            around.loudspeaker == sound::LoudspeakerState::deviceLost)
            view.notice = sound::wordsOf(around.loudspeaker);
        break;
    }
    if (m_full.isSettling())
        settle(view);
    else if (m_full.needsHint() && stage != Stage::usual)
        view.notice = tr("Take your time. I am still listening.");
    return view;
}

CheckView CheckFlow::resultView() const
{
    const CheckFinding finding = m_full.finding();
    const FindingWords found = wordsOf(finding);
    CheckView view;
    view.listening = false;
    view.heading = found.heading;
    view.words = found.words;
    if (m_full.facts().people > 1)
        view.notice = tr("Two of you speak here, and I cannot tell you apart: no level is shown in class.");
    view.back = tr("Back");
    view.showsDevices = !levelsHold(finding);
    if (finding == CheckFinding::fine) {
        view.goOn = tr("Go on");
        view.more = tr("I have a sound level meter");
        return view;
    }
    view.goOn = tr("Try again");
    view.skip = levelsHold(finding) ? tr("Go on as it is") : tr("Go on without");
    if (!levelsHold(finding))
        view.skipMeans = tr("No level is shown until this check is done");
    return view;
}

CheckView CheckFlow::greetingView() const
{
    CheckView view;
    if (m_step == Step::different) {
        view.listening = false;
        view.heading = tr("Something is different today");
        view.words = tr("Your voice or your room sounds unlike last time here. A check takes about two minutes.");
        view.goOn = tr("Check now");
        view.skip = tr("Go in as it is");
        view.skipMeans = tr("No level is shown until the check is done");
        return view;
    }
    view.heading = tr("Say good morning");
    view.words = tr("Please say this, as you would talk at home. Then you are in class.");
    view.line = tr("Good morning, everybody. Here I am.");
    view.progress = m_greeting.progress();
    view.showsDevices = true;
    view.skip = tr("Go in");
    view.skipMeans = tr("Without a greeting");
    if (m_greeting.needsHint())
        view.notice = tr("I have not heard you yet. Take your time. Is this the right microphone?");
    return view;
}

CheckView CheckFlow::meterView() const
{
    CheckView view;
    view.back = tr("Back");
    if (m_step == Step::meterHow) {
        view.listening = false;
        view.heading = tr("With a sound level meter");
        view.words = tr("Somebody holds it beside your mouth, 30 cm away, set to A and slow. You read for ten seconds "
                        "of voice. Then you write down what it showed most of the time.");
        view.goOn = tr("Go on");
        return view;
    }
    if (m_step == Step::meterRead) {
        view.heading = tr("Read while the meter is held");
        view.words = tr("Please read this aloud, again and again, until the bar is full.");
        view.line = tr("Good morning. I live here, and I like it. On some days I walk to the shop and back.");
        view.progress = std::min(1.0F, static_cast<float>(m_readLevel.milliseconds()) / 10'000);
        return view;
    }
    view.listening = false;
    view.heading = tr("The microphone is calibrated");
    const int within = m_calibration ? static_cast<int>(std::ceil(m_calibration->uncertaintyDb)) : 0;
    view.words =
        tr("Levels here are now known to within %1 decibels. In class nobody asks you for more than 80. If you "
           "move the microphone or change its volume, this is forgotten.")
            .arg(within);
    view.goOn = tr("Go on");
    view.back.clear();
    return view;
}

AskView CheckFlow::peopleView() const
{
    AskView view;
    view.heading = tr("Who speaks at this computer in class?");
    view.words = tr("Your level can be shown only where one person speaks into the microphone.");
    view.choices = {{tr("Only I"), false}, {tr("Two of us"), false}};
    view.canGoBack = true;
    return view;
}

AskView CheckFlow::kindView() const
{
    AskView view;
    view.heading = tr("What kind of meter is it?");
    view.words = tr("It is written on it, as a class. The figures are as sure as the meter is.");
    view.choices = {
        {tr("Class 1"), false}, {tr("Class 2"), false}, {tr("A telephone"), false}, {tr("I don't know"), false}};
    view.canGoBack = true;
    return view;
}

AskView CheckFlow::figuresView() const
{
    AskView view;
    view.heading = tr("What did the meter show?");
    view.words = tr("About what it showed most of the time while you read.");
    view.fields = {{tr("On the meter, in dB(A)"), m_figures.value(0), tr("for example 66"), 6},
                   {tr("From your mouth to the meter, in cm"), m_figures.value(1), tr("for example 30"), 6}};
    view.choices = {{tr("Go on"), false}};
    view.notice = m_wrong;
    view.canGoBack = true;
    return view;
}

} // namespace vh::join
