#include "app/join/join_control.h"

#include "common/live/share.h"
#include "common/wire/binary.h"

#include <QScopeGuard>
#include <QSysInfo>
#include <QThreadPool>

#include <cmath>

namespace vh::join
{

namespace
{

/// How often frames are drained and the screen is refreshed: smooth enough for a meter.
constexpr std::chrono::milliseconds kBeat{40};

/// With a clock moved by hand, no more of a file than this is heard in one go.
constexpr Millis kMostAtOnce{2000};

/// What a person would call this machine.
std::string deviceWords()
{
    const QString name = QSysInfo::machineHostName();
    return name.isEmpty() ? std::string("computer") : name.left(wire::kLabelLength).toStdString();
}

/// How far an input volume may be off before levels are not comparable: 2 % is 0.2 dB.
constexpr float kSameVolume = 0.02F;

} // namespace

JoinControl::JoinControl(JoinSetup setup, JoinRoom& room, QObject* parent)
    : QObject(parent), m_setup(std::move(setup)), m_room(&room), m_memberships(m_setup.folder),
      m_keys(link::makeKeyBox(m_setup.folder)), m_usuals(m_setup.folder), m_pending(m_setup.folder),
      m_line(*m_setup.clock), m_follow(m_line)
{
    connect(&m_line, &link::Line::stateChanged, this, &JoinControl::onLine);
    connect(&m_line, &link::Line::received, this, &JoinControl::onMessage);
    connect(&m_line, &link::Line::answered, this,
            [this](const RequestId& id, const wire::Ack&, const Error* error) { onAnswered(id, error); });
    connect(&m_follow, &link::ClassFollow::changed, this, [this] {
        m_model.followClass(m_follow, m_line.relayNow());
        beat();
    });
    connect(&m_ears, &sound::Ears::stateChanged, this, [this](sound::EarsState state) {
        m_model.earsAre(state);
        render();
    });
    connect(&m_ears, &sound::Ears::devicesChanged, this, &JoinControl::showDevices);

    connect(&room, &JoinRoom::submitRequested, this, [this](const QStringList& f) { carryOut(m_model.submit(f)); });
    connect(&room, &JoinRoom::choiceRequested, this, [this](int choice) { carryOut(m_model.choose(choice)); });
    connect(&room, &JoinRoom::backRequested, this, [this] { carryOut(m_model.goBack()); });
    connect(&room, &JoinRoom::waitButtonRequested, this, [this] { carryOut(m_model.pressWait()); });
    connect(&room, &JoinRoom::checkGoOnRequested, this, [this] { carryOut(m_model.pressCheck(false)); });
    connect(&room, &JoinRoom::checkSkipRequested, this, [this] { carryOut(m_model.pressCheck(true)); });
    connect(&room, &JoinRoom::deviceRequested, this, &JoinControl::chooseDevice);
    connect(&room, &JoinRoom::helpRequested, this, [this] { carryOut(m_model.pressHelp()); });
    connect(&room, &JoinRoom::privateRequested, this, [this] { carryOut(m_model.pressPrivate()); });
    connect(&room, &JoinRoom::writeRequested, this, [this] {
        m_model.pressWrite();
        render();
    });
    connect(&room, &JoinRoom::agreementsRequested, this, [this] {
        m_model.pressAgreements();
        render();
    });
    connect(&room, &JoinRoom::leaveRequested, this, [this] {
        m_model.pressLeave();
        render();
    });

    m_beat.setInterval(kBeat);
    connect(&m_beat, &QTimer::timeout, this, &JoinControl::beat);
    m_beat.start();
}

JoinControl::~JoinControl() = default;

void JoinControl::startNew(const QString& link, const QString& name)
{
    m_model.startAtEntry(link, {}, name);
    render();
}

void JoinControl::startKnown(const link::Membership& membership)
{
    const auto keys = m_keys->read(membership.key);
    if (!keys) {
        m_model.startAtEntry(QString::fromStdString(membership.host), {}, QString::fromStdString(membership.name),
                             tr("This computer has lost its key to the group. Please come in once more by the code."));
        return render();
    }
    link::Entry entry = link::entryOf(membership, *keys);
    entry.plain = m_setup.plain;
    m_model.connecting(tr("Going to %1.").arg(QString::fromStdString(membership.groupName)));
    render();
    m_line.open(entry);
    for (const wire::Agree& each : m_pending.of(membership.person)) // of an earlier day: the first thing that is said
        m_line.askFirst(each);
}

void JoinControl::comeIn(const QString& address, const QString& code, const QString& name)
{
    const auto again = [&](const QString& wrong) {
        m_model.startAtEntry(address, code, name, wrong);
        render();
    };
    const auto parsed = wire::parseJoinLink(address.toStdString());
    if (!parsed)
        return again(QString::fromStdString(parsed.error().message));
    const auto typed = code.isEmpty() ? std::optional(parsed->code) : wire::normaliseCode(code.toStdString());
    if (!typed || (typed->empty() && !parsed->token))
        return again(tr("The code has six signs, such as K7M 4AP. Please look at it once more."));
    const auto shown = cleanLine(name.toStdString(), wire::kNameLength);
    if (!shown)
        return again(tr("Please write your name."));
    link::Entry entry;
    entry.how = parsed->token ? link::Entry::How::redeem : link::Entry::How::knock;
    entry.host = parsed->host;
    entry.port = parsed->port;
    entry.pin = parsed->pin;
    entry.code = *typed;
    if (parsed->token)
        entry.token = *parsed->token;
    entry.name = *shown;
    entry.device = deviceWords();
    entry.keys = wire::makeKeyPair();
    entry.plain = m_setup.plain;
    if (!m_keys->write(entry.keys))
        return again(tr("This computer cannot keep a key. Is its disk full?"));
    m_model.connecting(tr("Looking for %1.").arg(QString::fromStdString(entry.host)));
    render();
    m_line.open(entry);
}

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
            agree(wish.agreement, wish.value);
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
        case Wish::Kind::checked:
            keepCheck();
            m_line.tell(m_model.today().value_or(wire::Today{}));
            break;
        case Wish::Kind::write:
            m_asked[m_line.ask(wire::Write{{}, wish.value})] = wish.kind;
            break;
        case Wish::Kind::callHelp:
            m_asked[m_line.ask(wire::HelpCall{})] = wish.kind;
            break;
        case Wish::Kind::leave:
            return leave();
        }
    }
    render();
}

