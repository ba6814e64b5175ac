#pragma once
// The class script as the JSON part that homes fetch: the same values as common/script/script.h, nothing else. Homes
// never parse YAML from the network. The reader holds every promise that script.h makes of its values, so that what it
// gives can be shown and stepped through without further checks. Pure; any thread.
#include "common/script/script.h"
#include "common/wire/fields.h"

namespace vh::wire
{

std::string encodeScript(const ClassScript& script);
Result<ClassScript> decodeScript(std::string_view text);

} // namespace vh::wire
