#pragma once
// Texts written elsewhere, taken into a class in one go: each goes where the next one is still to write. Pure; any
// thread.
#include "app/write/script_edits.h"

#include <string_view>
#include <vector>

namespace vh::write
{

/// The texts that somebody has copied: parted by empty lines; where there is none and people say `kind` in single
/// lines, by lines. Without outer space; lines within a text stay. Empty ones do not count.
std::vector<std::string> textsIn(std::string_view copied, SectionKind kind);

/// The first at `spot`, which is still to write, the others in order into what is to write after it. What is left over
/// goes into new steps behind the last one, with its turns: nothing of `texts` is lost. Nothing if `spot` is no step
/// that is still to write, or there are no texts. The spot of the result is the last one that was filled.
std::optional<Edited> withTexts(const ClassScript& script, Spot spot, const std::vector<std::string>& texts);

} // namespace vh::write
