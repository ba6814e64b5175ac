#pragma once
// What the page of the group's days shows, as one value; made by DaysState, shown by DaysPage.
#include "app/widgets/notice_line.h"
#include "app/widgets/row_list.h"

#include <QStringList>

namespace vh::write
{

struct DayLook {
    QString day;   ///< "Tuesday 10 March, today"
    QString title; ///< of the class there; or that there is none
    QStringList lines;
    QStringList used;     ///< of what is planned: what was used lately
    bool planned = false; ///< can be moved and taken off
    bool known = false;   ///< its file is there: it can be looked at
    bool open = false;    ///< a class can be planned for this day
    friend bool operator==(const DayLook&, const DayLook&) = default;
};

struct DaysView {
    RowList::State rows;
    DayLook look;
    QString group;   ///< empty: there is but one
    QString placing; ///< title of the class for which a day is wanted; empty: none
    bool weekends = false;
    bool canUndo = false;
    NoticeLine::State notice;
    friend bool operator==(const DaysView&, const DaysView&) = default;
};

} // namespace vh::write
