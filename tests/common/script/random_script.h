#pragma once
// Random valid class scripts for property tests: the same seed, the same script, on every machine.
#include "common/script/script.h"

#include <cstdint>

vh::ClassScript randomScript(std::uint64_t seed);

/// The script that takes most bytes when written: every limit used up, every character of the most expensive kind.
vh::ClassScript largestScript();