/// Holds here at once; goes to the relay before everything else, and from the disk if this program ends before.
void JoinControl::agree(AgreementKind kind, const std::string& value)
{
    const auto& welcome = m_line.welcome();
    if (!welcome)
        return;
    const wire::Agree answer{RequestId::random(), kind, value, 1};
    if (const auto earlier = m_pending.keep(welcome->person, answer))
        m_line.drop(*earlier);
    m_line.askFirst(answer);
    if (resultsGoUp(m_model.agreements()))
        return;
    for (const RequestId& id : m_results) // what still waits to go up is not to be seen any more
        m_line.drop(id);
    m_results.clear();
}

void JoinControl::onLine(link::LineState state)
{
    m_model.lineIs(state, m_line.ending());
    computeKeyWords();
    if (m_model.screen() == Screen::over)
        stopListening();
    render();
}

void JoinControl::onAnswered(const RequestId& id, const Error* error)
{
    m_results.erase(id);
    if (!error || error->code != "gave-up")
        m_pending.settled(id);
    const auto asked = m_asked.extract(id);
    if (asked.empty() || !error)
        return;
    m_model.refused(asked.mapped(), QString::fromStdString(error->message));
    render();
}

void JoinControl::onMessage(const wire::ToClient& message)
{
    if (const auto* welcome = std::get_if<wire::Welcome>(&message))
        isIn(*welcome);
    else
        m_model.take(message);
    render();
}

void JoinControl::isIn(const wire::Welcome& welcome)
{
    if (m_line.isUncompared()) // nothing private is said, and nothing kept, before somebody has compared the words
        return m_model.askForSameWords();
    if (!std::exchange(m_membershipKept, true)) {
        const link::Entry& entry = m_line.entry();
        const link::Membership membership{entry.host,    entry.port,        entry.pin,
                                          welcome.group, welcome.groupName, welcome.person,
                                          welcome.name,  welcome.role,      entry.keys.publicKey};
        if (!m_memberships.use(membership))
            m_model.say(link::notKeptWords());
        if (welcome.role != Role::participant) {
            m_line.close();
            emit otherRoomNeeded(membership);
            return;
        }
    }
    if (m_epoch && *m_epoch != welcome.epoch)
        m_model.meter().forget(); // the hall judges afresh, and so do we
    m_epoch = welcome.epoch;
    showDevices();
    const auto spot = m_usuals.find(welcome.person, device());
    wire::Welcome known = welcome; // with what this person answered and the relay has not taken yet
    for (const wire::Agree& each : m_pending.of(welcome.person)) {
        std::erase_if(known.agreements, [&](const auto& value) { return value.kind == each.kind; });
        known.agreements.push_back({each.kind, each.value});
    }
    m_model.welcome(known, spot.has_value());
    if (const auto today = m_model.today())
        m_line.tell(*today); // back after a lost line
    else
        useSpot();
}

/// The words come from the key that this line has seen, never from what the relay says of itself.
void JoinControl::computeKeyWords()
{
    if (!m_line.seenPin() || m_line.entry().pin || m_wordsOf == m_line.seenPin())
        return;
    m_wordsOf = m_line.seenPin();
    QThreadPool::globalInstance()->start([pin = *m_wordsOf, self = QPointer(this)] {
        const auto words = wire::fourWords(pin);
        QMetaObject::invokeMethod(
            qApp,
            [self, words] {
                if (!self)
                    return;
                QStringList shown;
                for (const std::string& word : words)
                    shown.append(QString::fromStdString(word));
                self->m_model.keyWords(shown);
                self->render();
            },
            Qt::QueuedConnection);
    });
}

