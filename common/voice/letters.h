#pragma once
// A text as a row of sounds of the synthetic voice: words by their spelling, numbers read out, a pause at each mark
// that asks for one. Simple rules: the number of syllables is usually right (spelling.h), the vowels are near enough.
// Pure; any thread.
#include "common/voice/phones.h"

#include <string_view>

namespace vh::voice
{

struct Spoken {
    Phone phone = Phone::pause;
    Phone to = Phone::pause; ///< where a diphthong goes; else the same
    bool nucleus = false;
    bool long_ = false;      ///< a longer pause, at the end of a sentence or a line
    std::uint32_t begin = 0; ///< bytes of the text that it stands for
    std::uint32_t end = 0;
};

[[nodiscard]] std::vector<Spoken> spokenOf(std::string_view text);

/// Syllables of a text: words by the rules above, whole numbers under 100 as read out, longer ones digit by digit.
[[nodiscard]] int syllablesOf(std::string_view text);

} // namespace vh::voice
