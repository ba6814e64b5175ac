#pragma once
// How long ago something was, in as few words as will do. Pure; any thread.
#include "common/base/clock.h"

#include <QString>

namespace vh
{

/// "now", "18 s", "2 min", "1 h 5 min". What lies ahead counts as now.
QString agoWords(Millis gone);

} // namespace vh
