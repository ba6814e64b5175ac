// What the participant's room does with the microphone: when it is open, which one it is, and what is known of it.
#include "app/join/join_control.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace vh::join
{

namespace
{

/// How far an input volume may be off before levels are not comparable: 2 % is 0.2 dB.
constexpr float kSameVolume = 0.02F;

} // namespace

void JoinControl::listen()
{
    if (std::exchange(m_listening, true))
        return;
    openEars();
    const auto& welcome = m_line.welcome();
    showDevices();
    const auto spot = welcome ? m_usuals.find(welcome->person, device()) : std::nullopt;
    if (spot && !isAsChecked(*spot)) {
        m_model.checkAgain();
        m_model.volumeIsOther();
    }
}

void JoinControl::stopListening()
{
    if (!m_listening)
        return;
    keepLearnt(); // while the device is still known
    m_listening = false;
    m_checkSound.stop();
    m_sound.endSending(); // not a frame after this
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
    m_model.meter().setPeople(spot ? spot->people : 1);
    m_model.meter().setCalibration(spot && spot->calibration ? std::optional(spot->calibration->offsetDb)
                                                             : std::nullopt);
}

/// Everything that the microphone brought since the last time.
void JoinControl::hearFrames()
{
    if (!m_model.check().isPlaying()) {
        m_checkSound.stop();
        m_ears.drainFrames([this](const VoiceFrame& frame) { m_model.frame(frame); });
        return;
    }
    VoiceFrame newest = m_ears.snapshot().frame;
    m_ears.drainFrames([&](const VoiceFrame& frame) { newest = frame; });
    m_checkSound.drain(
        [&](const CheckSound::Heard& heard) { m_model.checkPlayed(newest, heard.microphone, heard.played); });
}

/// By the chosen loudspeaker; where a file is the microphone, there is no air between them.
void JoinControl::playCheck()
{
    using Kind = sound::DeviceChoice::Kind;
    const bool isFile = m_setup.sound.kind == Kind::file;
    m_model.playingBegins(m_checkSound.layout());
    m_checkSound.start(isFile ? sound::DeviceChoice::fileOf({}, m_setup.sound.pace) : m_setup.loudspeaker);
}

/// What the mic check found, once.
void JoinControl::keepCheck()
{
    const auto& welcome = m_line.welcome();
    const CheckFacts& facts = m_model.check().full().facts();
    if (!welcome || !facts.usualDbfsA)
        return;
    UsualStore::Spot spot = m_usuals.find(welcome->person, device()).value_or(UsualStore::Spot{});
    UsualLevel& phrases = spot.usuals[TaskKind::phrases];
    if (isAsChecked(spot)) {
        phrases = withValue(phrases, *facts.usualDbfsA, m_line.relayNow());
    } else {
        const UsualLevel moved = withRecheck(withSetupChanged(phrases), *facts.usualDbfsA, m_line.relayNow());
        spot.usuals = {{TaskKind::phrases, moved}}; // of the other tasks nobody knows by how much: learnt anew
        spot.calibration.reset();
    }
    spot.roomDbfsA = facts.roomDbfsA.value_or(spot.roomDbfsA);
    spot.inputVolume = m_ears.inputVolume().value_or(-1.0F);
    spot.people = facts.people;
    if (const auto path = m_ears.echoPath())
        spot.path = path;
    if (m_model.check().calibration())
        spot.calibration = m_model.check().calibration();
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
    openEars();
    useSpot();
    showDevices();
    render();
}

} // namespace vh::join
