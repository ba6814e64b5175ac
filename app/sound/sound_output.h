#pragma once
// Where sound goes to: one class per kind of output, all asking a feed for mono float samples (full scale 1.0) at
// 48 kHz, on a thread of their own. Created, started, stopped and destroyed on the GUI thread.
#include "app/sound/sound_source.h"

#include <chrono>
#include <cstdint>
#include <memory>
#include <span>

namespace vh::sound
{

inline constexpr int kPlayedRateHz = 48'000;

/// Gives samples on the output's thread. Implementations allocate nothing, lock nothing, log nothing.
class SampleFeed
{
public:
    SampleFeed() = default;
    SampleFeed(const SampleFeed&) = delete;
    SampleFeed& operator=(const SampleFeed&) = delete;
    virtual ~SampleFeed() = default;

    /// Fills all of it: silence where there is nothing to play. `untilHeard`: about how long until the first of these
    /// samples sounds, as the output knows it.
    virtual void render(std::span<float> into, std::chrono::microseconds untilHeard) noexcept = 0;
};

class SoundOutput
{
public:
    SoundOutput() = default;
    SoundOutput(const SoundOutput&) = delete;
    SoundOutput& operator=(const SoundOutput&) = delete;
    /// Stops it.
    virtual ~SoundOutput() = default;

    /// The feed outlives the output's stop(). Opening goes on behind; it shows in health() and in what is asked for.
    virtual void start(SampleFeed& feed) = 0;
    /// When it returns, nothing more is asked for and the device is released.
    virtual void stop() = 0;
    [[nodiscard]] virtual SourceHealth health() const = 0;
    /// With Pace::byHand: plays on, on the caller's thread.
    virtual void advance(std::chrono::milliseconds /*by*/) {}
};

/// The loudspeakers of a machine. One implementation for Qt Multimedia, one for machines without sound; tests have
/// theirs.
class OutputBackend
{
public:
    OutputBackend() = default;
    OutputBackend(const OutputBackend&) = delete;
    OutputBackend& operator=(const OutputBackend&) = delete;
    virtual ~OutputBackend() = default;

    /// What is plugged in now. Cheap enough for once a second.
    [[nodiscard]] virtual QVector<DeviceInfo> devices() = 0;
    /// Null when it is gone.
    [[nodiscard]] virtual std::unique_ptr<SoundOutput> openDevice(const QByteArray& id) = 0;
};

std::unique_ptr<OutputBackend> makeQtOutputs();
std::unique_ptr<OutputBackend> makeNullOutputs();

/// Writes what is played to a WAV file; to nowhere where the path is empty. It is heard at once: no latency.
Result<std::unique_ptr<SoundOutput>> openOutputFile(const QString& path, Pace pace);

} // namespace vh::sound
