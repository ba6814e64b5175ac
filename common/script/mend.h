#pragma once
// What every class has: the cautions, and a pause for water. Pure; any thread.
#include "common/script/script.h"

namespace vh
{

/// In English; two steps, so that they fit a home's screen in large print.
std::vector<Step> cautionSteps();
/// A pause that asks nothing.
Section waterPause(Millis length);

} // namespace vh
