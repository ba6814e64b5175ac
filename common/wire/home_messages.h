#pragma once
// What a home asks and hears of words and people besides the board: how one's own lines stand, and who else is here of
// those who agreed to be seen. Both directions; part of to_relay.h and to_client.h, which include it. Texts and names
// are plain and fit to be shown; never a level.
#include "common/wire/board_messages.h"

namespace vh::wire
{

/// How a line stands, as its author may know it. What is on the board, `board` says.
enum class OwnState : std::uint8_t {
    toRead,     ///< a helper reads it first
    withLeader, ///< on the leader's screen
    read,       ///< read, and on nobody's screen any more
    gone,       ///< taken back by its author
};
template <>
struct WireNames<OwnState> {
    static constexpr std::array<std::string_view, 4> kNames{"toRead", "withLeader", "read", "gone"};
};

struct OwnLine {
    std::uint64_t item = 0;
    std::string text;
    Instant at{};
    OwnState state = OwnState::toRead;
    ItemKind kind = ItemKind::line;        ///< line or picture, of which `text` is the caption
    std::optional<PictureAbout> picture{}; ///< of a picture, while its bytes are kept
    void fields(auto& visit)
    {
        visit("item", item), visit("text", text, atMost(kChatLength)), visit("at", at), visit("state", state);
        visit("kind", kind), visit("picture", picture);
    }
};

/// To the author alone: after the welcome those that are not on the board (the newest kBoardTail), then each that
/// changes.
struct OwnNow {
    static constexpr std::string_view kName = "ownNow";
    std::vector<OwnLine> lines;
    void fields(auto& visit) { visit("lines", lines, atMost(kBoardTail)); }
};

/// Who else is in class? The answer is `people`. Live: no id, not asked again.
struct PeopleAsk {
    static constexpr std::string_view kName = "peopleAsk";
    void fields(auto&) {}
};

/// The others in class who agreed to be seen, in the order of their seats; empty for whoever did not agree to be seen
/// themselves. The first kPeopleNamed; `more` are not named here, though they agreed.
struct People {
    static constexpr std::string_view kName = "people";
    std::vector<std::string> names;
    std::uint32_t more = 0;
    void fields(auto& visit) { visit("names", names, atMost(kPeopleNamed)), visit("more", more); }
};

} // namespace vh::wire
