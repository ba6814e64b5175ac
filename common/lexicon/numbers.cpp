#include "common/lexicon/numbers.h"

#include <array>

namespace vh::lexicon
{

namespace
{

constexpr std::array<const char*, 20> kSmall{
    "zero", "one",    "two",    "three",    "four",     "five",    "six",     "seven",     "eight",    "nine",
    "ten",  "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"};
constexpr std::array<const char*, 10> kTens{"",      "",      "twenty",  "thirty", "forty",
                                            "fifty", "sixty", "seventy", "eighty", "ninety"};

using Words = std::vector<std::string>;

void add(Words& words, int number)
{
    if (number >= 1000) {
        add(words, number / 1000);
        words.emplace_back("thousand");
        if (number % 1000 == 0)
            return;
        number %= 1000;
    }
    if (number >= 100) {
        words.emplace_back(kSmall[static_cast<std::size_t>(number / 100)]);
        words.emplace_back("hundred");
        if (number % 100 == 0)
            return;
        words.emplace_back("and");
        number %= 100;
    }
    if (number >= 20) {
        words.emplace_back(kTens[static_cast<std::size_t>(number / 10)]);
        if (number % 10 == 0)
            return;
        number %= 10;
    }
    words.emplace_back(kSmall[static_cast<std::size_t>(number)]);
}

Words year(int number)
{
    Words words;
    add(words, number / 100);
    const int rest = number % 100;
    if (rest == 0)
        words.emplace_back("hundred");
    else if (rest < 10)
        words.emplace_back("oh");
    if (rest > 0)
        add(words, rest);
    return words;
}

} // namespace

std::vector<std::string> readOut(std::string_view digits)
{
    Words words;
    if (digits.size() > 6 || (digits.size() > 1 && digits.front() == '0')) {
        for (const char digit : digits)
            words.emplace_back(kSmall[static_cast<std::size_t>(digit - '0')]);
        return words;
    }
    int number = 0;
    for (const char digit : digits)
        number = number * 10 + (digit - '0');
    if ((number >= 1100 && number < 2000) || (number >= 2010 && number < 2100))
        return year(number);
    if (!digits.empty())
        add(words, number);
    return words;
}

} // namespace vh::lexicon
