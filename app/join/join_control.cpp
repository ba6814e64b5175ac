#include "app/join/join_control.h"

#include "common/live/share.h"
#include "common/wire/binary.h"

#include <QScopeGuard>

namespace vh::join
{

namespace
{

/// How often frames are drained and the screen is refreshed: smooth enough for a meter.
constexpr std::chrono::milliseconds kBeat{40};

/// With a clock moved by hand, no more of a file than this is heard in one go.
constexpr Millis kMostAtOnce{2000};

} // namespace

JoinControl::JoinControl(JoinSetup setup, JoinRoom& room, QObject* parent)
    : QObject(parent), m_setup(std::move(setup)), m_room(&room), m_memberships(m_setup.folder),
      m_keys(link::makeKeyBox(m_setup.folder)), m_usuals(m_setup.folder), m_pending(m_setup.folder),
      m_answersRead(m_setup.folder), m_line(*m_setup.clock), m_follow(m_line),
      m_sound(m_line, *m_setup.clock, m_ears, m_setup.loudspeaker)
{
    connect(&m_line, &link::Line::stateChanged, this, &JoinControl::onLine);
    connect(&m_line, &link::Line::received, this, &JoinControl::onMessage);
    connect(&m_line, &link::Line::answered, this,
            [this](const RequestId& id, const wire::Ack& ack, const Error* error) { onAnswered(id, ack, error); });
    connect(&m_follow, &link::ClassFollow::changed, this, [this] {
        m_model.followClass(m_follow, m_line.relayNow());
        lookAtCue();
        beat();
    });
    connect(&m_ears, &sound::Ears::stateChanged, this, [this](sound::EarsState state) {
        m_model.earsAre(state);
        render();
    });
    connect(&m_checkSound, &CheckSound::stateChanged, this, [this](sound::LoudspeakerState state) {
        m_model.loudspeakerIs(state);
        render();
    });
    connect(&m_ears, &sound::Ears::devicesChanged, this, &JoinControl::showDevices);

    connect(&room, &JoinRoom::submitRequested, this, [this](const QStringList& f) { carryOut(m_model.submit(f)); });
    connect(&room, &JoinRoom::choiceRequested, this, [this](int choice) { carryOut(m_model.choose(choice)); });
    connect(&room, &JoinRoom::backRequested, this, [this] { carryOut(m_model.goBack()); });
    connect(&room, &JoinRoom::waitButtonRequested, this, [this] { carryOut(m_model.pressWait()); });
    connect(&room, &JoinRoom::checkPressed, this, [this](CheckPress press) { carryOut(m_model.pressCheck(press)); });
    connect(&room, &JoinRoom::deviceRequested, this, &JoinControl::chooseDevice);
    bindClass(room);
    bindVoices(room);
    bindHandout(room);
    bindBoard(room);
    bindPictures(room);

    m_beat.setInterval(kBeat);
    connect(&m_beat, &QTimer::timeout, this, &JoinControl::beat);
    m_beat.start();
}

/// The class screen, and the screen of choices behind it.
void JoinControl::bindClass(const JoinRoom& room)
{
    connect(&room, &JoinRoom::helpRequested, this, [this] { carryOut(m_model.pressHelp()); });
    connect(&room, &JoinRoom::helloRequested, this, [this] { carryOut(m_model.pressHello()); });
    connect(&room, &JoinRoom::privateRequested, this, [this] { carryOut(m_model.pressPrivate()); });
    connect(&room, &JoinRoom::noticeRequested, this,
            [this](NoticeAction action) { carryOut(m_model.pressNotice(action)); });
    connect(&room, &JoinRoom::pickRequested, this,
            [this](int row, int answer) { carryOut(m_model.pick(row, answer)); });
    connect(&room, &JoinRoom::undoRequested, this, [this] { carryOut(m_model.undo()); });
    const auto then = [this](void (JoinModel::*press)()) {
        return [this, press] {
            (m_model.*press)();
            render();
        };
    };
    connect(&room, &JoinRoom::choicesRequested, this, then(&JoinModel::pressChoices));
    connect(&room, &JoinRoom::moreRequested, this, then(&JoinModel::pressMore));
    connect(&room, &JoinRoom::leaveRequested, this, then(&JoinModel::pressLeave));
    m_held.setSingleShot(true);
    connect(&m_held, &QTimer::timeout, this, &JoinControl::sendHeld);
}

JoinControl::~JoinControl() = default;

void JoinControl::carryOut(const std::vector<Wish>& wishes)
{
    for (const Wish& wish : wishes) {
        switch (wish.kind) {
        case Wish::Kind::comeIn:
            return comeIn(QString::fromStdString(wish.value), QString::fromStdString(wish.second),
                          QString::fromStdString(wish.third));
        case Wish::Kind::trustKey:
            m_line.trustSeenKey();
            if (m_line.welcome())
                isIn(*m_line.welcome());
            break;
        case Wish::Kind::agree:
            agree(wish);
            break;
        case Wish::Kind::contact:
            m_line.ask(wire::Contact{{}, wish.value, wish.second});
            break;
        case Wish::Kind::today:
            m_line.tell(m_model.today().value_or(wire::Today{}));
            break;
        case Wish::Kind::listen:
            listen();
            break;
        case Wish::Kind::playCheck:
            playCheck();
            break;
        case Wish::Kind::stopCheckSound:
            m_checkSound.stop();
            break;
        case Wish::Kind::checked:
            keepCheck();
            m_line.tell(m_model.today().value_or(wire::Today{}));
            break;
        case Wish::Kind::write:
        case Wish::Kind::takeBackLine:
        case Wish::Kind::askPeople:
        case Wish::Kind::keepPutAway:
            carryOutWords(wish);
            break;
        case Wish::Kind::hello:
            m_line.tell(wire::Greet{wish.on});
            break;
        case Wish::Kind::callHelp:
            m_asked[m_line.ask(wire::HelpCall{})] = {wish.kind};
            break;
        case Wish::Kind::takeBackCall:
            m_line.ask(wire::HelpTakeBack{{}, wish.call});
            break;
        case Wish::Kind::speakAnswer:
            m_line.ask(wire::SpeakAnswer{{}, wish.on, m_model.voices().ownStream()});
            break;
        case Wish::Kind::endSpeaking:
            m_line.ask(wire::EndSpeaking{});
            break;
        case Wish::Kind::stopListening:
            stopListening();
            break;
        case Wish::Kind::fetchHandout:
            m_handout.fetch();
            break;
        case Wish::Kind::openHandout:
            openHandout();
            break;
        case Wish::Kind::leave:
            return leave();
        }
    }
    followVoices();
    render();
}

/// Holds here at once; goes to the relay before everything else, and from the disk if this program ends before. One
/// that may still be undone waits a little before it goes up.
void JoinControl::agree(const Wish& wish)
{
    const auto& welcome = m_line.welcome();
    if (!welcome)
        return;
    const wire::Agree answer{RequestId::random(), wish.agreement, wish.value, 1};
    if (const auto earlier = m_pending.keep(welcome->person, answer))
        m_line.drop(*earlier);
    if (m_heldAnswer && m_heldAnswer->kind == answer.kind) {
        m_heldAnswer.reset(); // undone before anything had happened
        m_held.stop();
    }
    if (wish.held > Millis{0}) {
        sendHeld();
        m_heldAnswer = answer;
        m_held.start(wish.held);
    } else {
        m_line.askFirst(answer);
    }
    if (resultsGoUp(m_model.agreements()))
        return;
    for (const RequestId& id : m_results) // what still waits to go up is not to be seen any more
        m_line.drop(id);
    m_results.clear();
}

void JoinControl::sendHeld()
{
    m_held.stop();
    if (const auto answer = std::exchange(m_heldAnswer, std::nullopt))
        m_line.askFirst(*answer);
}

void JoinControl::onLine(link::LineState state)
{
    if (state == link::LineState::ended && m_line.endingCode() == "out")
        m_model.isOut();
    m_model.lineIs(state, m_line.ending());
    computeKeyWords();
    if (m_model.screen() == Screen::over)
        stopListening();
    followVoices();
    render();
}

void JoinControl::onAnswered(const RequestId& id, const wire::Ack& ack, const Error* error)
{
    m_results.erase(id);
    if (!error || error->code != "gave-up")
        m_pending.settled(id);
    const auto asked = m_asked.extract(id);
    if (asked.empty())
        return;
    const auto& [what, line] = asked.mapped();
    if (what == Wish::Kind::write && error)
        m_model.lineRefused(line, QString::fromStdString(error->message));
    else if (what == Wish::Kind::write && ack.item)
        return carryOut(m_model.lineHasGoneOut(line, *ack.item));
    else if (error)
        m_model.refused(what);
    else if (what == Wish::Kind::callHelp && ack.item)
        return carryOut(m_model.callHasGoneOut(*ack.item));
    render();
}

void JoinControl::onMessage(const wire::ToClient& message)
{
    if (const auto* welcome = std::get_if<wire::Welcome>(&message))
        isIn(*welcome);
    else
        m_model.take(message);
    if (m_model.screen() == Screen::people &&
        (std::holds_alternative<wire::Here>(message) || std::holds_alternative<wire::Welcome>(message)))
        m_line.tell(wire::PeopleAsk{}); // somebody has come or gone
    followVoices();
    render();
}

void JoinControl::beat()
{
    const auto later = qScopeGuard([this] { m_lastBeat = m_setup.clock->now(); });
    m_model.tick(m_setup.clock->now());
    followVoices();
    lookAtCue();
    if (m_listening) {
        if (m_setup.sound.pace == sound::Pace::byHand && m_model.maySpeak()) {
            const Millis gone = std::clamp(m_setup.clock->now() - m_lastBeat, Millis{0}, kMostAtOnce);
            m_checkSound.advance(gone);
            m_ears.advance(gone);
        }
        hearFrames();
        if (const auto reading = m_model.meter().takeReading(); reading && readingsGoUp(m_model.agreements()))
            m_line.tellBinary(wire::encodeReading(*reading));
        if (const auto result = m_model.meter().takeResult(); result && resultsGoUp(m_model.agreements()))
            m_results.insert(m_line.ask(wire::TurnDone{{}, *m_model.meter().classId(), *result}));
        if (m_model.screen() == Screen::over)
            stopListening();
    }
    render();
}

void JoinControl::leave()
{
    sendHeld();
    m_sound.endSending();
    m_sound.play(JoinSound::Play::nothing);
    stopListening();
    m_line.close();
    emit left();
}

void JoinControl::render()
{
    if (!m_room)
        return;
    followPictures();
    JoinView view = m_model.view(&m_follow);
    showPictures(view);
    m_room->setState(view);
    m_room->setHeard(m_sound.isSending());
}

} // namespace vh::join
