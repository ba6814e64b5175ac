#include "demo/chorus/manner.h"

#include <algorithm>

namespace vh::chorus
{

namespace
{

/// dB(A) over usual in a first round at the beginning of the class; what "more voice" adds; what the whole class adds
/// or takes, down to `lowestDb`.
struct Manner {
    double levelDb = 6;
    double moreVoiceDb = 1;
    double classDb = 0;
    double lowestDb = -20;
};

Manner mannerOf(Character character)
{
    switch (character) {
    case Character::fading:
        return {6, 0.5, -14, -4};
    case Character::quiet:
        return {-1.5, 0.6, -0.5, -3};
    case Character::tooLoud:
        return {15.5, 0.5, 0, 0};
    case Character::noisyRoom:
        return {4, 1, 0, 0};
    case Character::callsForHelp:
        return {5.6, 0.8, -0.5, 4.5};
    default:
        return {};
    }
}

} // namespace

double meantOverUsualDb(Character character, const Moment& moment)
{
    const Manner manner = mannerOf(character);
    const double atThisTime = manner.levelDb + manner.classDb * std::clamp(moment.classShare, 0.0, 1.0);
    return std::max(manner.lowestDb, atThisTime) + (moment.moreVoice ? manner.moreVoiceDb : 0);
}

bool saysNothing(Character character, SectionKind section)
{
    return character == Character::silentInOneSection && section == SectionKind::categoryNaming;
}

} // namespace vh::chorus
