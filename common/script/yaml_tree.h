#pragma once
// A YAML document as a small tree that remembers where everything stood. Built from yaml-cpp's events, never from its
// nodes: anchors and aliases are refused as they come, so nothing can be multiplied, and depth and number of nodes are
// bounded while parsing. Internal to the reader. Any thread.
#include "common/script/script_error.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace vh
{

struct YamlNode {
    /// `refused` has been complained about already: say nothing more about it.
    enum class Kind { nothing, scalar, list, map, refused };
    Kind kind = Kind::nothing;
    SourceSpot at;
    std::string scalar;
    std::vector<YamlNode> keys;  ///< of a map, as many as items
    std::vector<YamlNode> items; ///< of a list or map
};

/// The one document of the file, or nothing when it could not be parsed to its end; every reason is in `complaints`,
/// which may also hold complaints (anchors, tags) about a document that is returned.
std::optional<YamlNode> parseYaml(std::string_view bytes, Complaints& complaints);

} // namespace vh
