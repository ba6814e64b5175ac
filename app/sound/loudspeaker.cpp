#include "app/sound/loudspeaker.h"
#include "app/sound/played_clock.h"

#include <QCoreApplication>

#include <algorithm>
#include <atomic>
#include <utility>

namespace vh::sound
{

namespace
{

constexpr Millis kLook{100};
constexpr Millis kLookForDevices{1000}; // Qt's own signals do not come (tried with 6.4)
constexpr std::uint64_t kAhead = 9'600; // twice what an output is filled with before the first of it sounds

bool isDevice(const DeviceChoice& choice)
{
    return choice.kind == DeviceChoice::Kind::standard || choice.kind == DeviceChoice::Kind::device;
}

PlayedClock::Micros now()
{
    return std::chrono::duration_cast<PlayedClock::Micros>(std::chrono::steady_clock::now().time_since_epoch());
}

LoudspeakerState stateOf(EarsState seen)
{
    switch (seen) {
    case EarsState::off:
    case EarsState::fileEnded:
        return LoudspeakerState::off;
    case EarsState::opening:
        return LoudspeakerState::opening;
    case EarsState::hearing:
        return LoudspeakerState::playing;
    case EarsState::deviceLost:
        return LoudspeakerState::deviceLost;
    case EarsState::noDevice:
        return LoudspeakerState::noDevice;
    case EarsState::fileBad:
        return LoudspeakerState::fileBad;
    }
    return LoudspeakerState::off;
}

} // namespace

QString wordsOf(LoudspeakerState state)
{
    switch (state) {
    case LoudspeakerState::off:
        return QCoreApplication::translate("loudspeaker", "The loudspeaker is off.");
    case LoudspeakerState::opening:
        return QCoreApplication::translate("loudspeaker", "Turning the loudspeaker on.");
    case LoudspeakerState::playing:
        return QCoreApplication::translate("loudspeaker", "The loudspeaker is on.");
    case LoudspeakerState::deviceLost:
        return QCoreApplication::translate(
            "loudspeaker", "The loudspeaker or headphones are gone. Please plug them in again, or use others.");
    case LoudspeakerState::noDevice:
        return QCoreApplication::translate("loudspeaker",
                                           "No loudspeaker was found. Once one is plugged in, it is used.");
    case LoudspeakerState::fileBad:
        return QCoreApplication::translate("loudspeaker", "The sound file could not be written.");
    }
    return {};
}

/// From the voices to the device and to the far end; counts. Lives through all openings.
class Loudspeaker::Feed final : public SampleFeed
{
public:
    Feed(VoiceFeed& voices, FarEnd& farEnd) : m_voices(voices), m_farEnd(farEnd) {}

    void render(std::span<float> into, std::chrono::microseconds untilHeard) noexcept override
    {
        m_voices.render(into);
        m_farEnd.hand(into);
        m_clock.note(now(), into.size(), untilHeard, m_voices.renderedUpTo());
        m_handed.fetch_add(into.size(), std::memory_order_relaxed);
    }

