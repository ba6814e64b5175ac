#include "common/script/pace.h"

#include "common/base/text.h"
#include "common/script/limits.h"

#include <algorithm>

namespace vh
{

namespace
{

constexpr Millis kPerVowelGroup{400}; // 2.5 a second
constexpr Millis kPerStretch{500};
constexpr Millis kGrain{500};
constexpr Millis kShortest{2000};

constexpr std::u32string_view kVowels = U"aeiouyAEIOUY"
                                        U"ÀÁÂÃÄÅÆÈÉÊËÌÍÎÏÒÓÔÕÖØÙÚÛÜÝàáâãäåæèéêëìíîïòóôõöøùúûüýÿ"
                                        U"ĀāĂăĄąĒēĔĕĖėĘęĚěĨĩĪīĬĭĮįİıŌōŎŏŐőŒœŨũŪūŬŭŮůŰűŲųŶŷŸ";

bool isCombiningMark(char32_t point)
{
    return point >= 0x300 && point <= 0x36F; // an accent typed after its letter
}

} // namespace

int vowelGroups(std::string_view text)
{
    int groups = 0;
    bool inGroup = false;
    for (const char32_t point : codePointsOf(text)) {
        if (isCombiningMark(point))
            continue;
        const bool digit = point >= U'0' && point <= U'9';
        const bool vowel = kVowels.find(point) != std::u32string_view::npos;
        if (digit || (vowel && !inGroup))
            ++groups;
        inGroup = vowel;
    }
    return groups;
}

std::optional<Millis> plannedByRule(TurnKind kind, std::string_view text, std::size_t stretches)
{
    if (kind == TurnKind::ready)
        return kReadyLength;
    const int groups = vowelGroups(text);
    if (groups == 0)
        return std::nullopt;
    return roundedLength(kToBegin + kPerVowelGroup * groups + kPerStretch * static_cast<int>(stretches));
}

Millis roundedLength(Millis exact)
{
    return std::clamp((exact + kGrain - Millis{1}) / kGrain * kGrain, kShortest, limits::kMaxTurn);
}

} // namespace vh
