#pragma once
// Invented people: common first names of many places, none of anybody. Pure; any thread.
#include <cstdint>
#include <string>

namespace vh::chorus
{

/// The name of the home with this number in the chorus of this seed. Different for the first sixty; after that a number
/// goes with it ("Amara 2").
std::string firstName(std::uint32_t index, std::uint64_t seed);

} // namespace vh::chorus
