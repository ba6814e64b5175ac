#include "app/write/week_plan.h"

#include <QLocale>

namespace vh::write
{

std::vector<handout::PlannedDay> weekOf(const ClassDays& days, QDate day)
{
    std::vector<handout::PlannedDay> all;
    const QLocale english(QLocale::English);
    for (int i = 0; i < 7; ++i) {
        const QDate each = day.addDays(1 - day.dayOfWeek() + i);
        const auto add = [&](const QString& title) {
            all.push_back({english.dayName(each.dayOfWeek()), title, each == day});
        };
        for (const HeldClass& held : days.held())
            if (held.what.day == each)
                add(held.what.title);
        for (const DayClass& planned : days.planned())
            if (planned.day == each)
                add(planned.title);
    }
    return all;
}

} // namespace vh::write
