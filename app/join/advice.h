#pragma once
// When a voice cannot be judged: one thing that the person can do about it, in plain words. GUI thread.
#include "common/signal/voice_frame.h"

#include <QString>

namespace vh::join
{

/// Empty for Blank::none.
QString adviceOn(Blank reason);

} // namespace vh::join
