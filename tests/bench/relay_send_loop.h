#pragma once
// What a send() costs by itself: connected pairs made beforehand, one process that sends the same bytes to all of them
// at the class's pace, another that reads them. No epoll, no readings, no upgrade on the sending side.
#include <cstddef>

namespace vh::bench
{

enum class Pairs { tcp, local };

/// Microseconds of processor for each send; the sender runs on `senderCore`, the reader on `readerCore`.
double sendLoopMicros(Pairs kind, std::size_t count, double seconds, int senderCore, int readerCore);

} // namespace vh::bench
