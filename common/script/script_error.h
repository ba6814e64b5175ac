#pragma once
// What is wrong with a class script file, and where; and the place where a reader gathers it.
#include "common/script/limits.h"

#include <string>
#include <utility>
#include <vector>

namespace vh
{

/// One mistake in a file, in words fit for the person who writes the class. Codes: docs/class-script.md.
struct ScriptError {
    std::string file;
    int line = 1;        ///< from 1
    int column = 1;      ///< from 1, in code points
    std::string message; ///< what is wrong
    std::string remedy;  ///< what would be right
    std::string code;    ///< stable; lower-case, hyphens
    friend bool operator==(const ScriptError&, const ScriptError&) = default;
};

struct SourceSpot {
    int line = 1;
    int column = 1;
    friend auto operator<=>(const SourceSpot&,
                            const SourceSpot&) = default; // NOLINT(modernize-use-nullptr): clang-tidy 14
};

/// Gathers the errors of one file. After kMaxReportedErrors it takes one more, which says that there are more.
class Complaints
{
public:
    explicit Complaints(std::string file) : m_file(std::move(file)) {}

    void add(std::string code, SourceSpot at, std::string message, std::string remedy)
    {
        if (m_errors.size() == limits::kMaxReportedErrors)
            m_errors.push_back({m_file, at.line, at.column, "There are more mistakes than are listed here.",
                                "Mend those above and read the file again.", "too-many-errors"});
        if (m_errors.size() > limits::kMaxReportedErrors)
            return;
        m_errors.push_back({m_file, at.line, at.column, std::move(message), std::move(remedy), std::move(code)});
    }

    [[nodiscard]] bool none() const { return m_errors.empty(); }
    [[nodiscard]] std::size_t count() const { return m_errors.size(); }
    /// In the order of the file.
    [[nodiscard]] std::vector<ScriptError> take();

private:
    std::string m_file;
    std::vector<ScriptError> m_errors;
};

} // namespace vh
