#include "server/hall/shown_text.h"

#include <unicode/normalizer2.h>
#include <unicode/uchar.h>
#include <unicode/unistr.h>
#include <unicode/uspoof.h>

#include <memory>

namespace vh::hall
{

namespace
{

constexpr UChar32 kBlackFlag = 0x1F3F4;
constexpr UChar32 kFirstTag = 0xE0020;
constexpr UChar32 kLastTag = 0xE007F;
constexpr int kMostTags = 8;              ///< a region's seven letters (UTS 35, subdivision id), and the end
constexpr UChar32 kBrailleBlank = 0x2800; ///< a symbol by its category, and nothing to see
constexpr int kMostLineEnds = 2;          ///< one empty line; more of them cover other people's lines

bool isMark(UChar32 point)
{
    return (U_GET_GC_MASK(point) & (U_GC_MN_MASK | U_GC_ME_MASK)) != 0;
}

bool isTag(UChar32 point)
{
    return point >= kFirstTag && point <= kLastTag;
}

bool isIgnorable(UChar32 point)
{
    return u_hasBinaryProperty(point, UCHAR_DEFAULT_IGNORABLE_CODE_POINT) != 0;
}

bool isSeen(UChar32 point)
{
    return !u_isUWhiteSpace(point) && !isIgnorable(point) && point != kBrailleBlank;
}

/// `tags`: of the flag that stands before it; tags spell its region (UTS 51, 2.8), and are invisible writing elsewhere.
bool mayStay(UChar32 point, int tags)
{
    if (isTag(point))
        return tags > 0 && tags <= kMostTags;
    for (const UProperty needed : {UCHAR_JOIN_CONTROL, UCHAR_VARIATION_SELECTOR, UCHAR_PREPENDED_CONCATENATION_MARK})
        if (u_hasBinaryProperty(point, needed))
            return true;
    const bool never = (U_GET_GC_MASK(point) & (U_GC_CF_MASK | U_GC_CO_MASK | U_GC_CS_MASK)) != 0;
    return !never && !isIgnorable(point) && U_IS_UNICODE_CHAR(point);
}

bool isLineEnd(UChar32 point)
{
    return (U_GET_GC_MASK(point) & (U_GC_ZL_MASK | U_GC_ZP_MASK)) != 0;
}

/// Of a clean line (common/base/text.h). Empty when nothing of it is seen.
icu::UnicodeString tidied(const icu::UnicodeString& text)
{
    icu::UnicodeString out;
    int marks = 0;
    int tags = 0;
    int lineEnds = 0;
    int32_t seenTo = 0; // where the last that is seen ends
    for (int32_t at = 0; at < text.length(); at = text.moveIndex32(at, 1)) {
        const UChar32 point = isLineEnd(text.char32At(at)) ? U' ' : text.char32At(at);
        tags = point == kBlackFlag ? 1 : isTag(point) && tags > 0 ? tags + 1 : 0;
        if (!mayStay(point, tags - 1) || (seenTo == 0 && u_isUWhiteSpace(point)))
            continue;
        lineEnds = point == u'\n' ? lineEnds + 1 : u_isUWhiteSpace(point) ? lineEnds : 0;
        if (isMark(point))
            ++marks;
        else if (!isIgnorable(point)) // what is not seen parts no pile
            marks = 0;
        if (marks > kMostMarks || lineEnds > kMostLineEnds)
            continue;
        out.append(point);
        if (!u_isUWhiteSpace(point) && (seenTo > 0 || isSeen(point)))
            seenTo = out.length();
    }
    out.truncate(seenTo);
    return out;
}

std::string utf8Of(const icu::UnicodeString& text)
{
    std::string bytes;
    return text.toUTF8String(bytes);
}

/// Of a name, what counts: letters of any width and case are the same ones (Unicode 3.13, NFKC_Casefold), and so it is
/// whatever stands between them and cannot be seen (UTS 39 from its revision 27 on; ICU before 74 leaves that to us).
icu::UnicodeString countingOf(std::string_view name)
{
    const auto whole = icu::UnicodeString::fromUTF8({name.data(), static_cast<int32_t>(name.size())});
    UErrorCode error = U_ZERO_ERROR;
    const icu::Normalizer2* folding = icu::Normalizer2::getNFKCCasefoldInstance(error);
    const icu::UnicodeString folded = U_SUCCESS(error) ? folding->normalize(whole, error) : whole;
    icu::UnicodeString seen;
    for (int32_t at = 0; at < folded.length(); at = folded.moveIndex32(at, 1))
        if (isSeen(folded.char32At(at)))
            seen.append(folded.char32At(at));
    return seen;
}

} // namespace

Result<std::string> shownText(std::string_view text, std::size_t most, LineBreaks lineBreaks)
{
    if (!isUtf8(text))
        return fail("text-unreadable", "This is no text.", "text");
    const auto clean = cleanLine(text, text.size(), lineBreaks).value_or("");
    const auto tidy = tidied(icu::UnicodeString::fromUTF8({clean.data(), static_cast<int32_t>(clean.size())}));
    if (static_cast<std::size_t>(tidy.countChar32()) > most)
        return fail("text-too-long",
                    "This is too long. Please say it in " + std::to_string(most) + " letters or fewer.", "text");
    if (!tidy.isEmpty())
        return utf8Of(tidy);
    return fail("text-empty", "There is nothing to read in this.", "text");
}

std::string skeletonOf(std::string_view name)
{
    const icu::UnicodeString counting = countingOf(name);
    static const std::unique_ptr<USpoofChecker, void (*)(USpoofChecker*)> checker = [] {
        UErrorCode none = U_ZERO_ERROR;
        return std::unique_ptr<USpoofChecker, void (*)(USpoofChecker*)>(uspoof_open(&none), uspoof_close);
    }(); // for all threads: it is only read from here on
    UErrorCode error = checker ? U_ZERO_ERROR : U_MISSING_RESOURCE_ERROR;
    icu::UnicodeString skeleton;
    if (U_SUCCESS(error))
        uspoof_getSkeletonUnicodeString(checker.get(), 0, counting, skeleton, &error);
    return utf8Of(U_SUCCESS(error) ? skeleton : counting);
}

} // namespace vh::hall
