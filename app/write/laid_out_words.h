#pragma once
// A laid-out class in words: how long it is, what of it is ready, what is left to write; and its rail. Pure but for
// translation; any thread.
#include "app/widgets/script_rail.h"
#include "common/script/own_pace.h"

#include <QString>

namespace vh::write
{

/// The class in proportion to the time it will take at this pace.
ScriptRail::State railOf(const ClassScript& script, const OwnPace& pace);
/// "20 minutes", and at her own pace, where that is another one: "20 minutes at your pace".
QString lengthWords(const ClassScript& script, const OwnPace& pace);
/// "12 sentences, 2 groups of things to name, a story in 4 parts and 2 questions"; "nothing".
QString leftToWriteWords(const ClassScript& script);
/// "the welcome and the cautions, the warm-up, ... and the goodbye".
QString readyWords(const ClassScript& script);

} // namespace vh::write
