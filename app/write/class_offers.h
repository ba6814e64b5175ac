#pragma once
// What the library and the days offer to somebody about to lead: today's classes first, then her own, then those that
// come with the program; and what of a class the group met lately. Pure but for what it is given. GUI thread.
#include "app/write/class_days.h"
#include "app/write/class_library.h"

#include <QStringList>

namespace vh::write
{

struct ClassOffer {
    QString path;
    QString title;
    QString about;   ///< "Kites · 20 min · held yesterday"
    QString heading; ///< under which it stands
};

struct ClassOffers {
    std::vector<ClassOffer> classes;
    QString todays; ///< path of the first one that is planned for today; empty: none is
    /// What of the class at this path was used lately, a line each; may be empty.
    std::function<QStringList(const QString& path)> used;
};

/// The library must outlive what is returned; the days are copied.
ClassOffers offersOf(const ClassLibrary& library, const ClassDays& days, QDate today);

/// The class as the days know it; and its sentences, as ClassDays::usedBefore() compares them.
DayClass dayClassOf(const ClassLibrary& library, const ClassEntry& entry, QDate day);
std::set<std::string> sentencesOf(const ClassEntry& entry);
std::vector<UsedBefore> usedBefore(const ClassLibrary& library, const ClassDays& days, const DayClass& what);
/// "planned today", "held 2 March"; empty: neither.
QStringList whenWords(const ClassDays& days, const QString& key, QDate today);

} // namespace vh::write
