#pragma once
// A class script as YAML (docs/class-script.md). Pure; any thread. For every script without a fault (valid.h),
// readClassScript(writeClassScript(x)) == x. All seconds are written out, so a later change of the pace rule moves
// nothing.
#include "common/script/script.h"

#include <string>

namespace vh
{

std::string writeClassScript(const ClassScript& script);

} // namespace vh
