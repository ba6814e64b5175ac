#pragma once
// How long a turn is planned to take, from how its text is said: its syllables, a moment at each comma and full stop,
// more for each stretched vowel. Syllables come from the dictionary in English, elsewhere from the vowel groups of
// pace.h. Apart from the reader, because it brings the dictionary: hand plannedAsSpoken to readClassScript. Pure; any
// thread.
#include "common/script/pace.h"

namespace vh
{

/// `ready` is 2 s. All others: 1 s to begin, 2.8 syllables a second, 0.7 s at each mark inside the text (. , : ; ! ? or
/// a new line), 0.8 s for each stretch; rounded up to half seconds, from 2 s to limits::kMaxTurn. Nothing for text
/// without anything to say. A Pace.
std::optional<Millis> plannedAsSpoken(std::string_view language, TurnKind kind, std::string_view text,
                                      std::size_t stretches);

/// The step with the lengths of its shown and spoken turns as its text asks for; rounds and ready turns stay. As it is
/// where the text gives none. For text that has just been written: phrases, passage, back-of-tongue lines, counting.
Step withSpokenLengths(Step step, std::string_view language);

} // namespace vh
