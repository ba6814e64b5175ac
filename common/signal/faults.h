#pragma once
// Two plain faults of a microphone line: overdriven, and dead. Fed with whole 10 ms frames of unweighted samples,
// full scale = 1.0. Thread: one.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <span>

namespace vh
{

/// Overdriven: a run of 3 or more neighbouring samples at 0.985 of full scale or beyond (common practice: single
/// samples at the rail are chance, a run is a flat top). A sound card that clips well below full scale is not noticed.
class ClippingDetector
{
public:
    static constexpr float kRail = 0.985F;
    static constexpr int kRun = 3;
    /// IEC 61672-1:2013 5.11: an overload is shown for at least 1 s.
    static constexpr int kShownFrames = 100;

    /// True when a run ended or went on in this frame.
    bool push(std::span<const float> frame)
    {
        bool clipped = false;
        for (const float sample : frame) {
            m_run = std::abs(sample) >= kRail ? m_run + 1 : 0;
            clipped |= m_run >= kRun;
        }
        m_run = std::min(m_run, kRun);
        m_sinceFrames = clipped ? 0 : std::min(m_sinceFrames + 1, kNever);
        m_sinceRestart |= clipped;
        return clipped;
    }
    /// For the display: clipped now or within the last second.
    [[nodiscard]] bool shown() const { return m_sinceFrames <= kShownFrames; }
    /// Clipped within the last `frames` frames (0: the last frame itself).
    [[nodiscard]] bool within(int frames) const { return m_sinceFrames <= frames; }
    /// Latched for Leq until restart().
    [[nodiscard]] bool sinceRestart() const { return m_sinceRestart; }
    void restart() { m_sinceRestart = false; }

private:
    static constexpr int kNever = 1 << 20;
    int m_run = 0;
    int m_sinceFrames = kNever;
    bool m_sinceRestart = false;
};

/// Dead: samples that do not move by even half a step of a 16-bit converter. No microphone is that quiet; a muted or
/// missing one is. Short dead stretches happen (a device starting up, a noise gate), so noSignal waits for a second.
class DeadLineDetector
{
public:
    static constexpr float kStillRange = 1.0F / 65536;
    static constexpr int kNoSignalFrames = 100;

    void push(std::span<const float> frame)
    {
        float lowest = frame.empty() ? 0.0F : frame.front();
        float highest = lowest;
        for (const float sample : frame) {
            lowest = std::min(lowest, sample);
            highest = std::max(highest, sample);
        }
        m_stillFrames = highest - lowest < kStillRange ? std::min(m_stillFrames + 1, kNoSignalFrames) : 0;
    }
    /// The last frame did not move.
    [[nodiscard]] bool still() const { return m_stillFrames > 0; }
    /// Nothing has moved for a second.
    [[nodiscard]] bool noSignal() const { return m_stillFrames >= kNoSignalFrames; }

private:
    int m_stillFrames = 0;
};

} // namespace vh
