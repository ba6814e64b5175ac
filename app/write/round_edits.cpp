#include "app/write/round_edits.h"

#include "common/script/limits.h"
#include "common/script/spoken_pace.h"

#include <algorithm>
#include <cmath>

namespace vh::write
{

namespace
{

constexpr Millis kGrain{500};
constexpr Millis kReady{2000};

/// What usually comes after it.
Turn turnAfter(const Turn& turn)
{
    return turn.kind == TurnKind::listen ? Turn{TurnKind::ready, kReady}
                                         : Turn{TurnKind::yours, std::max(turn.planned, Millis{4000})};
}

Millis snapped(Millis length, int by)
{
    const Millis on = length / kGrain * kGrain;
    if (by < 0)
        return on == length ? on - kGrain : on;
    return on + kGrain;
}

bool timedByText(std::vector<Round>& rounds, const Step& step, std::string_view language)
{
    bool any = false;
    for (Round& round : rounds)
        for (Turn& turn : round.turns)
            if (const auto length = plannedAsSpoken(language, turn.kind, step.text, step.stretches.size())) {
                any = any || turn.planned != *length;
                turn.planned = *length;
            }
    return any;
}

bool dropTurn(std::vector<Round>& rounds, TurnSpot at)
{
    auto& turns = rounds[static_cast<std::size_t>(at.round)].turns;
    if (turns.size() == 1 && rounds.size() == 1)
        return false;
    turns.erase(turns.begin() + at.turn);
    if (turns.empty())
        rounds.erase(rounds.begin() + at.round);
    return true;
}

} // namespace

TurnSpot nearestTurn(const std::vector<Round>& rounds, TurnSpot at)
{
    if (rounds.empty())
        return {};
    at.round = std::clamp(at.round, 0, static_cast<int>(rounds.size()) - 1);
    const auto& turns = rounds[static_cast<std::size_t>(at.round)].turns;
    at.turn = std::clamp(at.turn, 0, std::max(0, static_cast<int>(turns.size()) - 1));
    return at;
}

std::optional<EditedRounds> editedRounds(const Step& step, TurnSpot at, RoundEdit what, std::string_view language)
{
    EditedRounds all{step.rounds, nearestTurn(step.rounds, at)};
    if (all.rounds.empty() || all.rounds[static_cast<std::size_t>(all.at.round)].turns.empty())
        return std::nullopt;
    Round& round = all.rounds[static_cast<std::size_t>(all.at.round)];
    Turn& turn = round.turns[static_cast<std::size_t>(all.at.turn)];
    bool done = true;
    switch (what) {
    case RoundEdit::listen:
    case RoundEdit::ready:
    case RoundEdit::withMe:
    case RoundEdit::yours: {
        const auto kind = static_cast<TurnKind>(static_cast<int>(what) - static_cast<int>(RoundEdit::listen));
        done = turn.kind != kind;
        turn.kind = kind;
        break;
    }
    case RoundEdit::shorter:
    case RoundEdit::longer: {
        const Millis length = snapped(turn.planned, what == RoundEdit::shorter ? -1 : 1);
        done = length >= limits::kMinTurn && length <= limits::kMaxTurn;
        turn.planned = done ? length : turn.planned;
        break;
    }
    case RoundEdit::addTurn:
        done = round.turns.size() < limits::kMaxTurnsPerRound;
        if (done)
            round.turns.insert(round.turns.begin() + ++all.at.turn, turnAfter(turn));
        break;
    case RoundEdit::dropTurn:
        done = dropTurn(all.rounds, all.at);
        break;
    case RoundEdit::addRound:
        done = all.rounds.size() < limits::kMaxRoundsPerStep;
        if (done)
            all.rounds.insert(all.rounds.begin() + ++all.at.round, Round(round));
        break;
    case RoundEdit::dropRound:
        done = all.rounds.size() > 1;
        if (done)
            all.rounds.erase(all.rounds.begin() + all.at.round);
        break;
    case RoundEdit::moreVoice:
        round.moreVoice = !round.moreVoice;
        break;
    case RoundEdit::byText:
        done = timedByText(all.rounds, step, language);
        break;
    }
    if (!done)
        return std::nullopt;
    all.at = nearestTurn(all.rounds, all.at);
    return all;
}

std::optional<EditedRounds> withSeconds(const Step& step, TurnSpot at, double seconds)
{
    EditedRounds all{step.rounds, nearestTurn(step.rounds, at)};
    const Millis length{std::lround(seconds * 1000)};
    if (all.rounds.empty() || length < limits::kMinTurn || length > limits::kMaxTurn)
        return std::nullopt;
    all.rounds[static_cast<std::size_t>(all.at.round)].turns[static_cast<std::size_t>(all.at.turn)].planned = length;
    return all;
}

} // namespace vh::write
