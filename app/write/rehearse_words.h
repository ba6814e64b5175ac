#pragma once
// How a rehearsal went against its plan, in words. Pure but for translation; any thread.
#include "app/write/clock_words.h"
#include "common/live/pace_trace.h"

#include <QString>
#include <QStringList>

#include <vector>

namespace vh::write
{

/// "as planned", "12 seconds longer", "a minute and a half shorter"; within a tenth or three seconds is as planned.
QString againstPlanWords(const SectionTime& time);

struct RehearsalRow {
    QString title, planned, took, words;
    friend bool operator==(const RehearsalRow&, const RehearsalRow&) = default;
};
struct RehearsalResult {
    QString headline;               ///< "Planned: 20:53. It took 21:10."
    std::vector<RehearsalRow> rows; ///< one for each section, and one for all water pauses
    QStringList pace;               ///< what was learned, in sentences
    friend bool operator==(const RehearsalResult&, const RehearsalResult&) = default;
};
/// `learned`: the rehearsal was gone through at a pace that says something; `pace`: what is known since.
RehearsalResult resultOf(const ClassScript& script, const ClassTrace& trace, bool learned, const QStringList& pace);

} // namespace vh::write
