#pragma once
// One mapping of the file, read key by key: which keys it may have, what each may hold. Everything wrong goes to the
// complaints; what is returned instead is only good for reading on. Internal to the reader. Any thread.
#include "common/base/clock.h"
#include "common/base/text.h"
#include "common/script/yaml_tree.h"

#include <span>
#include <string>
#include <string_view>

namespace vh
{

/// "quoted", shortened and free of anything that a screen should not show.
std::string quoted(std::string_view text);

/// Seconds such as "7" or "7.25" (at most three decimals), without limits; nothing for anything else.
std::optional<Millis> secondsOf(std::string_view text);

class Fields
{
public:
    /// `what` names the mapping in messages ("a step"). Complains when the node is no mapping, and about unknown and
    /// repeated keys. The node and the names must outlive this.
    Fields(const YamlNode& node, std::string_view what, std::span<const std::string_view> known,
           Complaints& complaints);

    [[nodiscard]] bool isMap() const { return m_node.kind == YamlNode::Kind::map; }
    /// The value of a key, or null when the key is absent.
    [[nodiscard]] const YamlNode* find(std::string_view key) const;
    /// As find(), and complains when the key is absent or holds nothing.
    const YamlNode* need(std::string_view key, std::string_view remedy);
    /// A list with at least one and at most `most` entries; null (and a complaint, unless absent) for anything else.
    const YamlNode* list(std::string_view key, std::size_t most);

    /// Text as scripts hold it: tabs become spaces, outer white space goes. Empty when absent.
    std::string text(std::string_view key, std::size_t maxCodePoints, LineBreaks breaks);
    std::string neededText(std::string_view key, std::size_t maxCodePoints, LineBreaks breaks);
    std::optional<int> number(std::string_view key, int least, int most);
    std::optional<Millis> seconds(std::string_view key);
    bool yesNo(std::string_view key);

private:
    [[nodiscard]] std::optional<std::size_t> indexOf(std::string_view key) const;
    /// Complains when the key's value is not a single value. Null when there is nothing to read.
    const YamlNode* scalar(std::string_view key, std::string_view remedy);

    const YamlNode& m_node;
    std::string_view m_what;
    Complaints& m_complaints;
};

} // namespace vh
