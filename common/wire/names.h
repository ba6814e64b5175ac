#pragma once
// How the values of other folders are named on the wire. Order follows the enumerations.
#include "common/base/role.h"
#include "common/live/agreements.h"
#include "common/live/class_moves.h"
#include "common/live/class_state.h"
#include "common/live/share.h"
#include "common/live/worth_a_word.h"
#include "common/measure/reading.h"
#include "common/script/script.h"
#include "common/wire/fields.h"

namespace vh
{

void fieldsOf(Place& place, auto& visit)
{
    visit("section", place.section), visit("step", place.step), visit("round", place.round), visit("turn", place.turn);
}

void fieldsOf(StepAt& step, auto& visit)
{
    visit("section", step.section), visit("step", step.step);
}

} // namespace vh

namespace vh::wire
{

template <>
struct WireNames<Role> {
    static constexpr std::array<std::string_view, 4> kNames{"participant", "moderator", "leader", "standIn"};
};
template <>
struct WireNames<SectionKind> {
    static constexpr std::array<std::string_view, 12> kNames{
        "opening",         "warm-up",        "sustained-vowel", "pitch-glide", "counting", "phrases",
        "category-naming", "back-of-tongue", "passage",         "open-talk",   "pause",    "closing"};
};
template <>
struct WireNames<TurnKind> {
    static constexpr std::array<std::string_view, 4> kNames{"listen", "ready", "withMe", "yours"};
};
template <>
struct WireNames<Phase> {
    static constexpr std::array<std::string_view, 5> kNames{"notStarted", "running", "waiting", "calmPause", "ended"};
};
template <>
struct WireNames<HomeLine> {
    static constexpr std::array<std::string_view, 7> kNames{
        "classNotStarted", "classRuns", "classWaits", "leaderAway", "calmPause", "standInLeads", "ended"};
};
template <>
struct WireNames<CommandKind> {
    static constexpr std::array<std::string_view, 11> kNames{"start", "goOn", "back", "onceMore", "wait",    "resume",
                                                             "skip",  "end",  "jump", "stretch",  "leaveOut"};
};
template <>
struct WireNames<AgreementKind> {
    static constexpr std::array<std::string_view, 9> kNames{"level-visible",    "results-kept",       "other-leaders",
                                                            "attendance-named", "practice-to-leader", "addressed",
                                                            "name-seen",        "pictures",           "may-ring"};
};
template <>
struct WireNames<Addressed> {
    static constexpr std::array<std::string_view, 3> kNames{"not", "kind", "prompts"};
};
template <>
struct WireNames<WordKind> {
    static constexpr std::array<std::string_view, 2> kNames{"kind", "prompt"};
};
template <>
struct WireNames<WorthReason> {
    static constexpr std::array<std::string_view, 6> kNames{
        "easyForTheFirstTime", "moreVoiceWorked", "noVoiceSince", "easeOff", "fading", "aLittleMore"};
};
template <>
struct WireNames<Blank> {
    static constexpr std::array<std::string_view, 8> kNames{"none",         "noSignal",           "clipping",
                                                            "roomTooNoisy", "loudspeakerTooLoud", "alteredByComputer",
                                                            "somebodyElse", "setupChanged"};
};
template <>
struct WireNames<Ceiling> {
    static constexpr std::array<std::string_view, 3> kNames{"clear", "reached", "over"};
};

} // namespace vh::wire
