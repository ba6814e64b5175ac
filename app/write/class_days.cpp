#include "app/write/class_days.h"

#include "app/write/folded.h"

#include <algorithm>

namespace vh::write
{

namespace
{

/// Behind those of the same day.
template <class T, class DayOf>
void insertByDay(std::vector<T>& all, T what, DayOf dayOf)
{
    const auto after = std::upper_bound(all.begin(), all.end(), dayOf(what),
                                        [&](QDate day, const T& each) { return day < dayOf(each); });
    all.insert(after, std::move(what));
}

bool isLately(QDate then, QDate day)
{
    return then.isValid() && then <= day && then.daysTo(day) <= kLately;
}

} // namespace

bool ClassDays::plan(const DayClass& what)
{
    const auto same = [&](const DayClass& each) { return each.day == what.day && each.key == what.key; };
    if (std::any_of(m_planned.begin(), m_planned.end(), same))
        return false;
    insertByDay(m_planned, what, [](const DayClass& each) { return each.day; });
    return true;
}

void ClassDays::move(std::size_t index, QDate to)
{
    DayClass what = m_planned.at(index);
    takeOff(index);
    what.day = to;
    (void)plan(what);
}

void ClassDays::takeOff(std::size_t index)
{
    m_planned.erase(m_planned.begin() + static_cast<std::ptrdiff_t>(index));
}

void ClassDays::keep(HeldClass held)
{
    std::erase_if(m_planned,
                  [&](const DayClass& each) { return each.day == held.what.day && each.key == held.what.key; });
    insertByDay(m_held, std::move(held), [](const HeldClass& each) { return each.what.day; });
    const QDate newest = m_held.back().what.day;
    for (HeldClass& each : m_held)
        if (each.what.day.daysTo(newest) > 2 * kLately)
            each.sentences.clear();
}

QDate ClassDays::lastHeld(const QString& key) const
{
    const auto last =
        std::find_if(m_held.rbegin(), m_held.rend(), [&](const HeldClass& each) { return each.what.key == key; });
    return last == m_held.rend() ? QDate() : last->what.day;
}

QDate ClassDays::nextPlanned(const QString& key, QDate today) const
{
    const auto next = std::find_if(m_planned.begin(), m_planned.end(),
                                   [&](const DayClass& each) { return each.key == key && each.day >= today; });
    return next == m_planned.end() ? QDate() : next->day;
}

std::vector<UsedBefore> ClassDays::usedBefore(const DayClass& what, const std::set<std::string>& sentences,
                                              const SentencesOf& sentencesOf) const
{
    struct Earlier {
        const DayClass* what;
        std::set<std::string> sentences;
        bool held;
    };
    std::vector<Earlier> earlier;
    for (const HeldClass& each : m_held)
        if (isLately(each.what.day, what.day))
            earlier.push_back({&each.what, each.sentences, true});
    for (const DayClass& each : m_planned)
        if (isLately(each.day, what.day) && !(each.day == what.day && each.key == what.key))
            earlier.push_back({&each, {}, false});
    std::stable_sort(earlier.begin(), earlier.end(),
                     [](const Earlier& one, const Earlier& other) { return one.what->day > other.what->day; });

    std::vector<UsedBefore> used;
    const auto add = [&](UsedBefore::What kind, const QString& words, const Earlier& where) {
        used.push_back({kind, words, where.what->day, where.what->title, where.held});
    };
    const auto same =
        std::find_if(earlier.begin(), earlier.end(), [&](const Earlier& each) { return each.what->key == what.key; });
    if (same != earlier.end()) {
        add(UsedBefore::What::theClass, what.title, *same);
        return used; // its theme and all its sentences with it
    }
    const QByteArray theme = folded(what.theme);
    const auto alike = std::find_if(earlier.begin(), earlier.end(),
                                    [&](const Earlier& each) { return folded(each.what->theme) == theme; });
    if (alike != earlier.end() && !theme.isEmpty())
        add(UsedBefore::What::theme, what.theme, *alike);
    std::set<std::string> met;
    for (Earlier& each : earlier) {
        if (!each.held && sentencesOf)
            each.sentences = sentencesOf(each.what->key);
        for (const std::string& sentence : sentences)
            if (each.sentences.contains(sentence) && met.insert(sentence).second)
                add(UsedBefore::What::sentence, QString::fromStdString(sentence), each);
    }
    return used;
}

std::set<std::string> ClassDays::saidLately(QDate today, const QString& butFor) const
{
    std::set<std::string> all;
    for (const HeldClass& each : m_held)
        if (isLately(each.what.day, today) && each.what.key != butFor)
            all.insert(each.sentences.begin(), each.sentences.end());
    return all;
}

} // namespace vh::write
