#pragma once
// Texts that should not hurt anybody: made here, by kind, from Unicode's tables and by seeded chance. As JSON strings
// in quotes, since some of them (lone surrogates, overlong bytes) cannot be had any other way. Pure; any thread.
#include <string>
#include <vector>

namespace vh::testing
{

struct HostileText {
    std::string name;
    std::string json; ///< with its quotes
};

/// At least 200.
std::vector<HostileText> hostileTexts();

/// What is wrong with a text that is shown to others, by ICU's own data; empty when it is fit to be shown.
std::string whatHurts(const std::string& shown, std::size_t most, bool mayHaveLines);

} // namespace vh::testing
