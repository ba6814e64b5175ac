#include "common/lexicon/festival_entries.h"

#include <algorithm>
#include <sstream>

namespace vh::lexicon
{

namespace
{

/// "(((hh ax) 0) ((l ow) 1))"; empty when it is not that.
Pronunciation saidOf(std::string_view text)
{
    std::string words;
    for (const char c : text)
        words += c == '(' || c == ')' ? ' ' : c;
    std::istringstream in(words);
    Pronunciation said;
    Syllable syllable;
    for (std::string word; in >> word;) {
        if (word == "0" || word == "1" || word == "2") {
            if (syllable.phones.empty())
                return {};
            syllable.stressed = word == "1";
            said.push_back(std::move(syllable));
            syllable = {};
        } else if (const auto phone = phoneOf(word)) {
            syllable.phones.push_back(*phone);
        } else {
            return {};
        }
    }
    return syllable.phones.empty() ? said : Pronunciation{};
}

} // namespace

FestivalEntries festivalEntries(std::istream& file)
{
    FestivalEntries read;
    for (std::string line; std::getline(file, line);) {
        const std::size_t end = line.starts_with("(\"") ? line.find('"', 2) : std::string::npos;
        const std::size_t said = end == std::string::npos ? end : line.find('(', end);
        Dictionary::Entry entry;
        if (said != std::string::npos) {
            entry.word = line.substr(2, end - 2);
            std::transform(entry.word.begin(), entry.word.end(), entry.word.begin(),
                           [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
            entry.said = saidOf(std::string_view(line).substr(said));
        }
        if (entry.word.empty() || entry.said.empty())
            ++read.leftOut;
        else
            read.entries.push_back(std::move(entry));
    }
    return read;
}

} // namespace vh::lexicon
