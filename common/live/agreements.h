#pragma once
// What a person has agreed to. Each is given and withdrawn separately, any day; before an answer everything is "no".
// Names and values are those of the wire and of the store. Plain values.
#include <array>
#include <cstdint>
#include <optional>
#include <string_view>

namespace vh
{

enum class AgreementKind : std::uint8_t {
    levelVisible,
    resultsKept,
    otherLeaders,
    attendanceNamed,
    practiceToLeader,
    addressed,
    nameSeen,
    pictures,
    mayRing
};
inline constexpr std::array kAgreementKinds{
    AgreementKind::levelVisible,    AgreementKind::resultsKept,      AgreementKind::otherLeaders,
    AgreementKind::attendanceNamed, AgreementKind::practiceToLeader, AgreementKind::addressed,
    AgreementKind::nameSeen,        AgreementKind::pictures,         AgreementKind::mayRing};

enum class LevelVisible : std::uint8_t { nobody, leader, leaderAndHelpers };
enum class Addressed : std::uint8_t { notAtAll, kind, prompts };

struct Agreements {
    LevelVisible levelVisible = LevelVisible::nobody;
    bool resultsKept = false;
    bool otherLeaders = false; ///< other leaders of this group may read the results
    bool attendanceNamed = false;
    bool practiceToLeader = false; ///< practice alone goes to the leader
    Addressed addressed = Addressed::notAtAll;
    bool nameSeen = false; ///< by the other participants
    bool pictures = false;
    bool mayRing = false; ///< a helper may ring if the line drops
    friend bool operator==(const Agreements&, const Agreements&) = default;
};

/// "level-visible", "results-kept", "other-leaders", "attendance-named", "practice-to-leader", "addressed",
/// "name-seen", "pictures", "may-ring".
std::string_view nameOf(AgreementKind kind);
std::optional<AgreementKind> agreementKindOf(std::string_view name);

/// The value as a word: "nobody", "leader", "leader-and-helpers"; "not", "kind", "prompts"; else "no", "yes".
std::string_view valueOf(const Agreements& agreements, AgreementKind kind);
/// Sets one of them by word. False, and nothing changed, if that kind has no such value.
[[nodiscard]] bool setValue(Agreements& agreements, AgreementKind kind, std::string_view value);

} // namespace vh
