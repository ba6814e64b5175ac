#pragma once
// What was asked of a relay in a session, what of it was acknowledged or refused, and whether the relay's file says the
// same: each acknowledged thing once, each unanswered one at most once, and nothing that nobody asked for. Thread: one.
#include "common/wire/to_desk.h"

#include <QString>
#include <QTemporaryDir>

#include <map>
#include <string>

namespace vh::testing
{

/// What a request leaves behind, as a line of words: "board TEXT", "picture CAPTION", "log WHO WHAT DETAIL", "phoned
/// NAME", "call WHO", "taken CALL", "done CALL". Fields are parted by tabs.
using Trace = std::string;

/// Is told of a request before it goes out, and of its answer.
class Scribe
{
public:
    virtual ~Scribe() = default;
    virtual void asked(const std::string& request, const Trace& trace) = 0;
    virtual void acknowledged(const std::string& request, std::uint64_t item) = 0;
    virtual void refused(const std::string& request, const std::string& code) = 0;
};

class Ledger final : public Scribe
{
public:
    void asked(const std::string& request, const Trace& trace) override;
    void acknowledged(const std::string& request, std::uint64_t item) override;
    void refused(const std::string& request, const std::string& code) override;

    [[nodiscard]] std::size_t count() const { return m_entries.size(); }
    [[nodiscard]] std::size_t acknowledgedCount() const;
    /// By what was asked for, with how many were acknowledged: for whoever reads the test's output.
    [[nodiscard]] std::string summary() const;
    /// Requests that are done in this file though nobody has been told so.
    [[nodiscard]] int doneUnheard(const QString& file) const;
    /// What is wrong; empty when all is well. Nobody else may have the file open.
    [[nodiscard]] std::string check(const QString& file) const;

private:
    enum class State { open, acknowledged, refused };
    struct Entry {
        Trace trace;
        State state = State::open;
        std::uint64_t item = 0;
    };
    std::map<std::string, Entry> m_entries; ///< by the request's id
};

/// Whether those who have been there all along were told what the file says, though the relay ended again and again:
/// the newest of the board; and every item of the desk. What is wrong, or empty.
std::string checkBoard(const QString& file, const std::map<std::uint64_t, std::string>& told);
std::string checkDesk(const QString& file, const std::map<std::uint64_t, wire::DeskItem>& told);

} // namespace vh::testing
