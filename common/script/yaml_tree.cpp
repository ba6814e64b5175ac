#include "common/script/yaml_tree.h"

#include "common/script/source_check.h"

#include <array>
#include <sstream>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/mark.h>
#include <yaml-cpp/parser.h>

namespace vh
{

namespace
{

/// Thrown through the parser to end it at once; the complaint has been made.
struct Stop {
};

/// yaml-cpp 0.7 takes the end of the file for the end of a quotation. So a comment goes behind the file, made of a
/// character that no file may hold: when it turns up inside a value, a quotation mark was never closed.
constexpr std::string_view kBehindTheFile = "\n# \x01\x02\x01\n";
constexpr std::string_view kTrace = "\x01\x02\x01";

class TreeBuilder final : public YAML::EventHandler
{
public:
    TreeBuilder(const LineIndex& lines, Complaints& complaints) : m_lines(lines), m_complaints(complaints) {}

    YamlNode takeRoot() { return std::move(m_root); }

    void OnDocumentStart(const YAML::Mark&) override {}
    void OnDocumentEnd() override {}

    void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override
    {
        place(leaf(YamlNode::Kind::nothing, mark, anchor, ""));
    }

    void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override
    {
        refuseAnchors(mark);
        place(leaf(YamlNode::Kind::refused, mark, 0, ""));
    }

    void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  const std::string& value) override
    {
        YamlNode node = leaf(YamlNode::Kind::scalar, mark, anchor, tag);
        if (value.find(kTrace) != std::string::npos) {
            m_complaints.add("syntax", node.at, "A quotation mark is never closed.",
                             "Close the text with the mark it began with.");
            throw Stop{};
        }
        node.scalar = value;
        place(std::move(node));
    }

    void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                         YAML::EmitterStyle::value) override
    {
        open(leaf(YamlNode::Kind::list, mark, anchor, tag));
    }

    void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                    YAML::EmitterStyle::value) override
    {
        open(leaf(YamlNode::Kind::map, mark, anchor, tag));
    }

    void OnSequenceEnd() override { close(); }
    void OnMapEnd() override { close(); }

private:
    YamlNode leaf(YamlNode::Kind kind, const YAML::Mark& mark, YAML::anchor_t anchor, const std::string& tag)
    {
        YamlNode node;
        node.kind = kind;
        node.at = m_lines.spotAt(mark.line, mark.column);
        if (++m_count > limits::kMaxYamlNodes) {
            m_complaints.add("too-many-parts", node.at, "The file has more than 20,000 keys and values.",
                             "Keep one class in one file.");
            throw Stop{};
        }
        if (anchor != 0)
            refuseAnchors(mark);
        if (!tag.empty() && tag != "?" && tag != "!")
            m_complaints.add("tag", node.at, "A YAML tag (!...) stands here.",
                             "Leave it out; put text that begins with ! in quotes.");
        return node;
    }

    void refuseAnchors(const YAML::Mark& mark)
    {
        m_complaints.add("anchor", m_lines.spotAt(mark.line, mark.column),
                         "A YAML anchor (&) or alias (*) stands here.",
                         "Write the value out; put text that begins with & or * in quotes.");
    }

    void open(YamlNode node)
    {
        if (static_cast<int>(m_open.size()) == limits::kMaxYamlDepth) {
            m_complaints.add("too-deep", node.at, "Lists or mappings lie more than 12 deep in each other.",
                             "A class has sections, steps, rounds and turns; nothing lies deeper.");
            throw Stop{};
        }
        m_open.push_back(std::move(node));
    }

    void close()
    {
        YamlNode node = std::move(m_open.back());
        m_open.pop_back();
        place(std::move(node));
    }

    void place(YamlNode node)
    {
        if (m_open.empty()) {
            m_root = std::move(node);
            return;
        }
        YamlNode& parent = m_open.back();
        const bool isKey = parent.kind == YamlNode::Kind::map && parent.keys.size() == parent.items.size();
        (isKey ? parent.keys : parent.items).push_back(std::move(node));
    }

    const LineIndex& m_lines;
    Complaints& m_complaints;
    std::vector<YamlNode> m_open;
    YamlNode m_root;
    std::size_t m_count = 0;
};

