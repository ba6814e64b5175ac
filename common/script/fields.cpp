#include "common/script/fields.h"

#include "common/script/nearest.h"
#include "common/script/valid.h"

#include <algorithm>
#include <charconv>
#include <set>

namespace vh
{

namespace
{

std::string trimmed(std::string text)
{
    std::ranges::replace(text, '\t', ' ');
    const auto first = text.find_first_not_of(" \n");
    if (first == std::string::npos)
        return {};
    return text.substr(first, text.find_last_not_of(" \n") - first + 1);
}

std::string rangeRemedy(std::string_view key, std::string_view least, std::string_view most)
{
    return "Give " + std::string(key) + " from " + std::string(least) + " to " + std::string(most) + ".";
}

} // namespace

std::string quoted(std::string_view text)
{
    constexpr std::size_t kShown = 40;
    auto clean = cleanLine(text, text.size());
    if (!clean)
        return "\"\"";
    std::size_t points = 0;
    for (std::size_t i = 0; i < clean->size(); ++i)
        if ((static_cast<unsigned char>((*clean)[i]) & 0xC0) != 0x80 && ++points > kShown)
            return '"' + clean->substr(0, i) + "...\"";
    return '"' + *clean + '"';
}

std::optional<Millis> secondsOf(std::string_view text)
{
    const auto dot = text.find('.');
    const std::string_view whole = text.substr(0, dot);
    std::string digits(dot == std::string_view::npos ? std::string_view("0") : text.substr(dot + 1));
    const auto isDigits = [](std::string_view part) {
        return !part.empty() && std::ranges::all_of(part, [](char c) { return c >= '0' && c <= '9'; });
    };
    if (!isDigits(whole) || !isDigits(digits) || whole.size() > 9 || digits.size() > 3)
        return std::nullopt;
    digits.resize(3, '0');
    return Millis{std::stoll(std::string(whole)) * 1000 + std::stoll(digits)};
}

Fields::Fields(const YamlNode& node, std::string_view what, std::span<const std::string_view> known,
               Complaints& complaints)
    : m_node(node), m_what(what), m_complaints(complaints)
{
    if (node.kind == YamlNode::Kind::refused)
        return;
    if (!isMap()) {
        complaints.add("wrong-type", node.at, "Here " + std::string(what) + " should stand.",
                       "Write it as keys and values, beginning with \"" + std::string(known.front()) + ": \".");
        return;
    }
    std::set<std::string_view> seen;
    for (const YamlNode& key : node.keys) {
        if (key.kind == YamlNode::Kind::refused)
            continue;
        if (key.kind != YamlNode::Kind::scalar) {
            complaints.add("wrong-type", key.at, "A key is not a word.", nameRemedy("", known));
        } else if (std::ranges::find(known, key.scalar) == known.end()) {
            complaints.add("unknown-key", key.at, quoted(key.scalar) + " is not a key of " + std::string(what) + ".",
                           nameRemedy(key.scalar, known));
        } else if (!seen.insert(key.scalar).second) {
            complaints.add("duplicate-key", key.at, quoted(key.scalar) + " stands twice in " + std::string(what) + ".",
                           "Keep one of the two.");
        }
    }
}

std::optional<std::size_t> Fields::indexOf(std::string_view key) const
{
    for (std::size_t i = 0; i < m_node.keys.size(); ++i)
        if (m_node.keys[i].kind == YamlNode::Kind::scalar && m_node.keys[i].scalar == key)
            return i;
    return std::nullopt;
}

const YamlNode* Fields::find(std::string_view key) const
{
    const auto index = indexOf(key);
    return index ? &m_node.items[*index] : nullptr;
}

const YamlNode* Fields::need(std::string_view key, std::string_view remedy)
{
    const YamlNode* value = find(key);
    if (value != nullptr && value->kind != YamlNode::Kind::nothing)
        return value;
    if (isMap())
        m_complaints.add("missing-key", value != nullptr ? m_node.keys[*indexOf(key)].at : m_node.at,
                         "\"" + std::string(key) + "\" is missing in " + std::string(m_what) + ".",
                         std::string(remedy));
    return nullptr;
}

const YamlNode* Fields::list(std::string_view key, std::size_t most)
{
    const YamlNode* value = find(key);
    if (value == nullptr || value->kind == YamlNode::Kind::refused)
        return nullptr;
    const SourceSpot keyAt = m_node.keys[*indexOf(key)].at;
    const std::string name = "\"" + std::string(key) + "\"";
    if (value->kind == YamlNode::Kind::nothing || (value->kind == YamlNode::Kind::list && value->items.empty())) {
        m_complaints.add("empty-list", keyAt, name + " holds nothing.", "Give at least one entry.");
    } else if (value->kind != YamlNode::Kind::list) {
        m_complaints.add("wrong-type", value->at, name + " is not a list.",
                         "Write its entries below it, each beginning with \"- \".");
    } else if (value->items.size() > most) {
        m_complaints.add("too-many", value->items[most].at,
                         name + " has more than " + std::to_string(most) + " entries.",
                         "Leave out those from here on.");
    } else {
        return value;
    }
    return nullptr;
}

const YamlNode* Fields::scalar(std::string_view key, std::string_view remedy)
{
    const YamlNode* value = find(key);
    if (value == nullptr || value->kind == YamlNode::Kind::nothing || value->kind == YamlNode::Kind::refused)
        return nullptr;
    if (value->kind == YamlNode::Kind::scalar)
        return value;
    m_complaints.add("wrong-type", value->at, "\"" + std::string(key) + "\" is a list or mapping.",
                     std::string(remedy));
    return nullptr;
}

std::string Fields::text(std::string_view key, std::size_t maxCodePoints, LineBreaks breaks)
{
    const YamlNode* value = scalar(key, "Write text; put it in quotes where it begins with [ or {.");
    if (value == nullptr)
        return {};
    std::string text = trimmed(value->scalar);
    if (!isFitText(text, text.size(), breaks)) {
        m_complaints.add("bad-text", value->at,
                         "\"" + std::string(key) +
                             "\" holds line breaks, control characters or hidden direction marks.",
                         "Delete them; only the text and the note of a step may have line breaks.");
        return {};
    }
    if (codePointCount(text) > maxCodePoints) {
        m_complaints.add("too-long", value->at,
                         "\"" + std::string(key) + "\" has more than " + std::to_string(maxCodePoints) + " characters.",
                         "Shorten it, or divide it.");
        return {};
    }
    return text;
}

std::string Fields::neededText(std::string_view key, std::size_t maxCodePoints, LineBreaks breaks)
{
    const YamlNode* value = need(key, "Add \"" + std::string(key) + ": \" with a few words.");
    if (value == nullptr)
        return {};
    if (value->kind == YamlNode::Kind::scalar && trimmed(value->scalar).empty()) {
        m_complaints.add("empty-text", value->at, "\"" + std::string(key) + "\" is empty.", "Write a few words.");
        return {};
    }
    return text(key, maxCodePoints, breaks);
}

std::optional<int> Fields::number(std::string_view key, int least, int most)
{
    const std::string remedy = rangeRemedy(key, std::to_string(least), std::to_string(most));
    const YamlNode* value = scalar(key, remedy);
    if (value == nullptr)
        return std::nullopt;
    int number = 0;
    const char* const end = value->scalar.data() + value->scalar.size();
    const auto [stop, error] = std::from_chars(value->scalar.data(), end, number);
    if (error == std::errc::invalid_argument || stop != end) {
        m_complaints.add("not-a-number", value->at, quoted(value->scalar) + " is not a whole number.", remedy);
    } else if (error != std::errc{} || number < least || number > most) {
        m_complaints.add("out-of-range", value->at, quoted(value->scalar) + " is out of range.", remedy);
    } else {
        return number;
    }
    return std::nullopt;
}

std::optional<Millis> Fields::seconds(std::string_view key)
{
    const std::string remedy = rangeRemedy(key, "0.5", "600");
    const YamlNode* value = scalar(key, remedy);
    if (value == nullptr)
        return std::nullopt;
    const auto seconds = secondsOf(value->scalar);
    if (!seconds)
        m_complaints.add("not-a-number", value->at, quoted(value->scalar) + " is not a number of seconds.", remedy);
    else if (*seconds < limits::kMinTurn || *seconds > limits::kMaxTurn)
        m_complaints.add("out-of-range", value->at, quoted(value->scalar) + " is out of range.", remedy);
    else
        return seconds;
    return std::nullopt;
}

bool Fields::yesNo(std::string_view key)
{
    const YamlNode* value = scalar(key, "Write yes or no.");
    if (value == nullptr)
        return false;
    if (value->scalar == "yes" || value->scalar == "true")
        return true;
    if (value->scalar != "no" && value->scalar != "false")
        m_complaints.add("wrong-type", value->at, quoted(value->scalar) + " is neither yes nor no.",
                         "Write yes or no.");
    return false;
}

} // namespace vh
