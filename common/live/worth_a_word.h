#pragma once
// Worth a word: whom the leader may want to address now, and why. A pure function of the class so far, within what each
// person agreed to. A name needs three trusted judged turns, comes up once per class, and stays for at least 10 s; kind
// news come first; three at most. A list of the lowest three of many hundred would be a list of measurement errors, so
// every reason stands on a person's own turns alone, and nobody is compared with anybody. Thread: any.
#include "common/base/clock.h"
#include "common/base/id.h"
#include "common/live/agreements.h"
#include "common/live/judge.h"
#include "common/live/share.h"

#include <cstdint>
#include <optional>
#include <set>
#include <span>
#include <vector>

namespace vh
{

/// Best first: the order in which they are chosen.
enum class WorthReason : std::uint8_t {
    easyForTheFirstTime, ///< all of the last turns easy to hear, after others that were not. Kind
    moreVoiceWorked,     ///< "with more voice" was clearly more voice. Kind
    noVoiceSince,        ///< no voice heard, though the microphone works. Prompt
    easeOff,             ///< far above the own band, twice running. Prompt
    fading,              ///< clearly less than at the beginning. Prompt
    aLittleMore,         ///< under the own band, turn after turn. Prompt
};
/// What a person must have agreed to for it: kind words, or prompts too.
[[nodiscard]] WordKind wordKindOf(WorthReason reason);

inline constexpr std::size_t kWorthAtMost = 3;
inline constexpr std::size_t kWorthTurns = 3; ///< trusted judged turns a reason needs
inline constexpr Millis kWorthKept{10'000};   ///< a line stays at least this long
inline constexpr Millis kWorthStale{60'000};  ///< and goes after this long even if nothing else wants its place
/// Clearly more, or less: the change that people rate as meaningful (McShefferty et al. 2016, Trends Hear
/// 2331216515626570).
inline constexpr float kWorthChangeDb = 3;

/// One judged `yours` turn, as the judge left it.
struct TurnSeen {
    std::uint32_t section = 0; ///< index in the script
    bool moreVoice = false;    ///< the round's
    bool trusted = false;      ///< judged by level
    Standing standing = Standing::notYet;
    float overUsualDb = 0;
};

/// What one person's voice has done in this class. Bounded: the first turns and the last ones are what reasons need.
class VoiceStory
{
public:
    void add(const TurnSeen& turn);
    [[nodiscard]] std::span<const TurnSeen> first() const { return m_first; } ///< trusted, at most kWorthTurns
    [[nodiscard]] std::span<const TurnSeen> last() const { return m_last; }   ///< of any kind, at most kKept
    [[nodiscard]] std::size_t trusted() const { return m_trusted; }
    [[nodiscard]] bool everOutside() const { return m_everOutside; } ///< a trusted turn that was not easy to hear
    static constexpr std::size_t kKept = 8;

private:
    std::vector<TurnSeen> m_first;
    std::vector<TurnSeen> m_last;
    std::size_t m_trusted = 0;
    bool m_everOutside = false;
};

struct WorthCandidate {
    PersonId person;
    std::uint32_t seat = 0;
    const Agreements* agreements = nullptr;
    const VoiceStory* story = nullptr;
    bool here = false;
    bool resting = false;
};
struct WorthLine {
    PersonId person;
    std::uint32_t seat = 0;
    WorthReason reason = WorthReason::easyForTheFirstTime;
    std::uint32_t section = 0;
    std::uint32_t turns = 0;
    Instant since{};
    friend bool operator==(const WorthLine&, const WorthLine&) = default;
};
/// What stands on the leader's screen, and who has stood there in this class.
struct Worth {
    std::vector<WorthLine> lines; ///< best reason first
    std::set<PersonId> named;
};

/// The best reason this person's class gives so far, if any; agreements are not looked at.
[[nodiscard]] std::optional<WorthLine> reasonIn(const VoiceStory& story);
/// The list as it should stand now. Lines younger than kWorthKept stay, whatever comes.
[[nodiscard]] Worth worthNow(const Worth& before, std::span<const WorthCandidate> people, Instant now);

} // namespace vh
