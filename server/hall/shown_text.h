#pragma once
// What people write, made fit to be shown to others, in any script of Unicode: cleanLine() (common/base/text.h), and on
// top of it, by ICU's tables: nothing invisible (Default_Ignorable_Code_Point) but joiners, variation selectors and a
// flag's tags, no private characters, at most kMostMarks combining marks on a letter and one empty line (piled up they
// cover other people's lines), no white space of any kind around it. Emoji stay whole. Also whether two names look
// alike (Unicode Technical Standard 39). Nothing is ever taken as markup. Thread: any.
#include "common/base/result.h"
#include "common/base/text.h"

namespace vh::hall
{

/// More than any living orthography puts on one letter (Vietnamese 2, pointed Hebrew 3); common practice.
inline constexpr int kMostMarks = 4;

/// text-empty (nothing of it can be seen), text-too-long (over `most` code points), text-unreadable (not UTF-8);
/// `where` is in the error.
Result<std::string> shownText(std::string_view text, std::size_t most, LineBreaks lineBreaks = LineBreaks::remove);

/// Two names with the same skeleton look the same: UTS 39, section 4, of the lower-case name without spaces and what is
/// not seen.
std::string skeletonOf(std::string_view name);

} // namespace vh::hall
