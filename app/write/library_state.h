#pragma once
// The library as it is looked at: what is searched for, which class is chosen, for which day one is wanted. Holds no
// widget and changes no file. The library and the days must outlive it. GUI thread.
#include "app/write/class_days.h"
#include "app/write/class_library.h"
#include "app/write/library_view.h"

namespace vh::write
{

class LibraryState
{
public:
    LibraryState(const ClassLibrary& library, const ClassDays& days) : m_library(library), m_days(days) {}

    void setToday(QDate today) { m_today = today; }
    void setGroup(const QString& group) { m_group = group; }
    void search(const QString& query);
    /// What has changed in the library or the days is taken in; the chosen class stays chosen.
    void refresh();
    void chooseRow(int row);
    /// Also one that the search would not find: then the search is cleared.
    void choosePath(const QString& path);
    /// Invalid: no day.
    void setForDay(QDate day);
    [[nodiscard]] QDate forDay() const { return m_forDay; }
    void setRenaming(bool renaming);
    void setNotice(const NoticeLine::State& notice) { m_notice = notice; }

    [[nodiscard]] const QString& chosen() const { return m_chosen; } ///< path; empty: none
    [[nodiscard]] const QString& query() const { return m_query; }
    [[nodiscard]] const ClassLook& look() const { return m_look; }
    [[nodiscard]] LibraryView view() const;

private:
    void makeRows();
    void makeLook();
    void makeParts(const ClassEntry& entry);
    [[nodiscard]] QString firstToLookAt() const;
    [[nodiscard]] RowList::Row rowOf(const ClassEntry& entry, const QString& line) const;
    [[nodiscard]] QString countWords() const;

    const ClassLibrary& m_library;
    const ClassDays& m_days;
    QDate m_today;
    QString m_group;
    QString m_query;
    QString m_chosen;
    QDate m_forDay;
    bool m_renaming = false;
    NoticeLine::State m_notice;
    std::vector<RowList::Row> m_rows;
    QStringList m_paths; ///< of each row
    ClassLook m_look;
};

} // namespace vh::write
