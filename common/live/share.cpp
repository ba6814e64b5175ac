#include "common/live/share.h"

namespace vh
{

namespace
{

Standing standingOf(const PersonNow& person, bool levelShown)
{
    if (!person.lineUp)
        return Standing::away;
    if (person.resting)
        return Standing::resting;
    return levelShown ? person.judged : Standing::private_;
}

} // namespace

std::optional<Standing> standingFor(Viewer viewer, const Agreements& agreements, const PersonNow& person)
{
    switch (viewer) {
    case Viewer::self:
        return standingOf(person, true);
    case Viewer::leader:
        return standingOf(person, agreements.levelVisible != LevelVisible::nobody);
    case Viewer::helper:
        if (agreements.levelVisible == LevelVisible::leaderAndHelpers)
            return standingOf(person, true);
        return std::nullopt;
    case Viewer::standIn:
    case Viewer::participant:
        break;
    }
    return std::nullopt;
}

bool readingsGoUp(const Agreements& agreements)
{
    return agreements.levelVisible != LevelVisible::nobody;
}

bool resultsGoUp(const Agreements& agreements)
{
    return readingsGoUp(agreements) || agreements.resultsKept;
}

bool mayAddress(const Agreements& agreements, WordKind kind)
{
    return agreements.addressed == Addressed::prompts ||
           (agreements.addressed == Addressed::kind && kind == WordKind::kind);
}

bool nameShownTo(Viewer viewer, const Agreements& agreements)
{
    return viewer != Viewer::participant || agreements.nameSeen;
}

} // namespace vh
