#include "common/lexicon/lexicon.h"

#include <cstdlib>

extern "C" {
extern const std::uint8_t vhEnglishWords[];
extern const std::uint8_t vhEnglishWordsEnd[];
}

namespace vh::lexicon
{

const Lexicon& english()
{
    static const Lexicon lexicon = [] {
        auto read = Lexicon::fromBytes({vhEnglishWords, static_cast<std::size_t>(vhEnglishWordsEnd - vhEnglishWords)});
        if (!read)
            std::abort(); // part of the program: it cannot be otherwise damaged than the program itself
        return std::move(*read);
    }();
    return lexicon;
}

} // namespace vh::lexicon
