#pragma once
// How loud a person of the chorus speaks, compared with the usual: the one table that measured and made-up readings
// both follow. Pure; any thread.
#include "demo/chorus/characters.h"

namespace vh::chorus
{

/// dB(A) over the person's usual level at this moment of the class, without what differs from turn to turn.
[[nodiscard]] double meantOverUsualDb(Character character, const Moment& moment);

/// Stays silent in sections of this kind.
[[nodiscard]] bool saysNothing(Character character, SectionKind section);

} // namespace vh::chorus
