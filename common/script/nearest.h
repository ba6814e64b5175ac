#pragma once
// "Did you mean": the known name nearest to a mistyped one. Any thread.
#include <span>
#include <string>
#include <string_view>

namespace vh
{

/// The candidate with the smallest Levenshtein distance (in bytes, letter case ignored), the first of equals; empty
/// when every candidate differs in more than half of its letters.
std::string_view nearestOf(std::string_view name, std::span<const std::string_view> candidates);

/// A remedy in words: the nearest candidate, or the list of all.
std::string nameRemedy(std::string_view name, std::span<const std::string_view> candidates);

} // namespace vh
