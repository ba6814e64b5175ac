#pragma once
// The group's days as they are looked at: four weeks, one day or class of them chosen, and perhaps a class for which a
// day is wanted. Holds no widget and writes no file; changes to the days go through it, so that each can be undone. The
// library and the days must outlive it. GUI thread.
#include "app/write/class_days.h"
#include "app/write/class_library.h"
#include "app/write/days_view.h"

namespace vh::write
{

class DaysState
{
public:
    DaysState(const ClassLibrary& library, ClassDays& days) : m_library(library), m_days(days) {}

    void setToday(QDate today);
    void setGroup(const QString& group) { m_group = group; }
    /// Others have changed, or other days: what was done here before cannot be undone any more.
    void begin();
    void refresh();
    void chooseRow(int row);
    void chooseDay(QDate day);
    /// By so many weeks; the chosen day moves with them.
    void turn(int weeks);
    void setWeekends(bool shown);
    /// A day is wanted for this class; an empty key: no more.
    void place(const DayClass& what);
    [[nodiscard]] const DayClass& placing() const { return m_placing; }
    void setNotice(const NoticeLine::State& notice) { m_notice = notice; }

    // Each gives false where it changes nothing.
    bool plan(DayClass what, QDate day);
    bool moveBy(int days); ///< what is chosen; over weekends that are not shown
    bool takeOff();
    bool undo();

    [[nodiscard]] QDate day() const { return m_chosen.day; }
    [[nodiscard]] QString chosenKey() const; ///< of the class that is chosen; empty: none
    [[nodiscard]] DaysView view() const;

private:
    struct Spot {
        enum class What { nothing, planned, held };
        QDate day; ///< invalid: a heading
        What what = What::nothing;
        std::size_t index = 0; ///< into planned() or held()
        friend bool operator==(const Spot&, const Spot&) = default;
    };
    void addDay(QDate day);
    void addRow(const Spot& spot, const RowList::Row& row);
    [[nodiscard]] QString weekWords(QDate monday) const;
    [[nodiscard]] DayLook look() const;
    void lookAtPlanned(DayLook& look) const;
    [[nodiscard]] QStringList usedBefore(const DayClass& what) const;
    void change(const ClassDays& before);
    void chooseKey(QDate day, const QString& key);

    const ClassLibrary& m_library;
    ClassDays& m_days;
    QDate m_today;
    QDate m_monday; ///< of the first week
    QString m_group;
    bool m_weekends = false;
    Spot m_chosen;
    DayClass m_placing;
    NoticeLine::State m_notice;
    std::vector<RowList::Row> m_rows;
    std::vector<Spot> m_spots; ///< of each row
    std::vector<ClassDays> m_before;
};

} // namespace vh::write
