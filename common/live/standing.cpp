#include "common/live/standing.h"

#include "common/measure/reading.h"

#include <algorithm>

namespace vh
{

std::optional<TaskKind> taskOf(SectionKind kind)
{
    switch (kind) {
    case SectionKind::opening:
    case SectionKind::warmUp:
    case SectionKind::counting:
    case SectionKind::phrases:
    case SectionKind::backOfTongue:
    case SectionKind::passage:
    case SectionKind::closing:
        return TaskKind::phrases;
    case SectionKind::categoryNaming:
    case SectionKind::openTalk:
        return TaskKind::openTalk;
    case SectionKind::sustainedVowel:
        return TaskKind::vowel;
    case SectionKind::pitchGlide:
        return TaskKind::glide;
    case SectionKind::pause:
        break;
    }
    return std::nullopt;
}

std::optional<Band> bandFor(SectionKind kind, float offsetDb)
{
    const auto task = taskOf(kind);
    if (!task || *task == TaskKind::glide)
        return std::nullopt;
    Band band;
    if (*task == TaskKind::openTalk)
        band.easyFromDb = 2;
    // Written so that an offset that is not a number moves nothing.
    const float by = offsetDb >= -kLargestOffsetDb ? std::min(offsetDb, kLargestOffsetDb)
                     : offsetDb < 0                ? -kLargestOffsetDb
                                                   : 0.0F;
    band.easyFromDb += by;
    band.aimDb += by;
    band.upperEdgeDb += by;
    band.plentyToDb += by;
    return band;
}

Band underCeiling(Band band, float usualDbaAt30Cm)
{
    const float roomDb = kCeilingDbaAt30Cm - usualDbaAt30Cm;
    for (float* edge : {&band.easyFromDb, &band.aimDb, &band.upperEdgeDb, &band.plentyToDb})
        *edge = std::min(*edge, roomDb);
    return band;
}

} // namespace vh
