#pragma once
// How long a turn is planned to take where the file does not say: the vowel-group rule, which needs no dictionary. It
// counts written vowels, so a silent e costs a little time ("stone" counts two). For English spoken_pace.h knows
// better. Pure; any thread.
#include "common/script/script.h"

#include <optional>
#include <string_view>

namespace vh
{

/// Runs of written vowels: a e i o u y and Latin letters made of them (é, ø, œ...); each digit counts as one.
/// 0 for text without any, such as text in other alphabets.
int vowelGroups(std::string_view text);

/// Seconds by the rule: `ready` is 2 s. All others, for n vowel groups and k stretches: 1 s to begin, n / 2.5 s to say
/// it, k / 2 s to stretch, rounded up to half seconds, at least 2 s, at most limits::kMaxTurn.
/// Nothing when n is 0: then the file must say.
/// 2.5 syllables/s is unhurried reading aloud in a group, common practice; it stays well under 4 syllables/s, above
/// which pacing tips some people with Parkinson's into a rush (Ackermann, one case; Caligiuri 1989 on lip movement).
std::optional<Millis> plannedByRule(TurnKind kind, std::string_view text, std::size_t stretches);

/// What `ready` takes, what it takes to begin, and how lengths are rounded: 1.2 s become 1.5.
inline constexpr Millis kReadyLength{2000};
inline constexpr Millis kToBegin{1000};
Millis roundedLength(Millis exact);

/// What a reader asks for the length of a turn without seconds: of this language (a BCP 47 tag), kind, text and number
/// of stretches. Nothing: the file must say.
using Pace = std::optional<Millis> (*)(std::string_view language, TurnKind kind, std::string_view text,
                                       std::size_t stretches);

} // namespace vh
