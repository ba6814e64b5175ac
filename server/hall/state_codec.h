#pragma once
// A class in motion as the bytes that the store keeps at every change of place. Private to the relay; a newer relay
// reads what an older one wrote (unknown fields are skipped, missing ones keep their first value). Pure.
#include "common/base/result.h"
#include "common/live/class_state.h"

#include <vector>

namespace vh::hall
{

std::vector<std::uint8_t> encodeState(const ClassState& state);
Result<ClassState> decodeState(const std::vector<std::uint8_t>& bytes);

} // namespace vh::hall
