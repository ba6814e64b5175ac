#pragma once
// The marks inside a step's text: r<ow>ing stretches "ow". A literal <, > or \ is written \<, \> or \\.
// Pure; any thread.
#include "common/base/result.h"
#include "common/script/script.h"

#include <string>
#include <string_view>
#include <vector>

namespace vh
{

struct MarkedText {
    std::string text; ///< without marks
    std::vector<Stretch> stretches;
    friend bool operator==(const MarkedText&, const MarkedText&) = default;
};

/// Well-formed UTF-8 with marks. Error: code "bad-mark", message what is wrong, where the text just before it.
Result<MarkedText> readMarks(std::string_view marked);

/// The reverse, for stretches that stretchesFault() finds nothing wrong with.
std::string writeMarks(std::string_view text, const std::vector<Stretch>& stretches);

/// What is wrong with these stretches of this text, in words; nothing when they are in order, apart or touching, at
/// code point borders, not empty, inside one word, and neither too long nor too many.
std::optional<std::string> stretchesFault(std::string_view text, const std::vector<Stretch>& stretches);

} // namespace vh
