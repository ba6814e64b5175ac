#pragma once
// A class over the real relay as a process, a home behind a line with bad days (tests/stage/slow_line.h: RTT 80 ms, 2 %
// of segments hold all for 300 ms, one stall of 3 s): for a minute, how far the home's loudspeaker is behind the
// leader's microphone. Their whole controls, from file to file; no device's own latency is in it. Needs a QApplication.
#include "tests/bench/bench_figure.h"

#include <QString>

namespace vh::bench
{

/// False, with a comment line, where no class came about.
bool aMinuteOnABadLine(const QString& voice, Figures& figures);

} // namespace vh::bench
