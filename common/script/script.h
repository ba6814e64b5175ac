#pragma once
// The class script as plain values: class -> sections -> steps -> rounds -> turns. What a reader made of a file, what
// goes to the homes, what the class in motion steps through. Immutable once published. All text is well-formed UTF-8.
#include "common/base/clock.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace vh
{

/// Kinds of section, in the trade's terms. None has a fixed number of repetitions; no order is prescribed.
enum class SectionKind : std::uint8_t {
    opening,
    warmUp,
    sustainedVowel,
    pitchGlide,
    counting,
    phrases,
    categoryNaming,
    backOfTongue,
    passage,
    openTalk,
    pause,
    closing
};

/// Who speaks: the leader shows; two seconds to breathe in; all together; the people alone.
enum class TurnKind : std::uint8_t { listen, ready, withMe, yours };

/// The names used in files and on the wire ("warm-up", "withMe"); the reverse gives nothing for an unknown name.
std::string_view nameOf(SectionKind kind);
std::string_view nameOf(TurnKind kind);
std::optional<SectionKind> sectionKindOf(std::string_view name);
std::optional<TurnKind> turnKindOf(std::string_view name);

/// A vowel to stretch: bytes [begin, end) of the step's text, at code point borders, in order, not overlapping.
struct Stretch {
    std::uint32_t begin = 0;
    std::uint32_t end = 0;
    friend bool operator==(const Stretch&, const Stretch&) = default;
};

struct Picture {
    std::string file;        ///< relative to the script's folder; never absolute, never with ".."
    std::string description; ///< for those who do not see it; never empty
    friend bool operator==(const Picture&, const Picture&) = default;
};

struct Turn {
    TurnKind kind = TurnKind::listen;
    Millis planned{0}; ///< > 0
    friend bool operator==(const Turn&, const Turn&) = default;
};

struct Round {
    bool moreVoice = false;  ///< "with more voice": usually the second time
    std::vector<Turn> turns; ///< never empty
    friend bool operator==(const Round&, const Round&) = default;
};

struct Step {
    std::string text; ///< what is said or done; empty only in a pause
    std::vector<Stretch> stretches;
    std::optional<Picture> picture;
    std::string note;          ///< seen by the leader only; may be empty
    std::vector<Round> rounds; ///< never empty
    /// Absent: the step belongs to the class. Present: it may be left out to save time; 1 = goes first, 9 = very dear.
    std::optional<int> optionalDearness;
    friend bool operator==(const Step&, const Step&) = default;
};

struct Section {
    SectionKind kind = SectionKind::opening;
    std::string title;       ///< as people see it
    std::vector<Step> steps; ///< never empty
    friend bool operator==(const Section&, const Section&) = default;
};

struct ClassScript {
    std::string title;
    std::string theme;
    std::string language; ///< BCP 47, e.g. "en"
    int plannedMinutes = 0;
    std::vector<Section> sections; ///< never empty
    friend bool operator==(const ClassScript&, const ClassScript&) = default;
};

} // namespace vh
