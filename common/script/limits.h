#pragma once
// How large a class script may be. Every limit holds for the values, whatever they came from; together they keep a
// script that writeClassScript() wrote under kMaxScriptBytes, so that what was written can always be read.
// Lengths are in code points unless the name says otherwise.
#include "common/base/clock.h"

#include <cstddef>

namespace vh::limits
{

inline constexpr std::size_t kMaxScriptBytes = 512 * 1024; ///< of the YAML file
inline constexpr int kMaxYamlDepth = 12;                   ///< the format itself needs 8
inline constexpr std::size_t kMaxYamlNodes = 20'000;
inline constexpr std::size_t kMaxReportedErrors = 100;

inline constexpr int kMaxMinutes = 120;
inline constexpr std::size_t kMaxSections = 60;
inline constexpr std::size_t kMaxStepsPerSection = 100;
inline constexpr std::size_t kMaxSteps = 400;
inline constexpr std::size_t kMaxRoundsPerStep = 30;
inline constexpr std::size_t kMaxTurnsPerRound = 24;
inline constexpr std::size_t kMaxTurns = 2000;

inline constexpr std::size_t kMaxTitle = 120;
inline constexpr std::size_t kMaxText = 2000;
inline constexpr std::size_t kMaxNote = 1000;
inline constexpr std::size_t kMaxPictureFile = 200;
inline constexpr std::size_t kMaxDescription = 300;
inline constexpr std::size_t kMaxLanguage = 35;         ///< RFC 5646, 4.4.1
inline constexpr std::size_t kMaxTextBytes = 64 * 1024; ///< of all texts of a class together

inline constexpr std::size_t kMaxStretches = 100; ///< per step
inline constexpr std::size_t kMaxStretch = 12;

inline constexpr Millis kMinTurn{500};
inline constexpr Millis kMaxTurn{600'000};
inline constexpr int kMinDearness = 1;
inline constexpr int kMaxDearness = 9;

} // namespace vh::limits
