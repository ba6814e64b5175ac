#pragma once
// Steps that are left to write, each with a note on what would make it good, and with a word of the theme to begin
// from. `which` counts those of one sort within a class. English. Pure; any thread.
#include "common/script/shapes.h"

namespace vh::toWrite
{

Step sentence(const Theme& theme, std::size_t which);
Step group(const Theme& theme, std::size_t which);
/// `of`: how many parts the passage has.
Step passagePart(const Theme& theme, std::size_t which, std::size_t of);
Step question(const Theme& theme, std::size_t which);
/// A line that the leader says before an exercise.
Step leadIn(const Theme& theme);

} // namespace vh::toWrite
