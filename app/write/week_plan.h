#pragma once
// The week of a day as a handout prints it: each class that was held or is planned, from Monday on. Pure; any thread.
#include "app/handout/handout.h"
#include "app/write/class_days.h"

namespace vh::write
{

std::vector<handout::PlannedDay> weekOf(const ClassDays& days, QDate day);

} // namespace vh::write
