#pragma once
// Decides what to say and do about an input or output, from what is seen of it: a state machine without devices, so
// that every turn of it can be tested. Looked at about ten times a second. One thread.
#include "app/sound/ears_state.h"
#include "app/sound/sound_source.h"
#include "common/base/clock.h"

namespace vh::sound
{

class SourceWatch
{
public:
    /// Sound that stays away this long is lost.
    static constexpr Millis kSilentLine{500};
    /// A device may take this long to bring its first sample (22 to 175 ms were seen).
    static constexpr Millis kFirstSample{2000};
    /// A lost device is tried again at once, but it, or another in its place, is not opened more often than this.
    static constexpr Millis kTryAgain{1000};

    struct Seen {
        Instant now;
        bool open = false;                        ///< a source is open
        bool microphone = true;                   ///< not a file: a file may rest, and is no loss then
        bool present = false;                     ///< the wanted device is in the list of devices
        SourceHealth health = SourceHealth::good; ///< of the open source
        std::uint64_t samples = 0;                ///< taken from the open source
        std::uint64_t ahead = 0;                  ///< so many of these say nothing yet: an output's own buffer
    };
    enum class Do { nothing, open, close };

    /// Listening begins: a device is wanted.
    void begin(Instant now);
    void end() { m_state = EarsState::off; }
    /// One look. After `open` or `close` the caller does so and looks again when it likes.
    Do look(const Seen& seen);
    /// The caller has opened another device than the one that was open, of its own accord.
    void opened(Instant now);
    [[nodiscard]] EarsState state() const { return m_state; }

private:
    Do lose(const Seen& seen);
    Do tryToOpen(const Seen& seen);

    EarsState m_state = EarsState::off;
    bool m_heardSinceBegin = false;
    std::uint64_t m_samples = 0; ///< at the last look
    Instant m_lastSound{};       ///< or the moment of opening
    Instant m_nextTry{};
};

} // namespace vh::sound
