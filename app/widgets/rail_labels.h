#pragma once
// Where the labels along the rail stand: each at the left edge of its box where it can, in order, none over another,
// all whole. Where not all of them find room, those of the shortest parts go; the current one stays. Pure; px.
#include <optional>
#include <vector>

namespace vh
{

struct RailLabel {
    double at = 0;    ///< left edge of its box
    double width = 0; ///< of the words
    double box = 0;   ///< width of its box: what it is worth
    bool current = false;
};

/// Left edges; none where a label found no room.
std::vector<std::optional<double>> placeLabels(const std::vector<RailLabel>& labels, double room, double gap);

} // namespace vh
