#pragma once
// Where sound comes from: one class per kind of source, all delivering mono float samples (full scale 1.0) at their own
// rate to a sink, on a thread of their own. Created, started, stopped and destroyed on the GUI thread.
#include "app/sound/device_choice.h"
#include "common/base/result.h"

#include <QVector>

#include <chrono>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>

namespace vh::sound
{

/// Takes samples on the source's thread. Implementations allocate nothing, lock nothing, log nothing.
class SampleSink
{
public:
    SampleSink() = default;
    SampleSink(const SampleSink&) = delete;
    SampleSink& operator=(const SampleSink&) = delete;
    virtual ~SampleSink() = default;
    virtual void take(std::span<const float> samples) noexcept = 0;
};

enum class SourceHealth : std::uint8_t {
    good,   ///< opening, or delivering
    failed, ///< the system closed it; nothing more will come
    ended,  ///< a file has been heard to its end
};

class SoundSource
{
public:
    SoundSource() = default;
    SoundSource(const SoundSource&) = delete;
    SoundSource& operator=(const SoundSource&) = delete;
    /// Stops it.
    virtual ~SoundSource() = default;

    /// Known before start; never changes.
    [[nodiscard]] virtual int sampleRateHz() const = 0;
    /// The sink outlives the source's stop(). Opening goes on behind; it shows in health() and in the samples.
    virtual void start(SampleSink& sink) = 0;
    /// When it returns, no sample is on its way and the device is released.
    virtual void stop() = 0;
    [[nodiscard]] virtual SourceHealth health() const = 0;
    /// With Pace::byHand: hands the next samples to the sink, on the caller's thread.
    virtual void advance(std::chrono::milliseconds /*by*/) {}
};

/// The microphones of a machine. One implementation for Qt Multimedia, one for machines without sound; tests have
/// theirs.
class SoundBackend
{
public:
    SoundBackend() = default;
    SoundBackend(const SoundBackend&) = delete;
    SoundBackend& operator=(const SoundBackend&) = delete;
    virtual ~SoundBackend() = default;

    /// What is plugged in now. Cheap enough for once a second.
    [[nodiscard]] virtual QVector<DeviceInfo> devices() = 0;
    /// Null when it is gone.
    [[nodiscard]] virtual std::unique_ptr<SoundSource> openDevice(const QByteArray& id) = 0;
    /// How the system scales the samples (1: not at all), where it says so.
    [[nodiscard]] virtual std::optional<float> inputVolume(const QByteArray& id) = 0;
};

std::unique_ptr<SoundBackend> makeQtBackend();
std::unique_ptr<SoundBackend> makeNullBackend();

/// What the whole system plays, as the sound server's standard output hands it on; Qt hides such sources. Brings
/// nothing while nothing plays; fails where there is no such server.
std::unique_ptr<SoundSource> makeMonitorSource();

/// WAV and whatever else libsndfile reads; several channels are averaged. Fails when it cannot be opened, is empty, or
/// has a rate the resampler does not take.
Result<std::unique_ptr<SoundSource>> openFile(const QString& path, Pace pace);

} // namespace vh::sound
