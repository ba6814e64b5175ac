#include "common/live/worth_a_word.h"

#include <algorithm>

namespace vh
{

namespace
{

using Turns = std::span<const TurnSeen>;

float meanDb(Turns turns)
{
    float sum = 0;
    for (const TurnSeen& turn : turns)
        sum += turn.overUsualDb;
    return sum / static_cast<float>(turns.size());
}

std::vector<TurnSeen> trustedOf(Turns turns)
{
    std::vector<TurnSeen> trusted;
    std::copy_if(turns.begin(), turns.end(), std::back_inserter(trusted),
                 [](const TurnSeen& turn) { return turn.trusted; });
    return trusted;
}

/// All of the last three trusted turns stand so.
bool lately(Turns trusted, Standing standing)
{
    return trusted.size() >= kWorthTurns &&
           std::all_of(trusted.end() - kWorthTurns, trusted.end(),
                       [&](const TurnSeen& turn) { return turn.standing == standing; });
}

/// Rounds with more voice against those without, of the turns still remembered: three of each, so that one lucky turn
/// is no news.
bool moreVoiceWorked(Turns trusted)
{
    std::vector<TurnSeen> plain;
    std::vector<TurnSeen> more;
    for (const TurnSeen& turn : trusted)
        (turn.moreVoice ? more : plain).push_back(turn);
    if (plain.size() < kWorthTurns || more.size() < kWorthTurns)
        return false;
    return meanDb(more) - meanDb(plain) >= kWorthChangeDb;
}

/// How many of the last turns, one after another, are so.
template <class Is>
std::uint32_t running(Turns turns, Is is)
{
    const auto end = std::find_if_not(turns.rbegin(), turns.rend(), is);
    return static_cast<std::uint32_t>(end - turns.rbegin());
}

WorthLine line(WorthReason reason, std::uint32_t section, std::size_t turns)
{
    WorthLine made;
    made.reason = reason;
    made.section = section;
    made.turns = static_cast<std::uint32_t>(turns);
    return made;
}

} // namespace

WordKind wordKindOf(WorthReason reason)
{
    return reason <= WorthReason::moreVoiceWorked ? WordKind::kind : WordKind::prompt;
}

void VoiceStory::add(const TurnSeen& turn)
{
    if (turn.trusted) {
        ++m_trusted;
        if (m_first.size() < kWorthTurns)
            m_first.push_back(turn);
        // What the last three say is asked of the turns before them.
        if (const auto trusted = trustedOf(m_last); trusted.size() >= kWorthTurns)
            m_everOutside = m_everOutside || trusted[trusted.size() - kWorthTurns].standing != Standing::inBand;
    }
    if (m_last.size() == kKept)
        m_last.erase(m_last.begin());
    m_last.push_back(turn);
}

std::optional<WorthLine> reasonIn(const VoiceStory& story)
{
    if (story.trusted() < kWorthTurns || story.last().empty())
        return std::nullopt;
    const Turns last = story.last();
    const TurnSeen& newest = last.back();
    const std::vector<TurnSeen> trusted = trustedOf(last);
    if (newest.standing == Standing::noVoice) {
        const auto since = running(last, [](const TurnSeen& turn) { return turn.standing == Standing::noVoice; });
        return line(WorthReason::noVoiceSince, last[last.size() - since].section, since);
    }
    if (!newest.trusted)
        return std::nullopt;
    if (story.everOutside() && lately(trusted, Standing::inBand))
        return line(WorthReason::easyForTheFirstTime, newest.section, kWorthTurns);
    if (moreVoiceWorked(trusted))
        return line(WorthReason::moreVoiceWorked, newest.section, trusted.size());
    if (newest.standing == Standing::straining)
        return line(WorthReason::easeOff, newest.section, 2);
    const bool apart = story.trusted() >= 2 * kWorthTurns && trusted.size() >= kWorthTurns;
    if (apart && meanDb(story.first()) - meanDb(Turns(trusted).last(kWorthTurns)) >= kWorthChangeDb)
        return line(WorthReason::fading, story.first().front().section, kWorthTurns);
    if (lately(trusted, Standing::below))
        return line(WorthReason::aLittleMore, newest.section, kWorthTurns);
    return std::nullopt;
}

Worth worthNow(const Worth& before, std::span<const WorthCandidate> people, Instant now)
{
    std::vector<WorthLine> fresh;
    std::set<PersonId> gone; // whose agreement no longer covers their line: it leaves the screen at once
    for (const WorthCandidate& each : people) {
        const auto has = std::find_if(before.lines.begin(), before.lines.end(),
                                      [&](const WorthLine& old) { return old.person == each.person; });
        const bool seen = each.agreements && each.agreements->levelVisible != LevelVisible::nobody;
        if (has != before.lines.end() && (!seen || !mayAddress(*each.agreements, wordKindOf(has->reason))))
            gone.insert(each.person);
        if (!seen || !each.here || each.resting || !each.story || before.named.contains(each.person))
            continue;
        auto found = reasonIn(*each.story);
        if (!found || !mayAddress(*each.agreements, wordKindOf(found->reason)))
            continue;
        found->person = each.person;
        found->seat = each.seat;
        found->since = now;
        fresh.push_back(*found);
    }
    std::stable_sort(fresh.begin(), fresh.end(),
                     [](const WorthLine& a, const WorthLine& b) { return a.reason < b.reason; });

    Worth after = before;
    std::erase_if(after.lines,
                  [&](const WorthLine& old) { return gone.contains(old.person) || now - old.since >= kWorthStale; });
    // Oldest first among those that have stood long enough: each makes room for one that is new.
    for (const WorthLine& wanted : fresh) {
        if (after.lines.size() == kWorthAtMost) {
            const auto oldest = std::min_element(after.lines.begin(), after.lines.end(),
                                                 [](const auto& a, const auto& b) { return a.since < b.since; });
            if (now - oldest->since < kWorthKept)
                break;
            after.lines.erase(oldest);
        }
        after.lines.push_back(wanted);
        after.named.insert(wanted.person);
    }
    std::stable_sort(after.lines.begin(), after.lines.end(),
                     [](const WorthLine& a, const WorthLine& b) { return a.reason < b.reason; });
    return after;
}

} // namespace vh
