#pragma once
// A length of time as a clock shows it, the same on every page of the room. Pure; any thread.
#include "common/base/clock.h"

#include <QString>

namespace vh::write
{

/// "1:40", "0:05", "21:05": to the nearest second.
QString clockWords(Millis time);

} // namespace vh::write
