#include "app/write/days_state.h"

#include "app/write/class_offers.h"
#include "app/write/day_words.h"

#include <QCoreApplication>
#include <QLocale>

#include <algorithm>

namespace vh::write
{

namespace
{

constexpr int kWeeks = 4;
constexpr std::size_t kMostUndone = 50;
constexpr std::size_t kMostSentences = 3;

QString say(const char* words)
{
    return QCoreApplication::translate("vh::write::DaysState", words);
}

QDate mondayOf(QDate day)
{
    return day.addDays(1 - day.dayOfWeek());
}

bool isWeekend(QDate day)
{
    return day.dayOfWeek() > 5;
}

QString spanWords(QDate from, QDate to)
{
    const QLocale english(QLocale::English);
    return say("%1 to %2")
        .arg(english.toString(from, from.month() == to.month() ? QStringLiteral("d") : QStringLiteral("d MMMM")),
             english.toString(to, QStringLiteral("d MMMM")));
}

} // namespace

void DaysState::setToday(QDate today)
{
    if (today == m_today)
        return;
    m_today = today;
    m_monday = mondayOf(today).addDays(-7);
    m_chosen = {today, Spot::What::nothing, 0};
    refresh();
}

void DaysState::begin()
{
    m_before.clear();
    m_monday = mondayOf(m_today).addDays(-7);
    m_chosen = {m_today, Spot::What::nothing, 0};
    refresh();
}

void DaysState::refresh()
{
    m_rows.clear();
    m_spots.clear();
    for (int week = 0; week < kWeeks; ++week) {
        const QDate monday = m_monday.addDays(7 * week);
        RowList::Row head;
        head.head = weekWords(monday);
        head.heading = true;
        addRow({}, head);
        for (int day = 0; day < 7; ++day)
            addDay(monday.addDays(day));
    }
    if (std::find(m_spots.begin(), m_spots.end(), m_chosen) == m_spots.end())
        chooseDay(m_chosen.day);
}

void DaysState::addRow(const Spot& spot, const RowList::Row& row)
{
    m_rows.push_back(row);
    m_spots.push_back(spot);
}

/// What was held that day, then what is planned; one row that says so where there is nothing.
void DaysState::addDay(QDate day)
{
    const std::size_t before = m_rows.size();
    const auto add = [&](Spot::What what, std::size_t index, const QString& head, const QString& beside) {
        RowList::Row row;
        const QString words = QLocale(QLocale::English).toString(day, QStringLiteral("dddd d"));
        row.before = m_rows.size() > before ? QString() : words;
        row.strong = day == m_today;
        row.head = head;
        row.beside = beside;
        row.spoken = QStringLiteral("%1, %2, %3").arg(nearWords(day, m_today), head, beside);
        addRow({day, what, index}, row);
    };
    for (std::size_t i = 0; i < m_days.held().size(); ++i)
        if (const HeldClass& held = m_days.held()[i]; held.what.day == day)
            add(Spot::What::held, i, held.what.title, say("held, %1").arg(minutesWords(held.took)));
    for (std::size_t i = 0; i < m_days.planned().size(); ++i)
        if (const DayClass& planned = m_days.planned()[i]; planned.day == day) {
            const ClassEntry* entry = m_library.entryAt(m_library.pathOf(planned.key));
            add(Spot::What::planned, i, entry && !entry->unread ? entry->title : planned.title,
                day < m_today ? say("was planned")
                : entry       ? say("planned, %1").arg(roundMinutesWords(entry->length))
                              : say("planned; its file is gone"));
        }
    if (m_rows.size() == before && (m_weekends || !isWeekend(day)))
        add(Spot::What::nothing, 0, day == m_today ? say("nothing planned today") : QStringLiteral("\u2013"), {});
}

QString DaysState::weekWords(QDate monday) const
{
    const auto weeks = mondayOf(m_today).daysTo(monday) / 7;
    const QString span = spanWords(monday, monday.addDays(m_weekends ? 6 : 4));
    return weeks == 0    ? say("This week, %1").arg(span)
           : weeks == 1  ? say("Next week, %1").arg(span)
           : weeks == -1 ? say("Last week, %1").arg(span)
                         : span;
}

void DaysState::chooseRow(int row)
{
    if (row >= 0 && row < static_cast<int>(m_spots.size()) && m_spots[static_cast<std::size_t>(row)].day.isValid())
        m_chosen = m_spots[static_cast<std::size_t>(row)];
}

/// The first row of that day; where it is not shown, the first that is.
void DaysState::chooseDay(QDate day)
{
    const auto from = std::find_if(m_spots.begin(), m_spots.end(),
                                   [&](const Spot& spot) { return spot.day.isValid() && spot.day >= day; });
    const auto any =
        std::find_if(m_spots.rbegin(), m_spots.rend(), [](const Spot& spot) { return spot.day.isValid(); });
    m_chosen = from != m_spots.end() ? *from : any != m_spots.rend() ? *any : Spot{day};
}

void DaysState::chooseKey(QDate day, const QString& key)
{
    for (const Spot& spot : m_spots)
        if (spot.day == day && spot.what == Spot::What::planned && m_days.planned()[spot.index].key == key) {
            m_chosen = spot;
            return;
        }
    chooseDay(day);
}

void DaysState::turn(int weeks)
{
    m_monday = m_monday.addDays(7 * weeks);
    m_chosen = {m_chosen.day.addDays(7 * weeks), Spot::What::nothing, 0};
    refresh();
}

void DaysState::setWeekends(bool shown)
{
    m_weekends = shown;
    refresh();
}

void DaysState::place(const DayClass& what)
{
    m_placing = what;
    refresh();
}

void DaysState::change(const ClassDays& before)
{
    m_before.push_back(before);
    if (m_before.size() > kMostUndone)
        m_before.erase(m_before.begin());
}

bool DaysState::plan(DayClass what, QDate day)
{
    const ClassDays before = m_days;
    what.day = day;
    if (!day.isValid() || !m_days.plan(what))
        return false;
    change(before);
    refresh();
    chooseKey(day, what.key);
    return true;
}

bool DaysState::moveBy(int days)
{
    if (m_chosen.what != Spot::What::planned)
        return false;
    const ClassDays before = m_days;
    const QString key = chosenKey();
    QDate to = m_chosen.day.addDays(days);
    while (isWeekend(to) && !m_weekends)
        to = to.addDays(days > 0 ? 1 : -1);
    m_days.move(m_chosen.index, to);
    change(before);
    if (to < m_monday)
        m_monday = mondayOf(to);
    else if (to >= m_monday.addDays(7 * kWeeks))
        m_monday = mondayOf(to).addDays(-7 * (kWeeks - 1));
    refresh();
    chooseKey(to, key);
    return true;
}

bool DaysState::takeOff()
{
    if (m_chosen.what != Spot::What::planned)
        return false;
    const ClassDays before = m_days;
    const QDate day = m_chosen.day;
    m_days.takeOff(m_chosen.index);
    change(before);
    m_chosen = {};
    refresh();
    chooseDay(day);
    return true;
}

bool DaysState::undo()
{
    if (m_before.empty())
        return false;
    m_days = std::move(m_before.back());
    m_before.pop_back();
    const QDate day = m_chosen.day;
    refresh();
    chooseDay(day);
    return true;
}

QString DaysState::chosenKey() const
{
    switch (m_chosen.what) {
    case Spot::What::planned:
        return m_days.planned()[m_chosen.index].key;
    case Spot::What::held:
        return m_days.held()[m_chosen.index].what.key;
    case Spot::What::nothing:
        break;
    }
    return {};
}

QStringList DaysState::usedBefore(const DayClass& what) const
{
    return usedWords(write::usedBefore(m_library, m_days, what), m_today, kMostSentences);
}

void DaysState::lookAtPlanned(DayLook& look) const
{
    const DayClass& planned = m_days.planned()[m_chosen.index];
    const ClassEntry* entry = m_library.entryAt(m_library.pathOf(planned.key));
    look.planned = true;
    look.title = entry && !entry->unread ? entry->title : planned.title;
    look.lines << (m_chosen.day < m_today ? say("Was planned, and not held from this computer.") : say("Planned."));
    if (entry)
        look.lines << say("%1 \u00B7 %2 as it is written").arg(entry->theme, minutesWords(entry->length));
    else if (m_library.isSettled())
        look.lines << say("Its file is not among your classes any more.");
    look.used = usedBefore(planned);
}

DayLook DaysState::look() const
{
    DayLook look;
    const QDate day = m_chosen.day;
    const QString near = nearWords(day, m_today);
    look.day = dayWords(day, m_today) == near ? near : QStringLiteral("%1, %2").arg(dayWords(day, m_today), near);
    look.open = day >= m_today;
    look.known = m_library.entryAt(m_library.pathOf(chosenKey())) != nullptr;
    if (!m_placing.key.isEmpty()) {
        DayClass there = m_placing;
        there.day = day;
        look.title = m_placing.title;
        look.used = usedBefore(there);
        return look;
    }
    switch (m_chosen.what) {
    case Spot::What::planned:
        lookAtPlanned(look);
        break;
    case Spot::What::held: {
        const HeldClass& held = m_days.held()[m_chosen.index];
        look.title = held.what.title;
        look.lines << say("Held. It took %1.").arg(minutesWords(held.took))
                   << say("By its plan: %1.").arg(minutesWords(held.planned));
        break;
    }
    case Spot::What::nothing:
        look.title = day < m_today ? say("No class was held from this computer.") : say("Nothing is planned yet.");
        break;
    }
    return look;
}

DaysView DaysState::view() const
{
    DaysView view;
    const auto at = std::find(m_spots.begin(), m_spots.end(), m_chosen);
    view.rows = {m_rows, at == m_spots.end() ? -1 : static_cast<int>(at - m_spots.begin())};
    view.look = look();
    view.group = m_group;
    view.placing = m_placing.title;
    view.weekends = m_weekends;
    view.canUndo = !m_before.empty();
    view.notice = m_notice;
    return view;
}

} // namespace vh::write
