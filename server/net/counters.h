#pragma once
// What one loop has done, in plain numbers for /metrics, and the names of the reasons for which a connection ends.
// Thread: the loop's own; read it from elsewhere by posting to the loop. Counts only grow, except `open`.
#include <array>
#include <cstddef>
#include <cstdint>

namespace vh::net
{

enum class CloseReason : std::uint8_t {
    byPeer,           ///< the other side sent a close frame
    lost,             ///< the line ended without one
    byUs,             ///< the handler called close()
    tooSlow,          ///< its private frames passed their byte limit
    tooBig,           ///< a message above the limit
    badFrame,         ///< not RFC 6455
    badText,          ///< text that is not UTF-8
    silent,           ///< no byte for too long, pings unanswered
    handshakeTimeout, ///< did not become a WebSocket in time
    badRequest,       ///< asked for something else than we serve
    tlsFailed,        ///< never agreed on TLS
    stopping,         ///< the loop ends
};
constexpr std::size_t kCloseReasons = 12;
/// Stable, lower-case, hyphens: "too-slow".
const char* nameOf(CloseReason reason);

struct Counters {
    std::uint64_t framesOut = 0; ///< frames from hall logs
    std::uint64_t logSends = 0;  ///< writes that carried them: frames per send = framesOut / logSends
    std::uint64_t privateOut = 0;
    std::uint64_t bytesOut = 0;
    std::uint64_t skippedDroppable = 0;
    std::uint64_t skippedLasting = 0;
    std::uint64_t droppedNewest = 0; ///< replaced by a newer one before they left
    std::uint64_t bytesIn = 0;
    std::uint64_t messagesIn = 0;
    std::uint64_t soundOverLimit = 0; ///< sound frames that came faster than a voice does: not carried
    std::uint64_t accepted = 0;
    std::uint64_t refusedFull = 0;  ///< accepted and closed at once: the listener's limit
    std::uint64_t acceptPauses = 0; ///< out of descriptors: accepting rested for a moment
    std::uint64_t open = 0;         ///< WebSockets open on this loop now
    std::array<std::uint64_t, kCloseReasons> closed{};
};

} // namespace vh::net
