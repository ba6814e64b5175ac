#include "server/hall/shown_text.h"

#include <unicode/uchar.h>
#include <unicode/unistr.h>
#include <unicode/uspoof.h>

#include <memory>

namespace vh::hall
{

namespace
{

constexpr UChar32 kNonJoiner = 0x200C;
constexpr UChar32 kJoiner = 0x200D;
constexpr UChar32 kBlackFlag = 0x1F3F4;
constexpr UChar32 kFirstTag = 0xE0020;
constexpr UChar32 kLastTag = 0xE007F;

bool isMark(UChar32 point)
{
    return (U_GET_GC_MASK(point) & (U_GC_MN_MASK | U_GC_ME_MASK)) != 0;
}

/// Tags spell the region of a flag (UTS 51, 2.8); anywhere else they are invisible writing.
bool mayStay(UChar32 point, bool inFlag)
{
    if (point == kJoiner || point == kNonJoiner)
        return true;
    if (point >= kFirstTag && point <= kLastTag)
        return inFlag;
    const bool never = (U_GET_GC_MASK(point) & (U_GC_CF_MASK | U_GC_CO_MASK | U_GC_CS_MASK)) != 0;
    return !never && U_IS_UNICODE_CHAR(point);
}

bool isLineEnd(UChar32 point)
{
    return (U_GET_GC_MASK(point) & (U_GC_ZL_MASK | U_GC_ZP_MASK)) != 0;
}

icu::UnicodeString tidied(const icu::UnicodeString& text)
{
    icu::UnicodeString out;
    int marks = 0;
    bool inFlag = false;
    for (int32_t at = 0; at < text.length(); at = text.moveIndex32(at, 1)) {
        const UChar32 point = text.char32At(at);
        inFlag = point == kBlackFlag || (inFlag && point >= kFirstTag && point <= kLastTag);
        if (isLineEnd(point)) {
            out.append(u' ');
            continue;
        }
        if (!mayStay(point, inFlag))
            continue;
        marks = isMark(point) ? marks + 1 : 0;
        if (marks <= kMostMarks)
            out.append(point);
    }
    return out;
}

std::string utf8Of(const icu::UnicodeString& text)
{
    std::string bytes;
    return text.toUTF8String(bytes);
}

} // namespace

Result<std::string> shownText(std::string_view text, std::size_t most, LineBreaks lineBreaks)
{
    if (!isUtf8(text))
        return fail("text-unreadable", "This is no text.", "text");
    const auto unicode = icu::UnicodeString::fromUTF8({text.data(), static_cast<int32_t>(text.size())});
    const std::string tidy = utf8Of(tidied(unicode));
    if (const auto line = cleanLine(tidy, most, lineBreaks))
        return *line;
    if (cleanLine(tidy, tidy.size(), lineBreaks))
        return fail("text-too-long",
                    "This is too long. Please say it in " + std::to_string(most) + " letters or fewer.", "text");
    return fail("text-empty", "There is nothing to read in this.", "text");
}

std::string skeletonOf(std::string_view name)
{
    auto lower = icu::UnicodeString::fromUTF8({name.data(), static_cast<int32_t>(name.size())}).foldCase();
    lower.findAndReplace(u" ", u"");
    static const std::unique_ptr<USpoofChecker, void (*)(USpoofChecker*)> checker = [] {
        UErrorCode none = U_ZERO_ERROR;
        return std::unique_ptr<USpoofChecker, void (*)(USpoofChecker*)>(uspoof_open(&none), uspoof_close);
    }(); // for all threads: it is only read from here on
    UErrorCode error = checker ? U_ZERO_ERROR : U_MISSING_RESOURCE_ERROR;
    icu::UnicodeString skeleton;
    if (U_SUCCESS(error))
        uspoof_getSkeletonUnicodeString(checker.get(), 0, lower, skeleton, &error);
    return utf8Of(U_SUCCESS(error) ? skeleton : lower);
}

} // namespace vh::hall