/// yaml-cpp's words for the mistakes that people make, and ours.
struct Plain {
    std::string_view theirs;
    std::string_view message;
    std::string_view remedy;
};
const std::array<Plain, 13> kPlain{{
    {YAML::ErrorMsg::MAP_VALUE, "A colon stands where none can.", "Put text that holds \": \" in double quotes."},
    {YAML::ErrorMsg::MAP_KEY, "A question mark or key stands where none can.", "Put the text in double quotes."},
    {YAML::ErrorMsg::TAB_IN_INDENTATION, "A line begins with a tab.", "Indent with spaces."},
    {YAML::ErrorMsg::END_OF_MAP, "This line does not belong to the keys above it.",
     "Begin every key of a mapping in the same column, and follow it by a colon and a space."},
    {YAML::ErrorMsg::END_OF_SEQ, "This line does not belong to the list above it.",
     "Begin every entry of a list with \"- \" in the same column."},
    {YAML::ErrorMsg::END_OF_MAP_FLOW, "A { is never closed.", "Close it with }, or put the text in double quotes."},
    {YAML::ErrorMsg::END_OF_SEQ_FLOW, "A [ is never closed.", "Close it with ], or put the text in double quotes."},
    {YAML::ErrorMsg::FLOW_END, "A ] or } stands without its beginning.",
     "Delete it, or put the text in double quotes."},
    {YAML::ErrorMsg::BLOCK_ENTRY, "A list entry (\"- \") stands where none can.", "Begin it on a line of its own."},
    {YAML::ErrorMsg::EOF_IN_SCALAR, "A quotation mark is never closed.", "Close the text with the mark it began with."},
    {YAML::ErrorMsg::INVALID_ESCAPE, "A backslash stands before a character it does not go with.",
     "Inside double quotes write a backslash twice."},
    {YAML::ErrorMsg::UNKNOWN_ANCHOR, "A YAML alias (*) stands here.", "Put text that begins with * in quotes."},
    {YAML::ErrorMsg::UNKNOWN_TOKEN, "Text cannot begin with this character.", "Put the text in double quotes."},
}};

void complainOfSyntax(const YAML::Exception& error, const LineIndex& lines, Complaints& complaints)
{
    const SourceSpot at = lines.spotAt(error.mark.line, error.mark.column);
    for (const Plain& plain : kPlain)
        if (error.msg.starts_with(plain.theirs))
            return complaints.add("syntax", at, std::string(plain.message), std::string(plain.remedy));
    complaints.add("syntax", at, "This is not YAML: " + error.msg + ".",
                   "Compare with the example in docs/class-script.md.");
}

std::string_view withoutByteOrderMark(std::string_view bytes)
{
    return bytes.starts_with("\xEF\xBB\xBF") ? bytes.substr(3) : bytes;
}

} // namespace

std::optional<YamlNode> parseYaml(std::string_view bytes, Complaints& complaints)
{
    bytes = withoutByteOrderMark(bytes);
    if (!checkSource(bytes, complaints))
        return std::nullopt;
    const LineIndex lines(bytes);
    TreeBuilder builder(lines, complaints);
    std::istringstream stream{std::string(bytes).append(kBehindTheFile)};
    try {
        YAML::Parser parser(stream);
        if (!parser.HandleNextDocument(builder)) {
            complaints.add("empty-file", {}, "There is no class in this file.", "Begin with \"title: \".");
            return std::nullopt;
        }
        YamlNode root = builder.takeRoot();
        if (parser.HandleNextDocument(builder)) {
            complaints.add("second-document", builder.takeRoot().at, "A second YAML document begins here.",
                           "Keep one class in one file, without --- between its parts.");
            return std::nullopt;
        }
        return root;
    } catch (const Stop&) {
        return std::nullopt;
    } catch (const YAML::Exception& error) {
        complainOfSyntax(error, lines, complaints);
    } catch (const std::exception& error) {
        complaints.add("syntax", {}, std::string("This is not YAML: ") + error.what() + ".",
                       "Compare with the example in docs/class-script.md.");
    }
    return std::nullopt;
}

} // namespace vh
