#pragma once
// What a good class script still lacks, and where: too long for one breath, hard to read, no water pause, drills too
// fast... Advice, never a refusal: the reader decides what is a class at all. Every finding says why in one sentence
// and, where there is one, offers a mend. Rules of thumb are common practice unless a source stands beside them. Pure;
// any thread.
#include "common/lexicon/lexicon.h"
#include "common/script/own_pace.h"

#include <set>
#include <string>
#include <vector>

namespace vh
{

enum class FindingKind : std::uint8_t {
    tooLongForOneBreath,
    hardToRead,
    doesNotFitScreen,
    noVowelMarked,
    noBackOfTongueSounds,
    noWaterPause,
    pauseAsks,
    orderNotFromSimple,
    drillTooFast,
    noReadyTurn,
    vowelTooLong,
    longerThanPlanned,
    shorterThanPlanned,
    pictureNotDescribed,
    repeatedSentence,
    usedLately,
    wordToExplain,
    noCautions,
    leftToWrite,
};
/// "too-long-for-one-breath", "hard-to-read", ...: stable, for files and programs.
std::string_view nameOf(FindingKind kind);

/// What would mend it; applied by withMend().
struct Mend {
    enum class Kind : std::uint8_t {
        markVowels,    ///< `stretches` become those of the step
        readyBefore,   ///< a ready turn before turn `turn` of the round
        turnLength,    ///< turn `turn` of the round gets `length`
        waterBefore,   ///< a water pause before the section
        emptyPause,    ///< the pause's text goes
        addCautions,   ///< a step with the cautions at the end of the section
        plannedMinutes ///< the class is planned for `length`
    };
    Kind kind = Kind::markVowels;
    std::vector<Stretch> stretches;
    std::uint32_t turn = 0;
    Millis length{0};
    friend bool operator==(const Mend&, const Mend&) = default;
};

struct Finding {
    FindingKind kind = FindingKind::hardToRead;
    /// Whole class where absent; whole section, step.
    std::optional<std::uint32_t> section;
    std::optional<std::uint32_t> step;
    std::optional<std::uint32_t> round;
    std::uint32_t begin = 0; ///< bytes of the step's text; begin == end: all of it
    std::uint32_t end = 0;
    std::string why; ///< one sentence
    std::optional<Mend> mend;
    friend bool operator==(const Finding&, const Finding&) = default;
};

struct ReviewRules {
    /// English only so far; null: rules that need to know how words are said are off.
    const lexicon::Lexicon* words = nullptr;
    double syllablesPerSecond = 2.5; ///< unhurried reading aloud in a group (pace.h)
    int mostSyllablesOnABreath = 16; ///< 6 s at that pace
    double leastReadingEase = 70;    ///< Flesch: plain English; short texts of up to ten words are not judged
    double mostSyllablesPerSecond =
        4; ///< drills: faster tips some people into a rush (Caligiuri 1989; Ackermann, one case)
    double mostNumbersPerSecond = 2;
    Millis longestVowel{10'000};
    Millis longestWithoutWater{6 * 60'000}; ///< of class time, between demanding exercises
    Millis offPlan{60'000};
    OwnPace pace; ///< the leader's, by which longer and shorter are told; as planned where nothing is known
    /// Of large print: 40 px (look::kSmallestClassText) in a window of 1366 x 700, as a home sees it.
    int mostLinesSpoken = 3; ///< the meter is below it
    int mostLinesShown = 5;
    int mostLetters = 58;             ///< in one of them
    bool order = false;               ///< from simple to connected speech
    std::set<std::string> usedLately; ///< sentences as said() gives them
};

struct Review {
    std::vector<Finding> findings; ///< in the order of the class; of the class as a whole last
    std::vector<FindingKind> off;  ///< rules that could not be asked, or were not
};
Review review(const ClassScript& script, const ReviewRules& rules);

/// The class with it mended; as it is when the finding offers nothing or is about another class.
ClassScript withMend(ClassScript script, const Finding& finding);

/// Rules for a class in this language: with a dictionary where there is one.
ReviewRules rulesFor(std::string_view language);
/// A sentence as it is compared: lower case, words only.
std::string said(std::string_view sentence);
/// The sentences of four words and more that people say, as said() gives them: what should not come again within a
/// month. Without the drills (vowels, glides, counting, syllables, the warm-up), which come every day.
std::set<std::string> sentencesSaid(const ClassScript& script);

} // namespace vh