    void restart() // while no output runs
    {
        m_clock.restart();
        m_handed = 0;
    }
    [[nodiscard]] std::uint64_t handed() const { return m_handed.load(std::memory_order_relaxed); }
    [[nodiscard]] HeardUpTo renderedUpTo() const { return m_voices.renderedUpTo(); }
    PlayedClock& clock() { return m_clock; }

private:
    VoiceFeed& m_voices;
    FarEnd& m_farEnd;
    PlayedClock m_clock;
    std::atomic<std::uint64_t> m_handed{0};
};

Loudspeaker::Loudspeaker(VoiceFeed& feed, std::shared_ptr<FarEnd> farEnd, QObject* parent)
    : Loudspeaker(feed, std::move(farEnd), makeQtOutputs(), parent)
{
}

Loudspeaker::Loudspeaker(VoiceFeed& feed, std::shared_ptr<FarEnd> farEnd, std::unique_ptr<OutputBackend> backend,
                         QObject* parent)
    : QObject(parent), m_backend(std::move(backend)), m_farEnd(std::move(farEnd)),
      m_feed(std::make_unique<Feed>(feed, *m_farEnd))
{
    connect(&m_lookTimer, &QTimer::timeout, this, &Loudspeaker::look);
    connect(&m_devicesTimer, &QTimer::timeout, this, &Loudspeaker::lookForDevices);
    m_devices = m_backend->devices();
    m_devicesTimer.start(kLookForDevices);
}

Loudspeaker::~Loudspeaker()
{
    closeOutput();
}

void Loudspeaker::start(const DeviceChoice& choice)
{
    closeOutput();
    m_choice = choice;
    m_watch.begin(m_clock.now());
    if (isDevice(choice)) {
        m_lookTimer.start(kLook);
        lookForDevices();
        setState(LoudspeakerState::opening);
        look();
        return;
    }
    m_lookTimer.stop();
    if (choice.kind == DeviceChoice::Kind::none) {
        setState(LoudspeakerState::noDevice);
        return;
    }
    auto file = openOutputFile(choice.file, choice.pace);
    if (file)
        openOutput(std::move(*file));
    setState(file ? LoudspeakerState::playing : LoudspeakerState::fileBad);
}

void Loudspeaker::stop()
{
    m_lookTimer.stop();
    m_watch.end();
    closeOutput();
    setState(LoudspeakerState::off);
}

void Loudspeaker::look()
{
    const auto device = wanted();
    SourceWatch::Seen seen;
    seen.now = m_clock.now();
    seen.open = m_output != nullptr;
    seen.present = seen.open ? std::any_of(m_devices.begin(), m_devices.end(),
                                           [this](const DeviceInfo& each) { return each.id == m_open.id; })
                             : device.has_value();
    if (m_output) {
        seen.health = m_output->health();
        seen.samples = m_feed->handed();
        seen.ahead = kAhead;
    }
    const SourceWatch::Do what = m_watch.look(seen);
    if (what == SourceWatch::Do::close) {
        closeOutput();
    } else if (what == SourceWatch::Do::open) {
        openWanted();
    } else if (m_output && device && device->id != m_open.id) { // the chosen one is back, or the standard is another
        closeOutput();
        openWanted();
        m_watch.opened(seen.now);
    }
    setState(stateOf(m_watch.state()));
}

void Loudspeaker::lookForDevices()
{
    const QVector<DeviceInfo> devices = m_backend->devices();
    if (devices == m_devices)
        return;
    m_devices = devices;
    emit devicesChanged();
}

std::optional<DeviceInfo> Loudspeaker::wanted() const
{
    const auto find = [this](auto&& fits) {
        const auto found = std::find_if(m_devices.begin(), m_devices.end(), fits);
        return found == m_devices.end() ? std::nullopt : std::optional<DeviceInfo>(*found);
    };
    if (m_choice.kind == DeviceChoice::Kind::device) {
        if (const auto chosen = find([&](const DeviceInfo& device) { return device.id == m_choice.id; }))
            return chosen;
    }
    const auto standard = find([](const DeviceInfo& device) { return device.standard; });
    return standard ? standard : find([](const DeviceInfo&) { return true; });
}

void Loudspeaker::openWanted()
{
    const auto device = wanted();
    if (!device)
        return;
    auto output = m_backend->openDevice(device->id);
    if (!output)
        return; // gone since the last look; tried again in a second
    m_open = *device;
    openOutput(std::move(output));
}

void Loudspeaker::openOutput(std::unique_ptr<SoundOutput> output)
{
    m_feed->restart();
    m_output = std::move(output);
    m_output->start(*m_feed);
}

void Loudspeaker::closeOutput()
{
    if (m_output)
        m_output->stop();
    m_output.reset();
    m_open = {};
}

HeardUpTo Loudspeaker::audibleUpTo()
{
    if (!m_output)
        return {};
    return m_choice.pace == Pace::byHand ? m_feed->renderedUpTo() : m_feed->clock().heardUpTo(now());
}

std::optional<std::chrono::milliseconds> Loudspeaker::latency() const
{
    if (!m_output || m_feed->handed() == 0)
        return std::nullopt;
    return std::chrono::duration_cast<std::chrono::milliseconds>(m_feed->clock().latency());
}

void Loudspeaker::advance(std::chrono::milliseconds by)
{
    if (m_output && m_choice.pace == Pace::byHand)
        m_output->advance(by);
}

void Loudspeaker::setState(LoudspeakerState state)
{
    if (state == m_state)
        return;
    m_state = state;
    emit stateChanged(state);
}

} // namespace vh::sound
