#pragma once
// What is asked of the bytes of a file before any YAML is read, and the way from bytes to lines and columns.
// Internal to the reader. Any thread.
#include "common/script/script_error.h"

#include <cstddef>
#include <string_view>
#include <vector>

namespace vh
{

/// Complains about size, bad UTF-8 and control characters (yaml-cpp takes some of those for the end of the file).
/// True when there was nothing to complain about.
bool checkSource(std::string_view bytes, Complaints& complaints);

/// Where a byte of well-formed text stands. Asking costs the same anywhere, also in a line as long as the file.
class LineIndex
{
public:
    /// `text` must outlive the index.
    explicit LineIndex(std::string_view text);
    [[nodiscard]] SourceSpot spotAt(std::size_t byte) const;
    /// From a line and a column in bytes, both from 0.
    [[nodiscard]] SourceSpot spotAt(int line, int byteColumn) const;

private:
    [[nodiscard]] std::size_t codePointsBefore(std::size_t byte) const;

    std::string_view m_text;
    std::vector<std::size_t> m_pointsBeforeBlock;
    std::vector<std::size_t> m_lineStarts;
};

} // namespace vh
