#pragma once
// What whoever leads says of the class: its parts, opening it, moving it, holding the place. As all messages to the
// relay: see to_relay.h.
#include "common/live/class_moves.h"
#include "common/wire/fields.h"
#include "common/wire/limits.h"
#include "common/wire/names.h"

namespace vh::wire
{

using Hash = Bytes<32>; ///< SHA-256

/// Puts one part of a class script where homes can fetch it. `base64` as RFC 4648 section 4.
struct PartPut {
    static constexpr std::string_view kName = "partPut";
    RequestId id;
    Hash hash{};
    std::string base64;
    void fields(auto& visit)
    {
        visit("id", id), visit("hash", hash), visit("base64", base64, atMost(kPartBytes * 4 / 3 + 4));
    }
};

/// Opens a class on parts that are already there. The first of `parts` is the script.
struct OpenClass {
    static constexpr std::string_view kName = "openClass";
    RequestId id;
    std::string title;
    std::vector<Hash> parts;
    void fields(auto& visit)
    {
        visit("id", id), visit("title", title, atMost(kTitleLength)), visit("parts", parts, atMost(kPartsPerClass));
    }
};

/// The leader corrects the class that is open: other parts, already there, the script first. `revision` is the one she
/// corrected: compare and set.
struct ReviseClass {
    static constexpr std::string_view kName = "reviseClass";
    RequestId id;
    std::uint32_t lease = 0;
    std::uint32_t revision = 0;
    std::vector<Hash> parts;
    void fields(auto& visit)
    {
        visit("id", id), visit("lease", lease), visit("revision", revision);
        visit("parts", parts, atMost(kPartsPerClass));
    }
};

/// The leader's press. `lease` and `serial` are what she believed when she pressed: compare and set.
struct Lead {
    static constexpr std::string_view kName = "lead";
    RequestId id;
    CommandKind command = CommandKind::goOn;
    std::uint32_t lease = 0;
    std::uint32_t serial = 0;
    std::optional<StepAt> to{};   ///< jump
    std::optional<Millis> more{}; ///< stretch
    LeftOut leftOut{};            ///< leaveOut
    void fields(auto& visit)
    {
        visit("id", id), visit("command", command), visit("lease", lease), visit("serial", serial);
        visit("to", to), visit("more", more), visit("leftOut", leftOut, noneOrAtMost(kMostLeftOut));
    }
};

/// "I am leading": every second, from whoever holds the lease.
struct Leading {
    static constexpr std::string_view kName = "leading";
    std::uint32_t lease = 0;
    void fields(auto& visit) { visit("lease", lease); }
};

/// Takes the place: a stand-in when the leader is away, or the leader on return.
struct TakePlace {
    static constexpr std::string_view kName = "takePlace";
    RequestId id;
    void fields(auto& visit) { visit("id", id); }
};

/// After the relay came back with an older place than the leader's app has seen: the place it last saw.
struct Reassert {
    static constexpr std::string_view kName = "reassert";
    RequestId id;
    std::uint32_t lease = 0;
    std::uint32_t serial = 0;
    Place place;
    LeftOut leftOut{};
    void fields(auto& visit)
    {
        visit("id", id), visit("lease", lease), visit("serial", serial), visit("place", place);
        visit("leftOut", leftOut, noneOrAtMost(kMostLeftOut));
    }
};

} // namespace vh::wire
