#pragma once
// Days, lengths and what was used before, in words. Pure; any thread.
#include "app/write/class_days.h"

#include <QStringList>

namespace vh::write
{

/// "Tuesday 10 March"; with its year where that is another one than today's.
QString dayWords(QDate day, QDate today);
/// "today", "yesterday", "tomorrow", else as dayWords().
QString nearWords(QDate day, QDate today);
/// The same where there is little room: "today", "16 March".
QString shortWords(QDate day, QDate today);
/// "19 min 40 s", "20 min", "45 s".
QString minutesWords(Millis length);
/// "20 min": to the nearest minute, at least one.
QString roundMinutesWords(Millis length);

/// That the file of the days was damaged, and where it is kept.
QString damagedWords(const QString& aside);

/// What was used before, a line each: first the class or theme, then at most `most` sentences, and how many more.
QStringList usedWords(const std::vector<UsedBefore>& used, QDate today, std::size_t most);

} // namespace vh::write
