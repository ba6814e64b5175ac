#pragma once
// When the board is quiet for participants: while they practise, nobody's line takes their eyes off the text. It wakes
// in pauses, in open talk, at the beginning and at the end. Pure.
#include "common/live/place.h"

namespace vh
{

/// Whether people practise in a section of this kind.
[[nodiscard]] bool isDrill(SectionKind kind);

/// The board rests there. A place outside the script: it does not.
[[nodiscard]] bool boardRestsIn(const ClassScript& script, const Place& place);

/// The person's own turn, from the breath before it on: nothing new comes onto the screen.
[[nodiscard]] constexpr bool isOwnTurn(TurnKind kind)
{
    return kind != TurnKind::listen;
}

} // namespace vh
