#pragma once
// Two rooms on one sound server's clock: a null sink whose left channel is the leader's room and whose right one is a
// home. A witness records both at once, so that what is heard there can be compared with what was said here, sample by
// sample. Linux with PulseAudio. One at a time.
#include "tests/app/sound/sound_server.h"

#include <pulse/simple.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <thread>
#include <vector>

namespace vh::bench
{

using Micros = std::chrono::microseconds;

inline Micros steadyNow()
{
    return std::chrono::duration_cast<Micros>(std::chrono::steady_clock::now().time_since_epoch());
}

class TwoRooms
{
public:
    bool start()
    {
        return m_server.start({
            "module-null-sink sink_name=rooms rate=48000 channels=2",
            "module-remap-sink sink_name=leader master=rooms channels=1 master_channel_map=front-left "
            "channel_map=mono remix=no",
            "module-remap-sink sink_name=home master=rooms channels=1 master_channel_map=front-right "
            "channel_map=mono remix=no",
            "module-remap-source source_name=leadermic master=rooms.monitor channels=1 master_channel_map=front-left "
            "channel_map=mono remix=no",
            "module-remap-source source_name=homemic master=rooms.monitor channels=1 master_channel_map=front-right "
            "channel_map=mono remix=no",
        });
    }
    sound::SoundServer& server() { return m_server; }

private:
    sound::SoundServer m_server;
};

/// Records both channels in pieces of 5 ms, with the moment at which each came.
class Witness
{
public:
    explicit Witness(double seconds) : m_most(static_cast<std::size_t>(seconds * 48'000))
    {
        left.reserve(m_most);
        right.reserve(m_most);
        m_thread = std::thread([this] { run(); });
    }
    ~Witness() { stop(); }
    void stop()
    {
        m_stop = true;
        if (m_thread.joinable())
            m_thread.join();
    }

    /// When the sample of this index sounded. A null sink mixes a block when its first sample is due, and all of the
    /// block comes here at once: so what came latest for its index came with its own time. The 95th percentile, against
    /// the machine's hiccups.
    [[nodiscard]] double soundedAtMicros(double index) const { return m_zero + index * 1e6 / 48'000; }
    void fit()
    {
        std::vector<double> zeros;
        for (const auto& [at, index] : m_came)
            zeros.push_back(static_cast<double>(at.count()) - static_cast<double>(index) * 1e6 / 48'000);
        std::sort(zeros.begin(), zeros.end());
        m_zero = zeros[zeros.size() * 95 / 100];
        spreadMs = (zeros[zeros.size() * 95 / 100] - zeros[zeros.size() * 5 / 100]) / 1000;
    }

    std::vector<float> left;
    std::vector<float> right;
    double spreadMs = 0; ///< of the moments of arrival: how sure the fit is

private:
    void run()
    {
        const pa_sample_spec format{PA_SAMPLE_FLOAT32NE, 48'000, 2};
        const auto unset = static_cast<std::uint32_t>(-1);
        const pa_buffer_attr pieces{unset, unset, unset, unset, 240 * 2 * sizeof(float)};
        pa_simple* const line = pa_simple_new(nullptr, "witness", PA_STREAM_RECORD, "rooms.monitor", "both", &format,
                                              nullptr, &pieces, nullptr);
        std::vector<float> piece(2 * 240);
        while (line && !m_stop && left.size() + 240 <= m_most &&
               pa_simple_read(line, piece.data(), piece.size() * sizeof(float), nullptr) == 0) {
            m_came.emplace_back(steadyNow(), left.size());
            for (std::size_t i = 0; i < piece.size(); i += 2) {
                left.push_back(piece[i]);
                right.push_back(piece[i + 1]);
            }
        }
        if (line)
            pa_simple_free(line);
    }

    std::size_t m_most;
    std::vector<std::pair<Micros, std::size_t>> m_came;
    double m_zero = 0;
    std::atomic<bool> m_stop{false};
    std::thread m_thread;
};

} // namespace vh::bench
