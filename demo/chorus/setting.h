#pragma once
// What all lines of one chorus share: the loop and the clock they live by, where the relay is, what has been counted,
// and the class scripts that have been fetched. Thread: the loop's.
#include "common/base/clock.h"
#include "common/script/script.h"
#include "common/wire/to_relay.h"
#include "demo/chorus/hearing.h"
#include "demo/chorus/workers.h"
#include "server/net/ws_client.h"

#include <map>
#include <memory>
#include <string>

namespace vh::chorus
{

/// How the homes come by their readings.
enum class Voices : std::uint8_t {
    always,    ///< every turn in which they speak is made and metered
    whenAlone, ///< only those in which the leader is silent: quicker
    canned,    ///< nobody speaks: numbers from a table, for load with thousands of homes
};

/// Counts only grow.
struct Totals {
    std::uint64_t knocks = 0;
    std::uint64_t homesIn = 0; ///< came in for the first time
    std::uint64_t linesLost = 0;
    std::uint64_t linesBack = 0;
    std::uint64_t framesReceived = 0;
    std::uint64_t bytesReceived = 0;
    std::uint64_t unreadable = 0; ///< frames that did not parse: to be 0
    std::uint64_t placesSeen = 0; ///< by all homes together
    std::uint64_t scriptsFetched = 0;
    std::uint64_t readingsSent = 0;
    std::uint64_t resultsMade = 0;
    Millis spoken{0}; ///< sound made and metered, all homes together, without their mic checks
    std::uint64_t resultsAcknowledged = 0;
    std::uint64_t linesWritten = 0;                ///< acknowledged
    std::uint64_t helpCalls = 0;                   ///< acknowledged
    SoundTotals sound;                             ///< that homes got
    std::uint64_t soundSent = 0;                   ///< frames, by the leader and by invited people
    std::uint64_t timesHeardByAll = 0;             ///< somebody was invited, agreed and was heard
    std::uint64_t sentAgain = 0;                   ///< requests sent once more, after a lost line or a busy relay
    std::uint64_t givenUp = 0;                     ///< requests that found no room to wait
    std::map<std::string, std::uint64_t> refusals; ///< code, how often
    std::map<std::string, std::uint64_t> closings; ///< how lines ended that this side did not end
};

/// Class scripts by the hash of the part they came in. Each home fetches its own; one copy is kept for all.
class ScriptShelf
{
public:
    /// Null for bytes that are not what the hash says, or are no script.
    std::shared_ptr<const ClassScript> put(const wire::Hash& hash, std::string_view bytes);

private:
    std::map<wire::Hash, std::weak_ptr<const ClassScript>> m_scripts;
};

struct Setting {
    net::Loop& loop;
    const Clock& clock; ///< of these homes; need not agree with the relay's
    net::ClientOptions relay;
    Voices voices = Voices::always;
    std::shared_ptr<Workers> workers; ///< null where nobody speaks
    Totals totals;
    ScriptShelf scripts;
};

} // namespace vh::chorus
