#pragma once
// A text with its marks while somebody types in it: what changed, where the marks are then, and the one key that marks
// a vowel or takes the mark away. Bytes of UTF-8, at code point borders. Pure; any thread.
#include "common/base/text.h"
#include "common/lexicon/lexicon.h"
#include "common/script/marks.h"

namespace vh::write
{

/// Bytes [at, at + removed) of the text before became the bytes [at, at + added) of the text after.
struct TextChange {
    std::size_t at = 0;
    std::size_t removed = 0;
    std::size_t added = 0;
};
/// The least change; of several like it the one that ends where the caret stands after it.
TextChange changeBetween(std::string_view before, std::string_view after, std::size_t caretAfter);

/// The marks in `after`: what is typed inside a mark belongs to it as long as it stays one word; what is typed beside
/// it does not; a mark whose letters are gone is gone.
std::vector<Stretch> followed(const std::vector<Stretch>& marks, const TextChange& change, std::string_view after);

/// With letters chosen (begin < end) these are marked, or what is marked among them no longer is; of several words the
/// vowels worth stretching. With a caret: the vowel it stands at, or the stressed one of the word. Without a dictionary
/// a vowel is a run of vowel letters. The marks as they are where there is no vowel.
std::vector<Stretch> toggled(const MarkedText& text, std::size_t begin, std::size_t end, const lexicon::Lexicon* words);

/// As a script holds it: no outer space, no control characters.
MarkedText tidied(const MarkedText& text, LineBreaks breaks);

} // namespace vh::write
