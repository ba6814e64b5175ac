#include "common/lexicon/letter_training.h"

#include <algorithm>
#include <deque>
#include <map>

namespace vh::lexicon
{

namespace
{

/// One letter of one word, with what it gives.
struct Example {
    std::string_view word;
    std::size_t at;
    std::uint16_t label;
};

std::uint16_t commonest(std::span<const Example> examples)
{
    std::map<std::uint16_t, std::size_t> counts;
    for (const Example& example : examples)
        ++counts[example.label];
    return std::max_element(counts.begin(), counts.end(),
                            [](const auto& one, const auto& other) { return one.second < other.second; })
        ->first;
}

/// Grows node `at` from its examples; `depth` letters have been asked for.
void grow(std::vector<LetterTree::Node>& nodes, std::size_t at, std::span<Example> examples, std::size_t depth)
{
    const auto same = [&](const Example& example) { return example.label == nodes[at].label; };
    if (depth == LetterTree::kOrder.size() || std::all_of(examples.begin(), examples.end(), same))
        return;
    const auto letterOf = [by = LetterTree::kOrder[depth]](const Example& example) {
        return letterAt(example.word, example.at, by);
    };
    std::stable_sort(examples.begin(), examples.end(),
                     [&](const Example& one, const Example& other) { return letterOf(one) < letterOf(other); });
    std::vector<std::span<Example>> groups;
    for (auto begin = examples.begin(); begin != examples.end();) {
        const auto end = std::find_if(begin, examples.end(),
                                      [&](const Example& example) { return letterOf(example) != letterOf(*begin); });
        groups.emplace_back(begin, end);
        begin = end;
    }
    const auto first = nodes.size();
    nodes[at].firstChild = static_cast<std::uint32_t>(first);
    nodes[at].children = static_cast<std::uint8_t>(groups.size());
    for (const auto& group : groups)
        nodes.push_back({0, commonest(group), letterOf(group.front()), 0});
    for (std::size_t i = 0; i < groups.size(); ++i)
        grow(nodes, first + i, groups[i], depth + 1);
}

/// Copies what says something else than the node above it.
void copyPruned(const std::vector<LetterTree::Node>& from, std::size_t at, std::vector<LetterTree::Node>& to,
                std::size_t place)
{
    std::vector<std::size_t> kept;
    for (std::size_t child = from[at].firstChild; child < from[at].firstChild + from[at].children; ++child)
        if (from[child].children > 0 || from[child].label != from[at].label)
            kept.push_back(child);
    const std::size_t first = to.size();
    to[place].firstChild = kept.empty() ? 0 : static_cast<std::uint32_t>(first);
    to[place].children = static_cast<std::uint8_t>(kept.size());
    for (const std::size_t child : kept)
        to.push_back({0, from[child].label, from[child].letter, 0});
    for (std::size_t i = 0; i < kept.size(); ++i)
        copyPruned(from, kept[i], to, first + i);
}

} // namespace

LetterTree learnt(const std::vector<Spoken>& words, const Alignment& alignment)
{
    std::deque<std::string> letters; // the examples point into them
    std::vector<Example> examples;
    for (const Spoken& spoken : words) {
        const auto labels = alignment.labels(spoken.word, spoken.phones);
        letters.push_back(prepared(spoken.word));
        for (std::size_t at = 0; at < labels.size(); ++at)
            examples.push_back({letters.back(), at, labels[at]});
    }
    if (examples.empty())
        return {};
    std::vector<LetterTree::Node> grown{{0, commonest(examples), 0, 0}};
    grow(grown, 0, examples, 0);
    std::vector<LetterTree::Node> pruned{{0, grown[0].label, 0, 0}};
    copyPruned(grown, 0, pruned, 0);
    return LetterTree(std::move(pruned));
}

} // namespace vh::lexicon
