#pragma once
// What the relay and the process that makes pictures anew say to each other, one errand a life: in, a line of text
// ("1 0 0 0.5 1\n": quarter turns, then the cut's left, top, right, bottom) and the picture's bytes to the end of the
// stream; out, a line ("jpeg 1600 1200\n" and the bytes, or "no CODE\n" and the words) to the end of the stream.
// Each side checks what it gets: the process holds anybody's bytes, and may not be itself any more. Pure; any thread.
#include "server/photos/remake.h"

#include <string>

namespace vh::photos
{

inline constexpr std::size_t kMostErrandBytes = kMostBytesIn + 256;
inline constexpr std::size_t kMostAnswerBytes = kMostBytesOut + 256;

struct Errand {
    Wish wish;
    std::span<const std::uint8_t> bytes; ///< of what was read; good as long as that
};

std::string errandLine(const Wish& wish);
/// errand-unreadable
Result<Errand> readErrand(std::span<const std::uint8_t> in);

std::vector<std::uint8_t> answerOf(const Result<Remade>& remade);
/// What the process answered, or what it refused; picture-unmade if it is neither.
Result<Remade> readAnswer(std::span<const std::uint8_t> out);

/// A picture that nobody could make anew: the process broke down, or took too long.
Error unmade();

} // namespace vh::photos
