#pragma once
// What makes a class script valid, as a question about the values: asked by the reader of files, and to be asked of
// anything that came another way (the wire, an editor). Pure; any thread.
#include "common/base/result.h"
#include "common/base/text.h"
#include "common/script/script.h"

#include <optional>
#include <string_view>

namespace vh
{

/// The first thing that breaks a rule, or nothing; Error::where is a path such as "sections[2].steps[0].text".
std::optional<Error> faultOf(const ClassScript& script);

/// True for text as scripts hold it: well-formed UTF-8, no control characters, no hidden direction marks, no outer
/// space or line break, at most `maxCodePoints`. Empty text is fit.
bool isFitText(std::string_view text, std::size_t maxCodePoints, LineBreaks lineBreaks);

/// Why a picture's file name is refused, in words; nothing for a good one: relative, '/' between folders, no "." or
/// "..", no backslash or colon, ending in .svg, .png, .jpg or .jpeg.
std::optional<std::string> pictureFileFault(std::string_view file);

/// The shape of a BCP 47 tag (letters, then parts of letters and digits); whether such a language exists is not asked.
bool isLanguageTag(std::string_view tag);

} // namespace vh
