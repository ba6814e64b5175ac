#pragma once
// A class script from its YAML file (docs/class-script.md). Pure; any thread. Either the whole script or every mistake
// of the file, in the order of the file: never half a class, never an exception, whatever the bytes are.
#include "common/script/pace.h"
#include "common/script/script.h"
#include "common/script/script_error.h"

#include <string_view>
#include <tl/expected.hpp>
#include <vector>

namespace vh
{

/// `fileName` is only repeated in the errors. What is returned satisfies faultOf() (valid.h). Turns without seconds
/// take what `pace` says; without one, by the vowel-group rule. Programs with the dictionary give plannedAsSpoken
/// (spoken_pace.h), so that a class has the same length in all of them.
tl::expected<ClassScript, std::vector<ScriptError>> readClassScript(std::string_view yaml, std::string_view fileName,
                                                                    Pace pace = nullptr);

} // namespace vh
