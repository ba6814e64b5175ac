#pragma once
// speexdsp's JitterBuffer in the place of ours, driven as its manual says: one get and one tick for each 20 ms played.
// Only positions are looked at: what was asked for, what came, how late it was. For the comparison in
// docs/carrying.md. Thread: one.
#include "tests/common/sound/journey.h"

#include <deque>

#include <speex/speex_jitter.h>

namespace vh::bench
{

struct JitterOutcome {
    std::vector<double> delaysMs; ///< of each frame played, from its first sample at the microphone to the callback
    std::vector<double> atMs;
    std::size_t missing = 0;       ///< frames' times in which nothing could be given
    std::size_t inserted = 0;      ///< of these, made to get more delay
    std::size_t interruptions = 0; ///< runs of them
    std::size_t played = 0;
    std::size_t sent = 0;
};

inline JitterOutcome speexJourney(const stage::LineTraits& traits, std::uint64_t seed, double seconds)
{
    struct Arrival {
        double ms;
        std::uint32_t timestamp;
    };
    stage::LineModel line(traits, seed);
    std::deque<Arrival> way;
    JitterOutcome outcome;
    JitterBuffer* buffer = jitter_buffer_init(960);
    std::uint32_t next = 0;
    bool gap = false;
    bool started = false;
    for (double now = 7; now < seconds * 1000; now += 20) { // the two clocks stand 7 ms apart
        for (; (next + 960) / 48.0 <= now; next += 960) {
            ++outcome.sent;
            if (const auto at = line.arrivalOf((next + 960) / 48.0))
                way.push_back({*at, next});
        }
        for (; !way.empty() && way.front().ms <= now; way.pop_front()) {
            char byte = 0;
            JitterBufferPacket packet{&byte, 1, way.front().timestamp, 960, 0, 0};
            jitter_buffer_put(buffer, &packet);
            started = true;
        }
        if (!started)
            continue;
        char room[4];
        JitterBufferPacket packet{room, sizeof room, 0, 0, 0, 0};
        spx_int32_t offset = 0;
        const int got = jitter_buffer_get(buffer, &packet, 960, &offset);
        if (got == JITTER_BUFFER_OK) {
            ++outcome.played;
            outcome.atMs.push_back(now);
            outcome.delaysMs.push_back(now - packet.timestamp / 48.0);
            gap = false;
        } else {
            ++outcome.missing;
            outcome.inserted += got == JITTER_BUFFER_INSERTION ? 1 : 0;
            outcome.interruptions += gap ? 0 : 1;
            gap = true;
        }
        jitter_buffer_tick(buffer);
    }
    jitter_buffer_destroy(buffer);
    return outcome;
}

} // namespace vh::bench
