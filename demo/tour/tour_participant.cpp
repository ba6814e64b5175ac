// The participant's part of the tour: comes in, is greeted, calls for help, loses the line; and who else sits at the
// same computer.
#include "demo/stage/press.h"
#include "demo/tour/tour.h"

#include <QLabel>

#include <algorithm>

namespace vh::tour
{

sound::DeviceChoice Tour::soundOf(const QString& name, const stage::VoiceFile& voice, sound::Pace pace) const
{
    const QString path = m_folder.filePath(name);
    need(stage::writeVoiceFile(path.toStdString(), voice), "no voice could be written");
    return sound::DeviceChoice::fileOf(path, pace);
}

join::ClassView Tour::classScreen()
{
    auto& control = *m_participant->joinControl();
    const join::JoinView view = control.model().view(&control.follow());
    const auto* shown = std::get_if<join::ClassView>(&view);
    need(shown != nullptr, "the participant is not in class");
    return *shown;
}

void Tour::participantComes()
{
    stage::VoiceFile voice;
    voice.seconds = 60 * 25;
    m_voice = soundOf("voice.wav", voice);
    voice.seconds = 60 * 3;
    voice.levelDbfs = 3;
    voice.leadInSeconds = 0;
    m_tooLoud = soundOf("too-loud.wav", voice);
    m_participant = window("participant", m_voice);
    m_participant->join({}, {});
    picture(*m_participant, "join-entry");
    // By the address and the code, without a link: the four words are compared by voice.
    const QString address = "127.0.0.1:" + QString::number(m_relay->port());
    stage::fillIn(*m_participant, {address, QString::fromStdString(wire::spacedCode(m_group.code)), "Ruth"});
    pressIn(*m_participant, "Come in");
    until([&] { return m_participant->joinControl()->model().screen() == join::Screen::door; }, "not at the door");
    until(
        [&] {
            return !std::get<join::WaitView>(m_participant->joinControl()->model().view(nullptr)).keyWords.isEmpty();
        },
        "the four words did not come");
    picture(*m_participant, "join-door");
    picture(*m_helper, "desk-door");
    pressIn(*m_helper, "Let in");
    auto& control = *m_participant->joinControl();
    until([&] { return control.model().screen() == join::Screen::sameWords; }, "not let in");
    until([&] { return stage::canPress(*m_participant, "Yes, the same words"); }, "the words were not asked for");
    picture(*m_participant, "join-same-words");
    pressIn(*m_participant, "Yes, the same words");
    until([&] { return control.model().screen() == join::Screen::agreements; }, "the agreements did not come");
    picture(*m_participant, "join-agreement");
    for (const char* answer : {"Yes, the leader", "Yes, keep them", "No, only my own leader", "Yes, under my name",
                               "Yes", "Yes, kind words", "Yes"})
        pressIn(*m_participant, answer);
    until([&] { return control.model().screen() == join::Screen::contact; }, "the agreements did not end");
    until([&] { return stage::canPress(*m_participant, "Go on"); }, "the contact was not asked for");
    stage::fillIn(*m_participant, {"4 Orchard Lane, Lakeside", "Jonas, 555 0142"});
    picture(*m_participant, "join-contact");
    pressIn(*m_participant, "Go on");
    picture(*m_participant, "join-today");
    pressIn(*m_participant, "Fine");
    using Check = FullCheck::Stage;
    const auto asks = [&](Check stage) {
        return [&, stage] { return control.model().check().full().stage() >= stage; };
    };
    until(asks(Check::usual), "the room was not heard");
    picture(*m_participant, "join-check-voice");
    until(asks(Check::vowel), "the voice was not heard");
    picture(*m_participant, "join-check-vowel");
    const auto leaveOut = [&](Check next) { // a press sooner than that belongs to the one before
        if (control.model().check().full().stage() < next)
            pressIn(*m_participant, "Leave this out");
        until(asks(next), "the question cannot be left out");
        stage::letRun(std::chrono::milliseconds(450));
    };
    leaveOut(Check::louder);
    picture(*m_participant, "join-check-louder");
    leaveOut(Check::loudspeaker);
    picture(*m_participant, "join-check-loudspeaker");
    leaveOut(Check::people);
    picture(*m_participant, "join-check-people");
    pressIn(*m_participant, "Only I");
    until(asks(Check::done), "the check did not end");
    picture(*m_participant, "join-check-done");
    need(control.model().check().full().finding() == CheckFinding::fine, "the mic check found something wrong");
    pressIn(*m_participant, "Go on");
    until([&] { return control.model().screen() == join::Screen::inClass; }, "not in class");
    picture(*m_participant, "join-before");
}

bool Tour::isOnDesk(const QString& words) const
{
    const auto labels = m_helper->findChildren<QLabel*>();
    return std::any_of(labels.begin(), labels.end(), [&](const QLabel* label) {
        return label->isVisibleTo(m_helper.get()) && label->text().startsWith(words);
    });
}

void Tour::participantIsGreeted()
{
    pressIn(*m_participant, "Say hello");
    until([&] { return classScreen().saidHello && classScreen().leads.contains("hello"); },
          "the hello was not counted");
    picture(*m_participant, "join-hello");
    const auto& welcome = m_participant->joinControl()->line().welcome();
    m_leader->workLine()->ask(
        wire::PrivateWord{{}, welcome->person, WordKind::kind, "That was easy to hear from the first word, lovely."});
    until([&] { return classScreen().notice.words.contains("to you alone"); }, "the private word did not come");
    picture(*m_participant, "join-word");
    pressIn(*m_participant, "My choices");
    picture(*m_participant, "join-choices");
    until([&] { return stage::canPress(*m_participant, "and what to try"); }, "no such choice");
    pressIn(*m_participant, "and what to try");
    picture(*m_participant, "join-choices-changed");
    pressIn(*m_participant, "Take it back");
    pressIn(*m_participant, "Back to the class");
    participantIsHeard();
}

/// The leader asks Ruth whether everybody may hear her; she agrees, and ends it.
void Tour::participantIsHeard()
{
    auto& lead = *m_leader->leadControl();
    const auto& seats = lead.view().hall.seats;
    const auto ruth = std::find_if(seats.begin(), seats.end(), [](const SeatRow& row) { return row.name == "Ruth"; });
    need(ruth != seats.end(), "the participant has no seat");
    emit lead.room().seatRequested(ruth->seat);
    pressIn(*m_leader, "Ask to be heard by all");
    pressIn(*m_leader, "Close");
    until([&] { return stage::canPress(*m_participant, "Yes, they may hear me"); }, "the question did not come");
    picture(*m_participant, "join-invited");
    picture(*m_leader, "lead-asked");
    stage::letRun(std::chrono::milliseconds(450)); // sooner a press belongs to the screen before
    pressIn(*m_participant, "Yes, they may hear me");
    until([&] { return stage::canPress(*m_participant, "Stop being heard"); }, "the sign did not come");
    until([&] { return lead.view().hall.guest.heard; }, "the leader was not told");
    picture(*m_participant, "join-everyone-hears");
    picture(*m_leader, "lead-heard-by-all");
    pressIn(*m_participant, "Stop being heard");
    until([&] { return lead.view().hall.guest.words.isEmpty(); }, "it did not end");
    lead.pressMute();
    until([&] { return classScreen().voice.words.value(0).contains("silent"); }, "nobody was told of the mute");
    picture(*m_participant, "join-leader-muted");
    picture(*m_leader, "lead-muted");
    lead.pressMute();
}

/// Far too loud for the microphone, until a turn could not be judged; then as before.
void Tour::voiceCannotBeJudged()
{
    auto& ears = m_participant->joinControl()->ears();
    ears.start(m_tooLoud);
    until([&] { return classScreen().meter.standing == Standing::cantTell; }, "an overdriven voice was judged");
    picture(*m_participant, "join-cant-tell");
    ears.start(m_voice);
}

void Tour::helpIsCalled()
{
    pressIn(*m_participant, "I need help"); // by mistake
    until([&] { return stage::canPress(*m_participant, "Take it back"); }, "the call cannot be taken back");
    until([&] { return isOnDesk("Ruth needs help"); }, "the call did not come to the desk");
    pressIn(*m_participant, "Take it back");
    until([&] { return !isOnDesk("Ruth needs help"); }, "the call was not taken back");
    picture(*m_participant, "join-call-taken-back");
    stage::letRun(std::chrono::milliseconds(450)); // a press sooner than that belongs to the one before
    pressIn(*m_participant, "I need help");
    until([&] { return isOnDesk("Ruth needs help"); }, "the call did not come to the desk");
    picture(*m_helper, "desk-call");
    picture(*m_leader, "lead-call");
    picture(*m_participant, "join-called");
    pressIn(*m_helper, "I take it");
    stage::letRun(std::chrono::milliseconds(300));
    picture(*m_participant, "join-call-taken");
}

void Tour::lineIsLost()
{
    auto& line = m_participant->joinControl()->line();
    line.pullCable();
    picture(*m_participant, "join-line-lost");
    until([&] { return line.state() == link::LineState::in; }, "the line did not come back");
}

/// A computer that two people share.
void Tour::somebodyElseComes()
{
    pressIn(*m_participant, "Close");
    until([&] { return m_participant->joinControl() == nullptr; }, "the room was not left");
    m_participant->join(oneTimeLink(Role::participant), "Bram");
    pressIn(*m_participant, "Come in");
    until([&] { return m_participant->joinControl()->model().screen() == join::Screen::agreements; },
          "the second person did not come in");
    m_participant->toFirst();
    picture(*m_participant, "first-who-is-here");
}

} // namespace vh::tour
