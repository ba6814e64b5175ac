#include "common/script/source_check.h"

#include "common/base/text.h"

#include <algorithm>

namespace vh
{

namespace
{

constexpr std::size_t kBlock = 256; // bytes

std::size_t firstNotUtf8(std::string_view bytes)
{
    std::size_t good = 0;
    for (const char32_t point : codePointsOf(bytes))
        good += point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4;
    return good;
}

bool isControl(std::string_view bytes, std::size_t i)
{
    const auto c = static_cast<unsigned char>(bytes[i]);
    if (c == '\r')
        return i + 1 == bytes.size() || bytes[i + 1] != '\n';
    const bool c1 = c == 0xC2 && i + 1 < bytes.size() && static_cast<unsigned char>(bytes[i + 1]) < 0xA0;
    return (c < 0x20 && c != '\n' && c != '\t') || c == 0x7F || c1;
}

} // namespace

bool checkSource(std::string_view bytes, Complaints& complaints)
{
    const std::size_t before = complaints.count();
    if (bytes.size() > limits::kMaxScriptBytes) {
        complaints.add("file-too-big", {}, "The file is larger than 512 KiB.",
                       "A class of twenty minutes needs about 10 KiB: is this the right file?");
        return false;
    }
    const std::size_t good = firstNotUtf8(bytes);
    const std::string_view text = bytes.substr(0, good);
    const LineIndex lines(text);
    const std::size_t most = before + limits::kMaxReportedErrors;
    for (std::size_t i = 0; i < text.size() && complaints.count() <= most; ++i)
        if (isControl(text, i))
            complaints.add("control-character", lines.spotAt(i), "A control character stands here.",
                           "Delete it: only spaces, tabs and line ends belong between the words.");
    if (good != bytes.size())
        complaints.add("not-utf8", lines.spotAt(good), "From here on the file is not UTF-8 text.",
                       "Save the file as UTF-8 in the editor that made it.");
    return complaints.count() == before;
}

LineIndex::LineIndex(std::string_view text) : m_text(text), m_lineStarts{0}
{
    std::size_t points = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '\n')
            m_lineStarts.push_back(i + 1);
        if (i % kBlock == 0) {
            m_pointsBeforeBlock.push_back(points);
            points += codePointCount(text.substr(i, kBlock));
        }
    }
    m_pointsBeforeBlock.push_back(points);
}

std::size_t LineIndex::codePointsBefore(std::size_t byte) const
{
    const std::size_t block = byte / kBlock;
    return m_pointsBeforeBlock[block] + codePointCount(m_text.substr(block * kBlock, byte % kBlock));
}

SourceSpot LineIndex::spotAt(std::size_t byte) const
{
    byte = std::min(byte, m_text.size());
    const auto line = std::ranges::upper_bound(m_lineStarts, byte) - m_lineStarts.begin();
    const std::size_t start = m_lineStarts[static_cast<std::size_t>(line - 1)];
    return {static_cast<int>(line), static_cast<int>(codePointsBefore(byte) - codePointsBefore(start)) + 1};
}

SourceSpot LineIndex::spotAt(int line, int byteColumn) const
{
    if (line < 0 || byteColumn < 0)
        return {};
    const auto row = std::min(static_cast<std::size_t>(line), m_lineStarts.size() - 1);
    return spotAt(m_lineStarts[row] + static_cast<std::size_t>(byteColumn));
}

} // namespace vh
