#include "app/write/library_state.h"

#include "app/write/class_offers.h"
#include "app/write/day_words.h"

#include <QCoreApplication>

namespace vh::write
{

namespace
{

constexpr std::size_t kMostSentences = 2; // that a look quotes

QString say(const char* words)
{
    return QCoreApplication::translate("vh::write::LibraryState", words);
}

} // namespace

void LibraryState::search(const QString& query)
{
    m_query = query;
    makeRows();
    if (!query.isEmpty()) // what is found best is looked at
        m_chosen = m_paths.value(0);
    m_renaming = false;
    makeLook();
}

/// What is next on the group's days, else the first of the list.
QString LibraryState::firstToLookAt() const
{
    if (m_query.isEmpty())
        for (const DayClass& planned : m_days.planned())
            if (const QString path = m_library.pathOf(planned.key);
                planned.day >= m_today && m_library.entryAt(path) != nullptr)
                return path;
    return m_paths.value(0);
}

void LibraryState::refresh()
{
    makeRows();
    if (!m_library.entryAt(m_chosen) || (!m_query.isEmpty() && !m_paths.contains(m_chosen)))
        m_chosen = firstToLookAt();
    m_renaming = m_renaming && !m_chosen.isEmpty();
    makeLook();
}

void LibraryState::chooseRow(int row)
{
    m_chosen = m_paths.value(row);
    m_renaming = false;
    makeLook();
}

void LibraryState::choosePath(const QString& path)
{
    m_chosen = path;
    if (!m_paths.contains(path))
        m_query.clear();
    m_renaming = false;
    refresh();
}

void LibraryState::setForDay(QDate day)
{
    m_forDay = day;
    refresh();
}

void LibraryState::setRenaming(bool renaming)
{
    m_renaming = renaming && m_look.own && m_look.readable;
}

void LibraryState::makeRows()
{
    m_rows.clear();
    m_paths.clear();
    const auto& entries = m_library.entries();
    for (const Found& each : m_library.found(m_query)) {
        m_rows.push_back(rowOf(entries[each.entry], each.line));
        m_paths << entries[each.entry].path;
    }
}

/// Title and minutes; below, what was looked for in its text, else its theme and when it was last used.
RowList::Row LibraryState::rowOf(const ClassEntry& entry, const QString& line) const
{
    RowList::Row row;
    row.head = entry.title;
    if (entry.unread) {
        row.below = say("being read\u2026");
        return row;
    }
    if (!entry.mistakes.empty()) {
        row.below = entry.mistakes.size() == 1
                        ? say("one thing in this file is to be mended")
                        : say("%1 things in this file are to be mended").arg(entry.mistakes.size());
        return row;
    }
    if (entry.unfinished) {
        row.below = say("not finished yet");
        return row;
    }
    row.beside = roundMinutesWords(entry.length);
    QStringList below = QStringList(entry.theme) + whenWords(m_days, m_library.keyOf(entry.path), m_today);
    if (below.size() == 1 && entry.bundled)
        below << say("comes with Voicehall");
    row.below = line.isEmpty() ? below.join(QStringLiteral(" \u00B7 ")) : QStringLiteral("\u201C%1\u201D").arg(line);
    return row;
}

void LibraryState::makeLook()
{
    m_look = {};
    const ClassEntry* entry = m_library.entryAt(m_chosen);
    if (!entry) {
        m_look.title = !m_library.isSettled()        ? say("The classes are being looked for\u2026")
                       : m_library.entries().empty() ? say("There is no class yet. Write a new one.")
                                                     : say("No class says all of these words.");
        return;
    }
    m_look.path = entry->path;
    m_look.title = entry->title;
    m_look.own = !entry->bundled;
    m_look.readable = !entry->unread && !entry->unfinished && entry->mistakes.empty();
    m_look.writable = m_look.readable || entry->unfinished;
    for (const ClassEntry::Mistake& mistake : entry->mistakes)
        m_look.mistakes.push_back(
            {say("line %1").arg(mistake.line), QStringLiteral("%1 %2").arg(mistake.message, mistake.remedy)});
    if (!m_look.writable)
        return;
    if (entry->unfinished)
        m_look.about = say("Not finished yet: nobody but you has seen it. Writing goes on where you were.");
    else
        m_look.about = say("%1 \u00B7 %2 as it is written, %3 wanted \u00B7 %4")
                           .arg(entry->theme, minutesWords(entry->length),
                                roundMinutesWords(std::chrono::minutes(entry->plannedMinutes)),
                                entry->steps == 1 ? say("one step") : say("%1 steps").arg(entry->steps));
    if (!m_look.readable)
        return makeParts(*entry);
    const DayClass there = dayClassOf(m_library, *entry, m_forDay.isValid() ? m_forDay : m_today);
    m_look.used = usedWords(usedBefore(m_library, m_days, there), m_today, kMostSentences);
    makeParts(*entry);
}

void LibraryState::makeParts(const ClassEntry& entry)
{
    for (const ClassEntry::Part& part : entry.parts) {
        m_look.parts.push_back({part.title, minutesWords(part.length), part.firstLine});
        m_look.rail.parts.push_back({part.title, part.length, part.kind == SectionKind::pause});
    }
}

QString LibraryState::countWords() const
{
    const std::size_t all = m_library.entries().size();
    if (!m_query.isEmpty())
        return m_rows.empty() ? say("none of %1").arg(all) : say("%1 of %2").arg(m_rows.size()).arg(all);
    if (!m_library.isSettled())
        return say("looking\u2026");
    return all == 1 ? say("one class") : say("%1 classes").arg(all);
}

LibraryView LibraryState::view() const
{
    LibraryView view;
    view.query = m_query;
    view.count = countWords();
    view.rows = {m_rows, static_cast<int>(m_paths.indexOf(m_chosen))};
    view.look = m_look;
    view.group = m_group;
    view.forDay = m_forDay.isValid() ? dayWords(m_forDay, m_today) : QString();
    view.renaming = m_renaming;
    view.canPutBack = m_library.canPutBack();
    view.notice = m_notice;
    return view;
}

} // namespace vh::write
