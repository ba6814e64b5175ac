#pragma once
// Whose sound a frame is, and how much of it is the loudspeaker's. It knows, in A-weighted mean squares of 10 ms, what
// the far end is expected to be in the microphone (`echo`) and what is left after that was taken away (`rest`), and
// learns how much of an echo usually remains. In short:
//  - what is 6 dB louder than the whole echo can be is the person's, whatever remains;
//  - what is no louder than what usually remains is the loudspeaker's;
//  - between them it is the person's only if it is no copy of the echo (coherence), and trusted only if what remains is
//    7 dB below it. Agreement of pitch says nothing either way.
// Thread: one. The figures: trial on the proving ground, no published source.
#include "common/signal/voice_frame.h"

namespace vh
{

/// Follows a ratio's upper end: nine of ten lie below. Decibels.
class UpperEnd
{
public:
    explicit UpperEnd(double fromDb) : m_db(fromDb), m_from(fromDb) {}
    void push(double db);
    void restart() { *this = UpperEnd(m_from); }
    [[nodiscard]] double db() const { return m_db; }
    [[nodiscard]] double ratio() const;

private:
    double m_db;
    double m_from;
    int m_count = 0;
};

class LeakJudge
{
public:
    struct Frame {
        double rest = 0;       ///< what the meter heard
        double echo = 0;       ///< expected in it before removal
        double echoAtMost = 0; ///< the same by loudness alone, which a filter that has not heard all yet does not know
        double room = 0;       ///< the room alone
        double coherence = 0;  ///< of rest with echo
        bool removed = false;  ///< the echo was taken away
        bool voiced = false;
    };
    struct Verdict {
        Whose whose = Whose::room;
        double leak = 0;      ///< of rest, as estimated
        bool trusted = true;  ///< the level may be shown
        bool person = false;  ///< louder than the whole echo: certainly not the loudspeaker
        bool surely = false;  ///< the loudspeaker and nothing else
        bool changed = false; ///< a copy of the echo where it should have gone: the way has changed
    };

    Verdict push(const Frame& frame);
    void restart();

private:
    void learn(const Frame& frame, double echo);

    UpperEnd m_remains{0};
    double m_rest = 0; ///< smoothed
    double m_echo = 0;
    double m_most = 0; ///< of echoAtMost, dying away
    double m_tail = 0; ///< dies away as a room does
    int m_quiet = 0;   ///< frames since there was more than an echo
};

} // namespace vh
