#pragma once
// A class script with the text of one step corrected, and what is to be put and told for a correction. Pure.
#include "app/lead/publish.h"
#include "common/live/place.h"

namespace vh::lead
{

/// `marked`: the new text, vowels to be held between < and >. Errors: bad-mark, step-unknown, and what faultOf() finds.
Result<ClassScript> withText(const ClassScript& script, StepAt at, const std::string& marked);

/// The script's part for a class whose pictures are published already. class-too-large.
Result<Part> scriptPart(const ClassScript& script);

} // namespace vh::lead
