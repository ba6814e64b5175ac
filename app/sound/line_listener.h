#pragma once
// Who else hears a microphone besides its meter: the sender of a voice, a watch for a second copy of the leader's.
#include <span>

namespace vh::sound
{

class LineListener
{
public:
    LineListener() = default;
    LineListener(const LineListener&) = delete;
    LineListener& operator=(const LineListener&) = delete;
    virtual ~LineListener() = default;

    /// The microphone has been opened, maybe not for the first time: a gap of unknown length lies before what comes.
    /// On the thread that opens it, before the first hear().
    virtual void opened() {}
    /// On the line's worker (with Pace::byHand: the caller's thread). Both mono at 48 kHz and equally long; the far end
    /// is all zeros where nothing is played. Allocates nothing, locks nothing, logs nothing.
    virtual void hear(std::span<const float> microphone, std::span<const float> farEnd) noexcept = 0;
};

} // namespace vh::sound
