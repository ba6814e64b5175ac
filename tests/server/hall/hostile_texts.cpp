#include "tests/server/hall/hostile_texts.h"

#include <unicode/uchar.h>
#include <unicode/unistr.h>
#include <unicode/ustring.h>

#include <cstdio>
#include <random>

namespace vh::testing
{

namespace
{

std::string utf8(UChar32 point)
{
    std::string bytes;
    return icu::UnicodeString(point).toUTF8String(bytes);
}

std::string times(const std::string& text, int count)
{
    std::string all;
    for (int i = 0; i < count; ++i)
        all += text;
    return all;
}

/// Only what JSON demands; everything else goes as it is.
std::string quoted(const std::string& text)
{
    std::string json = "\"";
    for (const char c : text)
        if (c == '"' || c == '\\')
            json += std::string("\\") + c;
        else if (static_cast<unsigned char>(c) < 0x20) {
            char code[8];
            std::snprintf(code, sizeof code, "\\u%04x", static_cast<unsigned>(c));
            json += code;
        } else
            json += c;
    return json + "\"";
}

std::string named(const char* kind, UChar32 point)
{
    char code[16];
    std::snprintf(code, sizeof code, " U+%04X", static_cast<unsigned>(point));
    return kind + std::string(code);
}

class Corpus
{
public:
    void add(const std::string& name, const std::string& text) { m_all.push_back({name, quoted(text)}); }
    void addJson(const std::string& name, const std::string& inside) { m_all.push_back({name, '"' + inside + '"'}); }
    std::vector<HostileText> take() { return std::move(m_all); }

private:
    std::vector<HostileText> m_all;
};

/// Every control, format and ignorable character of Unicode that is not one of many: in a word, and alone.
void addUnseen(Corpus& corpus)
{
    for (UChar32 point = 0; point <= UCHAR_MAX_VALUE; ++point) {
        const bool isFormat = (U_GET_GC_MASK(point) & (U_GC_CC_MASK | U_GC_CF_MASK | U_GC_ZL_MASK | U_GC_ZP_MASK)) != 0;
        const bool isUnseen = u_hasBinaryProperty(point, UCHAR_DEFAULT_IGNORABLE_CODE_POINT) && u_isdefined(point);
        const bool ofMany = point > 0xE0003 && point < 0xE01EE;
        if ((isFormat || isUnseen) && !ofMany)
            corpus.add(named("in a word:", point), "ab" + utf8(point) + "cd");
    }
    for (const UChar32 point : {0x00AD, 0x034F, 0x115F,  0x1160,  0x17B4, 0x180B, 0x180E, 0x200B, 0x200C,
                                0x200D, 0x2028, 0x2060,  0x2063,  0x2800, 0x3000, 0x3164, 0xFE0F, 0xFEFF,
                                0xFFA0, 0xFFFC, 0xE0001, 0xE0101, 0x00A0, 0x1680, 0x2003, 0x202F, 0x205F})
        corpus.add(named("nothing but", point), times(utf8(point), 3));
}

void addDirections(Corpus& corpus)
{
    for (const UChar32 point : {0x202A, 0x202B, 0x202D, 0x202E, 0x2066, 0x2067, 0x2068}) {
        corpus.add(named("turned round by", point), utf8(point) + "gnihton si siht" + utf8(0x202C));
        corpus.add(named("turned a hundred times by", point), times(utf8(point), 100) + "deep");
    }
    corpus.add("right to left", "\u05E9\u05DC\u05D5\u05DD abc \u0645\u0631\u062D\u0628\u0627 123");
}

void addPiles(Corpus& corpus)
{
    for (const UChar32 mark : {0x0301, 0x0489, 0x20DD, 0x0E49, 0x064B, 0x05B8, 0x1AB0, 0x20E3, 0xFE20, 0x1DC0})
        for (const int many : {5, 50, 400})
            corpus.add(named(("piled " + std::to_string(many)).c_str(), mark), "H" + times(utf8(mark), many) + "i");
    for (const UChar32 between : {0x200C, 0x200D, 0x034F, 0x200B, 0xFE0F, 0x2060})
        corpus.add(named("piled, parted by", between), "H" + times(times(utf8(0x0301), 4) + utf8(between), 40));
    corpus.add("marks without a letter", times(utf8(0x0301), 30));
    corpus.add("lines without end", "a" + times("\n", 400) + "b");
    corpus.add("carriage returns", times("a\r\n\r\n", 60));
    corpus.add("spaces without end", "a" + times(" ", 400) + "b");
    corpus.add("tabs", times("\t", 300) + "a");
}

void addEmoji(Corpus& corpus)
{
    corpus.add("family", "\U0001F468\u200D\U0001F469\u200D\U0001F467\u200D\U0001F466");
    corpus.add("skin", "\U0001F44B\U0001F3FD\U0001F44B\U0001F3FF");
    corpus.add("a hundred people joined", times("\U0001F468\u200D", 100) + "\U0001F468");
    corpus.add("a flag with too many tags", "\U0001F3F4" + times(utf8(0xE0067), 300) + utf8(0xE007F));
    corpus.add("a flag that never ends", "\U0001F3F4" + times(utf8(0xE0067), 5) + "ab");
    corpus.add("tags without a flag", "a" + times(utf8(0xE0061), 20));
    corpus.add("half a flag", "\U0001F1F5");
    corpus.add("keycap", "1\uFE0F\u20E3");
    corpus.add("variations", "a" + times(utf8(0xFE0F), 60) + times(utf8(0xE0100), 60));
}

void addLongs(Corpus& corpus)
{
    for (const int many : {499, 500, 501, 999, 1999, 2000, 2001})
        for (const char* letter : {"a", "\u00E4", "\u6F22", "\U0001F600"})
            corpus.add(std::to_string(many) + " of " + letter, times(letter, many));
    corpus.add("500 and invisible ones", times("a\u200B", 500));
}

void addOtherTongues(Corpus& corpus)
{
    for (const char* text : {"<b>bold</b>",
                             "<script>alert(1)</script>",
                             "<img src=x onerror=alert(1)>",
                             "&lt;&amp;&#0;&#x202e;",
                             "</body><!--",
                             "[link](http://example.org)",
                             "http://example.org/\u202Egpj.exe",
                             "javascript:alert(1)",
                             "file:///etc/passwd",
                             "%s%s%s%s%n",
                             "%1 %2 %99 %L1",
                             "{} {0} {:>99999}",
                             "${HOME} $(reboot) `reboot`",
                             "'; DROP TABLE board; --",
                             "\" OR \"\"=\"",
                             "1); DELETE FROM people; --",
                             "../../../../etc/passwd",
                             "C:\\Windows\\system32\\con",
                             "/dev/null",
                             "a/b\\c:d*e?f\"g<h>i|",
                             "\\u0000\\x00\\n",
                             "NULL",
                             "undefined",
                             "true",
                             "-1",
                             "1e999",
                             "{\"type\":\"bye\"}",
                             "]]>",
                             "\x7F\x7F",
                             "=cmd|' /C calc'!A0",
                             "\u00ADsoft",
                             "\uFF1Cscript\uFF1E",
                             "I\u0307\u0131\u0130",
                             "\uFDFA\uFDFA\uFDFA",
                             "\U00012219\U0001242B",
                             "\u0BBA\u0BCD\u0BB0\u0BC0"})
        corpus.add(std::string("foreign tongue ") + text, text);
}

/// What is no text at all.
void addUnreadable(Corpus& corpus)
{
    for (const char* inside : {"\\ud800", "\\udc00", "\\ud800\\ud800", "\\udc00\\ud800", "a\\ud83d", "\\ud83dx"})
        corpus.addJson(std::string("lone surrogate ") + inside, inside);
    for (const char* inside : {"\xC0\x80", "\xC1\xBF", "\xE0\x80\xAF", "\xE0\x9F\xBF", "\xF0\x80\x80\xAF",
                               "\xF0\x8F\xBF\xBF", "\xF8\x88\x80\x80\x80", "\xED\xA0\x80", "\xED\xBF\xBF",
                               "\xF4\x90\x80\x80", "\xFF", "\xFE", "\x80", "a\xC3", "\xE2\x82", "\xF0\x9F\x98"})
        corpus.addJson("bytes that are no UTF-8", inside);
    corpus.addJson("NUL by its number", "a\\u0000b");
    corpus.addJson("NUL alone", "\\u0000");
    corpus.addJson("noncharacters", "\\ufffe\\uffff\\ufdd0");
    corpus.addJson("private ones", "\\ue000\\uf8ff\\udbff\\udffd");
}

void addChance(Corpus& corpus)
{
    std::mt19937 chance(20'266);
    for (int i = 0; i < 60; ++i) {
        std::string text;
        for (unsigned left = 1 + chance() % 300; left > 0; --left) {
            const auto point = static_cast<UChar32>(chance() % (i % 2 == 0 ? 0x3000 : 0x110000));
            if (!U_IS_SURROGATE(point))
                text += utf8(point);
        }
        corpus.add("by chance " + std::to_string(i), text);
    }
}

bool isIgnorable(UChar32 point)
{
    return u_hasBinaryProperty(point, UCHAR_DEFAULT_IGNORABLE_CODE_POINT) != 0;
}

bool isSeen(UChar32 point)
{
    return !u_isUWhiteSpace(point) && !isIgnorable(point) && point != 0x2800; // BRAILLE PATTERN BLANK
}

/// Of one code point by itself.
const char* hurtsByItself(UChar32 point, bool mayHaveLines)
{
    if (point == '\n')
        return mayHaveLines ? nullptr : "a line's end";
    if (!U_IS_UNICODE_CHAR(point))
        return "no character";
    if ((U_GET_GC_MASK(point) & (U_GC_CC_MASK | U_GC_CO_MASK | U_GC_CS_MASK | U_GC_ZL_MASK | U_GC_ZP_MASK)) != 0)
        return "control, private or a line's end";
    if (u_hasBinaryProperty(point, UCHAR_BIDI_CONTROL))
        return "turns the direction";
    const bool isTag = point >= 0xE0020 && point <= 0xE007F; // judged where they stand
    const bool joins = u_hasBinaryProperty(point, UCHAR_JOIN_CONTROL) != 0;
    if (isIgnorable(point) && !joins && !isTag && !u_hasBinaryProperty(point, UCHAR_VARIATION_SELECTOR))
        return "invisible";
    return nullptr;
}

} // namespace

std::vector<HostileText> hostileTexts()
{
    Corpus corpus;
    addUnseen(corpus);
    addDirections(corpus);
    addPiles(corpus);
    addEmoji(corpus);
    addLongs(corpus);
    addOtherTongues(corpus);
    addUnreadable(corpus);
    addChance(corpus);
    return corpus.take();
}

std::string whatHurts(const std::string& shown, std::size_t most, bool mayHaveLines)
{
    UErrorCode error = U_ZERO_ERROR;
    int32_t length = 0;
    std::u16string units(shown.size() + 1, u'\0'); // ICU's strict reading: no overlong forms, no surrogates
    u_strFromUTF8(units.data(), static_cast<int32_t>(units.size()), &length, shown.data(),
                  static_cast<int32_t>(shown.size()), &error);
    if (U_FAILURE(error))
        return "no UTF-8";
    const icu::UnicodeString text(units.data(), length);
    if (static_cast<std::size_t>(text.countChar32()) > most)
        return "too long";
    bool seen = false;
    int marks = 0;
    int tags = 0;
    int lines = 0;
    for (int32_t at = 0; at < text.length(); at = text.moveIndex32(at, 1)) {
        const UChar32 point = text.char32At(at);
        if (const char* hurts = hurtsByItself(point, mayHaveLines))
            return named(hurts, point);
        seen = seen || isSeen(point);
        const bool isTag = point >= 0xE0020 && point <= 0xE007F;
        tags = point == 0x1F3F4 ? 1 : isTag && tags > 0 ? tags + 1 : 0;
        if (isTag && (tags == 0 || tags > 9)) // UTS 51: a region of at most seven, and the end
            return "tags that are no flag's";
        if ((U_GET_GC_MASK(point) & (U_GC_MN_MASK | U_GC_ME_MASK)) != 0)
            ++marks;
        else if (!isIgnorable(point)) // what is not seen parts no pile
            marks = 0;
        if (marks > 4)
            return "piled marks";
        lines = point == '\n' ? lines + 1 : u_isUWhiteSpace(point) ? lines : 0;
        if (lines > 2)
            return "more than one empty line";
    }
    if (!seen)
        return "nothing is to be seen";
    if (u_isUWhiteSpace(text.char32At(0)) || u_isUWhiteSpace(text.char32At(text.length() - 1)))
        return "space around it";
    return {};
}

} // namespace vh::testing
