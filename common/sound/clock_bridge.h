#pragma once
// From the leader's sample clock to that of this home's loudspeaker: resampling by a ratio that stands a few hundred
// parts per million beside 1 and moves while sound flows, by libsamplerate's band-limited interpolation. Phase goes on
// through every change of ratio, so there is no jump. 48 kHz mono floats. Allocates at construction only, which throws
// std::runtime_error when the library cannot start. Thread: one.
#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>

struct SRC_STATE_tag;

namespace vh
{

class ClockBridge
{
public:
    ClockBridge();

    /// Samples taken in for each one given out, less 1: +100e-6 plays 100 ppm faster. Held within +-1 %.
    void setSpeed(double speed);
    [[nodiscard]] double speed() const { return m_speed; }

    /// Fills `out`; calls next() for the next piece of sound, never empty, whenever it has none left. The piece must
    /// live until next() is called again.
    template <class Next>
    void pull(std::span<float> out, Next&& next)
    {
        while (!out.empty()) {
            if (m_piece.empty()) {
                m_piece = next();
                m_taken += static_cast<double>(m_piece.size());
            }
            out = out.subspan(convert(out));
        }
    }
    /// Samples taken in so far, and where in that count what was given out ends.
    [[nodiscard]] double taken() const { return m_taken; }
    [[nodiscard]] double given() const { return m_given; }
    [[nodiscard]] double lag() const { return m_taken - m_given; }

private:
    /// From the front of the piece into the front of `out`: how many came out.
    std::size_t convert(std::span<float> out);

    struct Closer {
        void operator()(SRC_STATE_tag* state) const;
    };
    std::unique_ptr<SRC_STATE_tag, Closer> m_state;
    std::span<const float> m_piece;
    double m_speed = 0;
    double m_taken = 0;
    double m_given = 0;
};

} // namespace vh