void JoinControl::beat()
{
    const auto later = qScopeGuard([this] { m_lastBeat = m_setup.clock->now(); });
    if (m_listening) {
        if (m_setup.sound.pace == sound::Pace::byHand) {
            const Millis gone = std::clamp(m_setup.clock->now() - m_lastBeat, Millis{0}, kMostAtOnce);
            m_ears.advance(gone);
        }
        m_ears.drainFrames([this](const VoiceFrame& frame) { m_model.frame(frame); });
        if (const auto reading = m_model.meter().takeReading(); reading && readingsGoUp(m_model.agreements()))
            m_line.tellBinary(wire::encodeReading(*reading));
        if (const auto result = m_model.meter().takeResult(); result && resultsGoUp(m_model.agreements()))
            m_results.insert(m_line.ask(wire::TurnDone{{}, *m_model.meter().classId(), *result}));
        if (m_model.screen() == Screen::over)
            stopListening();
    }
    render();
}

void JoinControl::listen()
{
    if (std::exchange(m_listening, true))
        return;
    m_ears.start(m_setup.sound);
    showDevices();
    const auto& welcome = m_line.welcome();
    const auto spot = welcome ? m_usuals.find(welcome->person, device()) : std::nullopt;
    if (spot && !isAsChecked(*spot))
        m_model.checkAgain();
}

void JoinControl::stopListening()
{
    if (!m_listening)
        return;
    keepLearnt(); // while the device is still known
    m_listening = false;
    m_ears.stop();
}

/// The device that is open, or would be.
QByteArray JoinControl::device() const
{
    using Kind = sound::DeviceChoice::Kind;
    if (!m_ears.openDevice().id.isEmpty())
        return m_ears.openDevice().id;
    if (m_setup.sound.kind == Kind::device)
        return m_setup.sound.id;
    const auto& all = m_ears.devices();
    if (m_setup.sound.kind != Kind::standard || all.isEmpty())
        return {};
    const auto standard = std::find_if(all.begin(), all.end(), [](const auto& each) { return each.standard; });
    return standard == all.end() ? all.front().id : standard->id;
}

bool JoinControl::isAsChecked(const UsualStore::Spot& spot) const
{
    const auto volume = m_ears.inputVolume();
    return !volume || spot.inputVolume < 0 || std::abs(*volume - spot.inputVolume) <= kSameVolume;
}

/// What is known of this person at this device, for judging.
void JoinControl::useSpot()
{
    const auto& welcome = m_line.welcome();
    const auto spot = welcome ? m_usuals.find(welcome->person, device()) : std::nullopt;
    m_model.meter().setUsuals(spot ? spot->usuals : std::map<TaskKind, UsualLevel>{});
    if (spot)
        m_model.meter().setRoom(spot->roomDbfsA);
}

/// What the mic check found, once.
void JoinControl::keepCheck()
{
    const auto& welcome = m_line.welcome();
    const auto found = m_model.check().usualDbfsA();
    if (!welcome || !found)
        return;
    UsualStore::Spot spot = m_usuals.find(welcome->person, device()).value_or(UsualStore::Spot{});
    UsualLevel& phrases = spot.usuals[TaskKind::phrases];
    if (isAsChecked(spot)) {
        phrases = withValue(phrases, *found, m_line.relayNow());
    } else {
        const UsualLevel moved = withRecheck(withSetupChanged(phrases), *found, m_line.relayNow());
        spot.usuals = {{TaskKind::phrases, moved}}; // of the other tasks nobody knows by how much: learnt anew
    }
    spot.roomDbfsA = m_model.check().roomDbfsA();
    spot.inputVolume = m_ears.inputVolume().value_or(-1.0F);
    m_usuals.keep(welcome->person, device(), spot);
    useSpot();
}

/// What was learnt in class, where there was a mic check to build upon.
void JoinControl::keepLearnt()
{
    const auto& welcome = m_line.welcome();
    auto spot = welcome ? m_usuals.find(welcome->person, device()) : std::nullopt;
    if (!spot || m_model.meter().usuals().empty())
        return;
    spot->usuals = m_model.meter().usuals();
    m_usuals.keep(welcome->person, device(), *spot);
}

void JoinControl::showDevices()
{
    QStringList names;
    int chosen = 0;
    for (const sound::DeviceInfo& each : m_ears.devices()) {
        if (each.id == device())
            chosen = static_cast<int>(names.size());
        names.append(each.name);
    }
    m_model.devicesAre(names, chosen);
}

void JoinControl::chooseDevice(int chosen)
{
    if (chosen < 0 || chosen >= m_ears.devices().size())
        return;
    m_setup.sound = sound::DeviceChoice::deviceOf(m_ears.devices()[chosen].id);
    m_model.checkAgain();
    m_ears.start(m_setup.sound);
    useSpot();
    showDevices();
    render();
}

void JoinControl::leave()
{
    stopListening();
    m_line.close();
    emit left();
}

void JoinControl::render()
{
    if (m_room)
        m_room->setState(m_model.view(&m_follow));
}

} // namespace vh::join
