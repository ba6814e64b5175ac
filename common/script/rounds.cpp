#include "common/script/rounds.h"

#include "common/script/nearest.h"

#include <array>

namespace vh
{

namespace
{

constexpr std::array<std::string_view, 3> kRoundKeys{"turns", "moreVoice", "times"};
constexpr std::array<std::string_view, 4> kTurnNames{"listen", "ready", "withMe", "yours"};
constexpr std::string_view kTurnRemedy = "Write its name and, if you like, seconds: listen 4.5";

std::optional<TurnSpec> readTurn(const YamlNode& node, bool inPause, Complaints& complaints)
{
    if (node.kind == YamlNode::Kind::refused)
        return std::nullopt;
    if (node.kind != YamlNode::Kind::scalar) {
        complaints.add("wrong-type", node.at, "This is not a turn.", std::string(kTurnRemedy));
        return std::nullopt;
    }
    const std::string_view text = node.scalar;
    const auto space = text.find(' ');
    const std::string_view name = text.substr(0, space);
    const auto kind = turnKindOf(name);
    if (!kind) {
        complaints.add("unknown-name", node.at, quoted(name) + " is not a kind of turn.", nameRemedy(name, kTurnNames));
        return std::nullopt;
    }
    if (inPause && kind != TurnKind::listen) {
        complaints.add("pause-asks", node.at, "A pause asks nothing of anybody, so it has no such turn.",
                       "Use listen, or give \"seconds\" in place of rounds.");
        return std::nullopt;
    }
    TurnSpec turn{*kind, std::nullopt, node.at};
    if (space == std::string_view::npos)
        return turn;
    const std::string_view rest = text.substr(std::min(text.find_first_not_of(' ', space), text.size()));
    turn.seconds = secondsOf(rest);
    if (!turn.seconds) {
        complaints.add("not-a-number", node.at, quoted(rest) + " is not a number of seconds.",
                       std::string(kTurnRemedy));
        return std::nullopt;
    }
    if (*turn.seconds < limits::kMinTurn || *turn.seconds > limits::kMaxTurn) {
        complaints.add("out-of-range", node.at, quoted(rest) + " seconds is out of range.",
                       "A turn lasts from 0.5 to 600 seconds.");
        return std::nullopt;
    }
    return turn;
}

RoundSpec readRound(const YamlNode& node, bool inPause, Complaints& complaints)
{
    Fields fields(node, "a round", kRoundKeys, complaints);
    RoundSpec round;
    round.moreVoice = fields.yesNo("moreVoice");
    round.times = fields.number("times", 1, static_cast<int>(limits::kMaxRoundsPerStep)).value_or(1);
    fields.need("turns", "Add the turns in order: turns: [listen, ready, yours]");
    if (fields.find("turns") == nullptr || fields.find("turns")->kind == YamlNode::Kind::nothing)
        return round;
    if (const YamlNode* turns = fields.list("turns", limits::kMaxTurnsPerRound))
        for (const YamlNode& turn : turns->items)
            if (auto spec = readTurn(turn, inPause, complaints))
                round.turns.push_back(*spec);
    return round;
}

std::vector<RoundSpec> readList(Fields& fields, bool inPause, Complaints& complaints)
{
    std::vector<RoundSpec> specs;
    const YamlNode* rounds = fields.list("rounds", limits::kMaxRoundsPerStep);
    if (rounds == nullptr)
        return specs;
    int total = 0;
    for (const YamlNode& node : rounds->items) {
        specs.push_back(readRound(node, inPause, complaints));
        const int before = total;
        total += specs.back().times;
        const int most = static_cast<int>(limits::kMaxRoundsPerStep);
        if (before <= most && total > most)
            complaints.add("too-many", node.at, "With this there are more than " + std::to_string(most) + " rounds.",
                           "Leave out rounds, or give fewer times.");
    }
    return specs;
}

} // namespace

std::optional<std::vector<RoundSpec>> readRoundSpecs(Fields& fields, bool inPause, Complaints& complaints)
{
    const YamlNode* rounds = fields.find("rounds");
    const YamlNode* seconds = fields.find("seconds");
    if (rounds != nullptr && seconds != nullptr)
        complaints.add("rounds-and-seconds", seconds->at, "\"rounds\" and \"seconds\" stand side by side.",
                       "Keep one: seconds is short for one round with one listen turn.");
    if (rounds != nullptr)
        return readList(fields, inPause, complaints);
    if (seconds == nullptr)
        return std::nullopt;
    fields.need("seconds", "Give seconds from 0.5 to 600.");
    const auto length = fields.seconds("seconds");
    if (!length)
        return std::vector<RoundSpec>{};
    return std::vector<RoundSpec>{{false, 1, {{TurnKind::listen, length, seconds->at}}}};
}

std::optional<Millis> Timing::of(TurnKind kind, const MarkedText& text) const
{
    const std::size_t stretches = text.stretches.size();
    return pace ? pace(language, kind, text.text, stretches) : plannedByRule(kind, text.text, stretches);
}

std::vector<Round> roundsFor(const std::vector<RoundSpec>& specs, const MarkedText& text, Timing timing,
                             SourceSpot stepAt, std::optional<std::size_t>& turnsLeft, Complaints& complaints)
{
    std::vector<Round> rounds;
    bool said = false;
    for (const RoundSpec& spec : specs) {
        Round round{spec.moreVoice, {}};
        for (const TurnSpec& turn : spec.turns) {
            const auto planned = turn.seconds ? turn.seconds : timing.of(turn.kind, text);
            if (!planned && !said) {
                complaints.add("seconds-needed", stepAt,
                               "A turn without seconds needs text with vowels to reckon from, and there are none.",
                               "Write the seconds behind every turn of this step: yours 6");
                said = true;
            }
            round.turns.push_back({turn.kind, planned.value_or(limits::kMinTurn)});
        }
        const std::size_t needed = round.turns.size() * static_cast<std::size_t>(spec.times);
        if (turnsLeft && *turnsLeft < needed) {
            complaints.add("too-many", stepAt,
                           "With this step the class has more than " + std::to_string(limits::kMaxTurns) + " turns.",
                           "Leave out rounds or steps.");
            turnsLeft.reset();
        }
        if (!turnsLeft)
            return rounds;
        *turnsLeft -= needed;
        rounds.insert(rounds.end(), static_cast<std::size_t>(spec.times), round);
    }
    return rounds;
}

} // namespace vh
