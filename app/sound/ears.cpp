#include "app/sound/ears.h"
#include "app/sound/sound_line.h"
#include "app/sound/sound_source.h"

#include <QCoreApplication>

#include <algorithm>
#include <utility>

namespace vh::sound
{

namespace
{

constexpr Millis kLook{100};
constexpr Millis kLookForDevices{1000}; // Qt's own signals do not come (tried with 6.4)

bool isMicrophone(const DeviceChoice& choice)
{
    return choice.kind == DeviceChoice::Kind::standard || choice.kind == DeviceChoice::Kind::device;
}

} // namespace

QString wordsOf(EarsState state)
{
    switch (state) {
    case EarsState::off:
        return QCoreApplication::translate("ears", "The microphone is off.");
    case EarsState::opening:
        return QCoreApplication::translate("ears", "Turning the microphone on.");
    case EarsState::hearing:
        return QCoreApplication::translate("ears", "The microphone is on.");
    case EarsState::deviceLost:
        return QCoreApplication::translate("ears",
                                           "No sound comes from the microphone any more. Is it still plugged in?");
    case EarsState::noDevice:
        return QCoreApplication::translate("ears", "No microphone was found. Once one is plugged in, it is used.");
    case EarsState::fileEnded:
        return QCoreApplication::translate("ears", "The sound file has been heard to its end.");
    case EarsState::fileBad:
        return QCoreApplication::translate("ears", "The sound file could not be read.");
    }
    return {};
}

Ears::Ears(QObject* parent) : Ears(makeQtBackend(), parent) {}

Ears::Ears(std::unique_ptr<SoundBackend> backend, QObject* parent) : QObject(parent), m_backend(std::move(backend))
{
    connect(&m_lookTimer, &QTimer::timeout, this, &Ears::look);
    connect(&m_devicesTimer, &QTimer::timeout, this, &Ears::lookForDevices);
    m_devices = m_backend->devices();
    m_devicesTimer.start(kLookForDevices);
}

Ears::~Ears()
{
    closeSource();
}

void Ears::start(const DeviceChoice& choice)
{
    closeSource();
    m_left.clear();
    m_framesBefore = 0;
    m_droppedBefore = 0;
    m_choice = choice;
    m_watch.begin(m_clock.now());
    m_lookTimer.start(kLook);
    if (isMicrophone(choice)) {
        lookForDevices();
        setState(EarsState::opening);
        look();
        return;
    }
    if (choice.kind == DeviceChoice::Kind::none) {
        m_lookTimer.stop();
        setState(EarsState::noDevice);
        return;
    }
    auto file = openFile(choice.file, choice.pace);
    if (!file) {
        m_lookTimer.stop();
        setState(EarsState::fileBad);
        return;
    }
    setState(EarsState::opening);
    openSource(std::move(*file), choice.pace);
}

void Ears::stop()
{
    m_lookTimer.stop();
    m_watch.end();
    closeSource();
    setState(EarsState::off);
}

void Ears::look()
{
    SourceWatch::Seen seen;
    seen.now = m_clock.now();
    seen.open = m_source != nullptr;
    seen.microphone = isMicrophone(m_choice);
    seen.present = !seen.microphone || wanted().has_value();
    if (m_source) {
        seen.health = m_source->health();
        seen.samples = m_line->samplesTaken();
    }
    const SourceWatch::Do what = m_watch.look(seen);
    if (what == SourceWatch::Do::close)
        closeSource();
    else if (what == SourceWatch::Do::open)
        openWanted();
    setState(m_watch.state());
}

void Ears::lookForDevices()
{
    const QVector<DeviceInfo> devices = m_backend->devices();
    if (devices != m_devices) {
        m_devices = devices;
        emit devicesChanged();
    }
    if (!m_open.id.isEmpty())
        setVolume(m_backend->inputVolume(m_open.id));
}

std::optional<DeviceInfo> Ears::wanted() const
{
    const QByteArray& open = m_open.id; // what is open stays, even when another becomes the standard one
    const auto find = [this](auto&& fits) {
        const auto found = std::find_if(m_devices.begin(), m_devices.end(), fits);
        return found == m_devices.end() ? std::nullopt : std::optional<DeviceInfo>(*found);
    };
    if (!open.isEmpty())
        return find([&](const DeviceInfo& device) { return device.id == open; });
    if (m_choice.kind == DeviceChoice::Kind::device) {
        const auto chosen = find([&](const DeviceInfo& device) { return device.id == m_choice.id; });
        if (chosen || m_whenGone == WhenGone::wait)
            return chosen;
    }
    const auto standard = find([](const DeviceInfo& device) { return device.standard; });
    return standard ? standard : find([](const DeviceInfo&) { return true; });
}

void Ears::openWanted()
{
    const auto device = wanted();
    if (!device)
        return;
    auto source = m_backend->openDevice(device->id);
    if (!source)
        return; // gone since the last look; tried again in a second
    m_open = *device;
    if (!m_pathOf.isEmpty() && m_pathOf != m_open.id)
        m_path.reset(); // another microphone stands elsewhere
    setVolume(m_backend->inputVolume(m_open.id));
    openSource(std::move(source), Pace::realTime);
}

void Ears::openSource(std::unique_ptr<SoundSource> source, Pace pace)
{
    const auto work = pace == Pace::byHand ? SoundLine::Work::atOnce : SoundLine::Work::onWorker;
    m_line =
        std::make_unique<SoundLine>(source->sampleRateHz(), work, SoundLine::Attached{m_farEnd, m_path, m_listeners});
    m_source = std::move(source);
    m_source->start(*m_line);
}

void Ears::closeSource()
{
    if (m_source)
        m_source->stop();
    m_source.reset();
    if (m_line) {
        m_line->finish();
        m_line->drain([this](const VoiceFrame& frame) {
            if (m_left.size() < FrameQueue::kCapacity)
                m_left.push_back(frame);
            else
                ++m_droppedBefore;
        });
        m_path = echoPath();
        m_pathOf = m_open.id;
        m_framesBefore += m_line->snapshot().frameCount;
        m_droppedBefore += m_line->droppedFrames();
        m_line.reset();
    }
    m_open = {};
    setVolume(std::nullopt);
}

MeterSnapshot Ears::snapshot() const
{
    if (!m_line)
        return {};
    MeterSnapshot snapshot = m_line->snapshot();
    if (snapshot.frameCount > 0)
        snapshot.frameCount += m_framesBefore;
    return snapshot;
}

std::optional<EchoPath> Ears::echoPath() const
{
    if (m_line) {
        const MeterSnapshot snapshot = m_line->snapshot();
        if (snapshot.pathKnown)
            return snapshot.path;
    }
    return m_path;
}

void Ears::drainFrames(const std::function<void(const VoiceFrame&)>& sink)
{
    for (const VoiceFrame& frame : std::exchange(m_left, {}))
        sink(frame);
    if (m_line)
        m_line->drain(sink);
}

std::uint64_t Ears::droppedFrames() const
{
    return m_droppedBefore + (m_line ? m_line->droppedFrames() : 0);
}

void Ears::advance(std::chrono::milliseconds by)
{
    if (!m_source || m_choice.pace != Pace::byHand)
        return;
    m_source->advance(by);
    look();
}

void Ears::setState(EarsState state)
{
    if (state == m_state)
        return;
    m_state = state;
    emit stateChanged(state);
}

void Ears::setVolume(std::optional<float> volume)
{
    if (volume == m_volume)
        return;
    m_volume = volume;
    emit inputVolumeChanged();
}

} // namespace vh::sound
