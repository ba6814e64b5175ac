#include "common/live/board_rest.h"

namespace vh
{

bool isDrill(SectionKind kind)
{
    switch (kind) {
    case SectionKind::warmUp:
    case SectionKind::sustainedVowel:
    case SectionKind::pitchGlide:
    case SectionKind::counting:
    case SectionKind::phrases:
    case SectionKind::categoryNaming:
    case SectionKind::backOfTongue:
    case SectionKind::passage:
        return true;
    case SectionKind::opening:
    case SectionKind::openTalk:
    case SectionKind::pause:
    case SectionKind::closing:
        break;
    }
    return false;
}

bool boardRestsIn(const ClassScript& script, const Place& place)
{
    const auto at = turnAt(script, place);
    return at && isDrill(at->section->kind);
}

} // namespace vh
