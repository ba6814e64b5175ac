#include "app/widgets/rail_labels.h"

#include <algorithm>

namespace vh
{

namespace
{

double wanted(const std::vector<RailLabel>& labels, const std::vector<bool>& stays, double gap)
{
    double sum = -gap;
    for (std::size_t i = 0; i < labels.size(); ++i)
        sum += stays[i] ? labels[i].width + gap : 0;
    return sum;
}

} // namespace

std::vector<std::optional<double>> placeLabels(const std::vector<RailLabel>& labels, double room, double gap)
{
    std::vector<bool> stays(labels.size(), true);
    while (wanted(labels, stays, gap) > room) {
        std::optional<std::size_t> least;
        for (std::size_t i = 0; i < labels.size(); ++i)
            if (stays[i] && !labels[i].current && (!least || labels[i].box < labels[*least].box))
                least = i;
        if (!least)
            break; // the current one alone
        stays[*least] = false;
    }
    std::vector<std::optional<double>> places(labels.size());
    double free = 0;
    for (std::size_t i = 0; i < labels.size(); ++i) {
        if (!stays[i])
            continue;
        places[i] = std::max(labels[i].at, free);
        free = *places[i] + labels[i].width + gap;
    }
    double limit = room;
    for (std::size_t i = labels.size(); i-- > 0;) {
        if (!stays[i])
            continue;
        places[i] = std::max(std::min(*places[i], limit - labels[i].width), 0.0);
        limit = *places[i] - gap;
    }
    return places;
}

} // namespace vh
