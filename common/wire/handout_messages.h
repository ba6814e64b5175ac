#pragma once
// The day's handout, a PDF that homes may fetch: the leader's app puts its parts and offers them for the class that is
// open; it stays until the next class opens. Both directions; part of to_relay.h and to_client.h, which include it.
#include "common/wire/leading_messages.h"

namespace vh::wire
{

/// From a leader, with its parts in place (PartPut). A second one for the same class takes the place of the first.
struct OfferHandout {
    static constexpr std::string_view kName = "offerHandout";
    RequestId id;
    ClassId classId;
    std::uint32_t bytes = 0; ///< of the whole file
    Hash hash{};             ///< of the whole file
    std::vector<Hash> parts; ///< in order
    void fields(auto& visit)
    {
        visit("id", id), visit("class", classId), visit("bytes", bytes), visit("hash", hash);
        visit("parts", parts, atMost(kHandoutParts));
    }
};

/// To everybody, and in the welcome: what there is to fetch (PartAsk), part by part.
struct HandoutNow {
    static constexpr std::string_view kName = "handout";
    std::uint64_t seq = 0;
    ClassId classId;
    std::string title; ///< of the class
    std::uint32_t bytes = 0;
    Hash hash{};
    std::vector<Hash> parts;
    void fields(auto& visit)
    {
        visit("seq", seq), visit("class", classId), visit("title", title, atMost(kTitleLength));
        visit("bytes", bytes), visit("hash", hash), visit("parts", parts, atMost(kHandoutParts));
    }
};

} // namespace vh::wire
