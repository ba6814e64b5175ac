#pragma once
// One line about a large group: how many are quiet, and whether that is more or fewer than in the section before. Pure;
// any thread.
#include "app/people/seat_book.h"

#include <QString>

namespace vh::lead
{

/// "about a quarter", "hardly anybody", ...: the nearest of a few shares that people speak of. 0 ... 1.
QString shareWords(double share);

/// "About a quarter are quiet, more than at Counting." Too few who can be read: says that instead.
/// `before`: the counts as the section of that title left them; nothing to compare with when it is empty.
QString groupLine(const SeatCounts& now, const SeatCounts& before, const QString& beforeTitle);

/// Fewer than this many readable voices make no line about a group.
inline constexpr int kGroupAtLeast = 10;
/// Shares closer than this are the same; a share of some dozens of people is no better known than that.
inline constexpr double kSameShare = 0.08;

} // namespace vh::lead
