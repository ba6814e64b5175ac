#pragma once
// How long a text takes to be said, by a speech synthesiser that knows nothing of Voicehall: espeak-ng writes the
// sound, and its length without the silence around it is measured. Needs the program `espeak-ng`. Remembers what it was
// asked. Thread: one.
#include "common/base/clock.h"
#include "common/base/result.h"

#include <map>
#include <string>
#include <string_view>

namespace vh::bench
{

/// Clear speech, as one speaks to be understood: 100 words a minute, about half of conversational speech (Krause 1995,
/// The effects of speaking rate and speaking mode on intelligibility, MIT, after Picheny, Durlach & Braida 1985).
inline constexpr int kClearWordsPerMinute = 100;

class ReadAloud
{
public:
    /// Error: espeak-ng is not there, or wrote no sound.
    Result<Millis> of(const std::string& text, std::string_view language, int wordsPerMinute = kClearWordsPerMinute);

private:
    std::map<std::string, Millis> m_known;
};

} // namespace vh::bench
