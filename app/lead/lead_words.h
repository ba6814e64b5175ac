#pragma once
// The words of the leader's room that are made of numbers. Pure; any thread.
#include "common/base/clock.h"
#include "common/base/result.h"
#include "common/script/script.h"

#include <QString>
#include <QStringList>

#include <optional>

namespace vh::lead
{

/// "second time, with more voice", then shorter ones; for a step of one round nothing but "with more voice", if that.
QStringList roundWords(const Step& step, std::size_t round);
/// What the rail calls a section that is not the current one: "Long vowel", "Back of tongue".
QString kindWords(SectionKind kind);
/// "0:04", whole seconds still to come; "12:00".
QString leftWords(Millis left);
/// "20 s added", of a turn that was given more time; empty where none was.
QString moreWords(Millis more);
/// "ends 10:01", "ends 10:01, one minute over", "ends 09:58, two minutes early", "ends 10:00, in time".
/// Local time of day; within half a minute of the plan is in time.
QString endWords(Instant end, std::optional<Millis> behind);
/// "12 are here, one helper", "Nobody is here yet".
QString hereWords(std::uint32_t here, std::uint32_t helpers);
/// A step as one line: what is said, or what the pause is called.
QString lineOf(const Section& section, const Step& step);
/// What a leader should hear of a press that the relay did not take; empty where there is nothing to hear.
QString refusalWords(const Error& error);
/// "20 minutes", "1 minute", "45 seconds".
QString lengthWords(Millis length);
/// "one", "two", ... "ten", then figures.
QString countWord(int count);

} // namespace vh::lead
