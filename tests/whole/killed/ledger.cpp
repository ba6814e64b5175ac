#include "tests/whole/killed/ledger.h"

#include "common/base/text.h"
#include "common/wire/login_text.h"

#include <QFile>
#include <SQLiteCpp/SQLiteCpp.h>

#include <algorithm>
#include <set>

namespace vh::testing
{

namespace
{

/// How often each trace is in the file, and the number of the last that left it.
struct Found {
    int times = 0;
    std::uint64_t item = 0;
};
using Traces = std::map<Trace, Found>;

void read(SQLite::Database& file, const char* sql, Traces& traces)
{
    SQLite::Statement query(file, sql);
    while (query.executeStep())
        traces[query.getColumn(0).getString()] = {query.getColumn(1).getInt(),
                                                  static_cast<std::uint64_t>(query.getColumn(2).getInt64())};
}

Traces tracesIn(SQLite::Database& file)
{
    Traces traces;
    read(file, "SELECT 'board' || char(9) || text, count(*), max(id) FROM board WHERE kind <> 2 GROUP BY text", traces);
    read(file,
         "SELECT 'log' || char(9) || lower(hex(who)) || char(9) || what || char(9) || detail, count(*), 0 FROM log"
         " WHERE what LIKE 'line-%' OR what LIKE 'picture-%' OR what LIKE 'quiet-%' OR what LIKE 'board-%' OR"
         " what IN ('own-taken-back', 'rest-ended', 'call-done') GROUP BY who, what, detail",
         traces);
    read(file, "SELECT 'phoned' || char(9) || name, count(*), 0 FROM attendance WHERE by_hand = 1 GROUP BY name",
         traces);
    return traces;
}

std::span<const std::uint8_t> bytesOf(const SQLite::Column& column)
{
    return {static_cast<const std::uint8_t*>(column.getBlob()), static_cast<std::size_t>(column.getBytes())};
}

/// Each person's calls are those that were acknowledged to them, no more and no fewer.
std::string checkCalls(SQLite::Database& file, const std::map<Trace, std::set<std::uint64_t>>& told)
{
    std::map<Trace, std::set<std::uint64_t>> there;
    SQLite::Statement query(file, "SELECT lower(hex(person)), id FROM calls");
    while (query.executeStep())
        there["call\t" + query.getColumn(0).getString()].insert(
            static_cast<std::uint64_t>(query.getColumn(1).getInt64()));
    return there == told ? std::string() : "the calls are not those that were acknowledged";
}

/// The pictures are those that were acknowledged; each that nobody has taken back has its caption and bytes that are
/// its own; and no bytes lie there for nobody.
std::string checkPictures(SQLite::Database& file, const std::map<std::uint64_t, std::string>& told)
{
    SQLite::Statement query(file, "SELECT board.id, text, picture, bytes, state = 2 AND decided_by = author FROM board"
                                  " LEFT JOIN parts ON parts.hash = picture WHERE board.kind = 2");
    std::size_t there = 0;
    for (; query.executeStep(); ++there) {
        const auto known = told.find(static_cast<std::uint64_t>(query.getColumn(0).getInt64()));
        if (known == told.end())
            return "a picture that was never acknowledged: " + query.getColumn(1).getString();
        const bool isTakenBack = query.getColumn(4).getInt() != 0;
        if (isTakenBack != query.getColumn(2).isNull())
            return (isTakenBack ? "taken back, and still there: " : "its bytes are gone: ") + known->second;
        if (isTakenBack)
            continue;
        if (query.getColumn(1).getString() != known->second)
            return "another caption: " + known->second;
        if (hexOf(wire::sha256(query.getColumn(3).getString())) != hexOf(bytesOf(query.getColumn(2))))
            return "not its own bytes: " + known->second;
    }
    if (there != told.size())
        return "an acknowledged picture is gone";
    const bool none = file.execAndGet("SELECT count(*) FROM parts WHERE kind = 'sent-picture' AND hash NOT IN"
                                      " (SELECT picture FROM board WHERE picture IS NOT NULL)")
                          .getInt() == 0;
    return none ? std::string() : "bytes of a picture that nobody has";
}

bool holds(SQLite::Database& file, const char* sql, std::uint64_t id)
{
    SQLite::Statement query(file, sql);
    query.bind(1, static_cast<std::int64_t>(id));
    return query.executeStep();
}

std::uint64_t numberAfterTab(const Trace& trace)
{
    return std::stoull(trace.substr(trace.find('\t') + 1));
}

} // namespace

void Ledger::asked(const std::string& request, const Trace& trace)
{
    m_entries[request].trace = trace;
}

void Ledger::acknowledged(const std::string& request, std::uint64_t item)
{
    Entry& entry = m_entries.at(request);
    entry.state = State::acknowledged;
    entry.item = item;
}

void Ledger::refused(const std::string& request, const std::string&)
{
    m_entries.at(request).state = State::refused;
}

std::size_t Ledger::acknowledgedCount() const
{
    return static_cast<std::size_t>(std::count_if(
        m_entries.begin(), m_entries.end(), [](const auto& each) { return each.second.state == State::acknowledged; }));
}

std::string Ledger::summary() const
{
    std::map<std::string, int> acknowledged;
    for (const auto& [request, entry] : m_entries) {
        std::string kind = entry.trace.substr(0, entry.trace.find('\t'));
        if (kind == "log")
            kind = entry.trace.substr(37, entry.trace.find('\t', 37) - 37);
        acknowledged[kind] += entry.state == State::acknowledged ? 1 : 0;
    }
    std::string text;
    for (const auto& [kind, times] : acknowledged)
        text += (text.empty() ? "" : ", ") + kind + " " + std::to_string(times);
    return text;
}

int Ledger::doneUnheard(const QString& file) const
{
    const QTemporaryDir folder; // of a copy: the relay shall find its file as it left it
    const QString copy = folder.filePath(QStringLiteral("copy.sqlite"));
    QFile::copy(file, copy);
    QFile::copy(file + QStringLiteral("-wal"), copy + QStringLiteral("-wal"));
    SQLite::Database database(copy.toStdString(), SQLite::OPEN_READWRITE);
    SQLite::Statement query(database, "SELECT lower(hex(id)) FROM requests");
    int unheard = 0;
    while (query.executeStep()) {
        const auto entry = m_entries.find(query.getColumn(0).getString());
        unheard += entry != m_entries.end() && entry->second.state == State::open ? 1 : 0;
    }
    return unheard;
}

std::string Ledger::check(const QString& file) const
{
    SQLite::Database database(file.toStdString(), SQLite::OPEN_READWRITE);
    const std::string sound = database.execAndGet("PRAGMA integrity_check").getString();
    if (sound != "ok")
        return sound;
    struct Wanted {
        int least = 0;
        int most = 0;
    };
    std::map<Trace, Wanted> wanted;
    std::map<Trace, std::set<std::uint64_t>> calls;
    std::map<std::uint64_t, std::string> pictures;
    Traces traces = tracesIn(database);
    for (const auto& [request, entry] : m_entries) {
        const bool done = entry.state == State::acknowledged;
        const std::string kind = entry.trace.substr(0, entry.trace.find('\t'));
        if (kind == "call") {
            if (done)
                calls[entry.trace].insert(entry.item);
            else if (entry.state == State::open)
                return "a call for help was never answered";
        } else if (kind == "picture") {
            if (done && !pictures.emplace(entry.item, entry.trace.substr(entry.trace.find('\t') + 1)).second)
                return "two pictures under one number: " + entry.trace;
        } else if (kind == "taken" || kind == "done") {
            const char* sql = kind == "taken" ? "SELECT 1 FROM calls WHERE id = ? AND taken_by IS NOT NULL"
                                              : "SELECT 1 FROM calls WHERE id = ? AND done_at IS NOT NULL";
            if (done && !holds(database, sql, numberAfterTab(entry.trace)))
                return "acknowledged and not so: " + entry.trace;
        } else {
            wanted[entry.trace].least += done ? 1 : 0;
            wanted[entry.trace].most += entry.state == State::refused ? 0 : 1;
            if (done && kind == "board" && traces[entry.trace].item != entry.item)
                return "acknowledged under another number: " + entry.trace;
        }
    }
    for (const auto& [trace, found] : traces)
        wanted.try_emplace(trace);
    for (const auto& [trace, times] : wanted) {
        const int there = traces[trace].times;
        if (there < times.least || there > times.most)
            return "there " + std::to_string(there) + " times, acknowledged " + std::to_string(times.least) +
                   ", asked for " + std::to_string(times.most) + ": " + trace;
    }
    const std::string fault = checkPictures(database, pictures);
    return fault.empty() ? checkCalls(database, calls) : fault;
}

std::string checkBoard(const QString& file, const std::map<std::uint64_t, std::string>& told)
{
    SQLite::Database database(file.toStdString(), SQLite::OPEN_READWRITE);
    SQLite::Statement query(database, "SELECT id, text, state = 1, row_number() OVER (ORDER BY change DESC) <= 50"
                                      " FROM board WHERE was_shown = 1 AND to_person IS NULL ORDER BY change DESC");
    while (query.executeStep()) {
        const auto seen = told.find(static_cast<std::uint64_t>(query.getColumn(0).getInt64()));
        const std::string text = query.getColumn(1).getString();
        const bool isOn = query.getColumn(2).getInt() != 0;
        if (isOn && query.getColumn(3).getInt() != 0 && seen == told.end())
            return "a home was not told: " + text;
        if (isOn && seen != told.end() && seen->second != text)
            return "a home was told otherwise: " + text;
        if (!isOn && seen != told.end())
            return "a home has it still: " + text;
    }
    return {};
}

std::string checkDesk(const QString& file, const std::map<std::uint64_t, wire::DeskItem>& told)
{
    SQLite::Database database(file.toStdString(), SQLite::OPEN_READWRITE);
    SQLite::Statement query(database, "SELECT id, state, text FROM board WHERE kind IN (0, 2)");
    while (query.executeStep()) {
        const auto seen = told.find(static_cast<std::uint64_t>(query.getColumn(0).getInt64()));
        const auto state = static_cast<wire::DeskState>(query.getColumn(1).getInt());
        const bool isDone = state == wire::DeskState::shown;
        if (seen == told.end() ? !isDone : seen->second.state != state)
            return "the leader was told otherwise: " + query.getColumn(2).getString();
    }
    return {};
}

} // namespace vh::testing
