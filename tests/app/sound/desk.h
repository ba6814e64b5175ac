#pragma once
// Microphones and loudspeakers that a test plugs in and out.
#include "app/sound/sound_output.h"
#include "app/sound/sound_source.h"

#include <atomic>
#include <cmath>
#include <numbers>
#include <stop_token>
#include <thread>
#include <vector>

namespace vh::sound
{

/// What a test may do to its microphones, and see of them.
struct Desk {
    QVector<DeviceInfo> plugged;
    std::optional<float> volume = 1.0F;
    std::atomic<int> openStreams{0};
    std::atomic<bool> flowing{true};
    std::atomic<SourceHealth> health{SourceHealth::good};
    QByteArray lastOpened;
};

/// A tone of -26 dB re full scale for as long as the desk lets it flow, from a thread of its own.
class DeskSource final : public SoundSource
{
public:
    explicit DeskSource(Desk& desk) : m_desk(desk) {}
    ~DeskSource() override { halt(); }
    int sampleRateHz() const override { return 48'000; }
    SourceHealth health() const override { return m_desk.health; }
    void stop() override { halt(); }
    void start(SampleSink& sink) override
    {
        ++m_desk.openStreams;
        m_thread = std::jthread([this, &sink](const std::stop_token& stop) {
            std::vector<float> chunk(480);
            const double amplitude = std::sqrt(2 * std::pow(10, -2.6));
            for (std::size_t i = 0; i < chunk.size(); ++i) // ten whole periods of 1 kHz: chunks join without a seam
                chunk[i] = static_cast<float>(amplitude * std::sin(2 * std::numbers::pi * static_cast<double>(i) / 48));
            while (!stop.stop_requested()) {
                if (m_desk.flowing)
                    sink.take(chunk);
                std::this_thread::sleep_for(
                    std::chrono::milliseconds(1)); // faster than real time; nothing here measures time
            }
        });
    }

private:
    void halt()
    {
        if (!m_thread.joinable())
            return;
        m_thread.request_stop();
        m_thread.join();
        --m_desk.openStreams;
    }
    Desk& m_desk;
    std::jthread m_thread;
};

class DeskBackend final : public SoundBackend
{
public:
    explicit DeskBackend(Desk& desk) : m_desk(desk) {}
    QVector<DeviceInfo> devices() override { return m_desk.plugged; }
    std::unique_ptr<SoundSource> openDevice(const QByteArray& id) override
    {
        m_desk.lastOpened = id;
        return std::make_unique<DeskSource>(m_desk);
    }
    std::optional<float> inputVolume(const QByteArray& /*id*/) override { return m_desk.volume; }

private:
    Desk& m_desk;
};

inline const DeviceInfo kBuiltIn{"built-in", "Built-in microphone", true};
inline const DeviceInfo kHeadset{"headset", "Headset", false};

/// What a test may do to its loudspeakers, and see of them.
struct Shelf {
    QVector<DeviceInfo> plugged;
    std::atomic<int> openStreams{0};
    std::atomic<bool> flowing{true};
    std::atomic<SourceHealth> health{SourceHealth::good};
    std::vector<QByteArray> opened;
};

/// Asks for 10 ms every millisecond for as long as the shelf lets it flow, from a thread of its own.
class ShelfOutput final : public SoundOutput
{
public:
    explicit ShelfOutput(Shelf& shelf) : m_shelf(shelf) {}
    ~ShelfOutput() override { halt(); }
    SourceHealth health() const override { return m_shelf.health; }
    void stop() override { halt(); }
    void start(SampleFeed& feed) override
    {
        ++m_shelf.openStreams;
        m_thread = std::jthread([this, &feed](const std::stop_token& stop) {
            std::vector<float> piece(480);
            while (!stop.stop_requested()) {
                if (m_shelf.flowing)
                    feed.render(piece, std::chrono::milliseconds(40));
                std::this_thread::sleep_for(std::chrono::milliseconds(1)); // nothing here measures time
            }
        });
    }

private:
    void halt()
    {
        if (!m_thread.joinable())
            return;
        m_thread.request_stop();
        m_thread.join();
        --m_shelf.openStreams;
    }
    Shelf& m_shelf;
    std::jthread m_thread;
};

class ShelfBackend final : public OutputBackend
{
public:
    explicit ShelfBackend(Shelf& shelf) : m_shelf(shelf) {}
    QVector<DeviceInfo> devices() override { return m_shelf.plugged; }
    std::unique_ptr<SoundOutput> openDevice(const QByteArray& id) override
    {
        m_shelf.opened.push_back(id);
        return std::make_unique<ShelfOutput>(m_shelf);
    }

private:
    Shelf& m_shelf;
};

} // namespace vh::sound
