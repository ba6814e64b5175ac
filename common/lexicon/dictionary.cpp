#include "common/lexicon/dictionary.h"

#include <algorithm>

namespace vh::lexicon
{

namespace
{

// A phone is one byte: its number, and two flags at the first phone of a syllable.
constexpr std::uint8_t kBeginsSyllable = 0x40;
constexpr std::uint8_t kStressed = 0x80;
constexpr std::uint8_t kPhoneBits = 0x3F;

std::uint32_t numberAt(std::span<const std::uint8_t> bytes, std::size_t at)
{
    std::uint32_t number = 0;
    for (std::size_t k = 0; k < 4; ++k)
        number = number << 8 | bytes[at + k];
    return number;
}

void putNumber(std::string& bytes, std::size_t number)
{
    for (int shift = 24; shift >= 0; shift -= 8)
        bytes.push_back(static_cast<char>(number >> shift));
}

std::string_view wordOf(std::span<const std::uint8_t> entry)
{
    const auto end = std::find(entry.begin(), entry.end(), 0);
    return {reinterpret_cast<const char*>(entry.data()), static_cast<std::size_t>(end - entry.begin())};
}

bool isEntry(std::span<const std::uint8_t> entry)
{
    const std::size_t word = wordOf(entry).size();
    if (word == 0 || word + 2 > entry.size() || (entry[word + 1] & kBeginsSyllable) == 0)
        return false;
    return std::all_of(entry.begin() + static_cast<std::ptrdiff_t>(word) + 1, entry.end(),
                       [](std::uint8_t phone) { return (phone & kPhoneBits) < kPhones; });
}

} // namespace

std::string Dictionary::pack(std::vector<Entry> entries)
{
    std::stable_sort(entries.begin(), entries.end(),
                     [](const Entry& one, const Entry& other) { return one.word < other.word; });
    std::string blob;
    std::string bytes;
    putNumber(bytes, entries.size());
    for (const Entry& entry : entries) {
        putNumber(bytes, blob.size());
        blob += entry.word;
        blob.push_back('\0');
        for (const Syllable& syllable : entry.said)
            for (std::size_t i = 0; i < syllable.phones.size(); ++i) {
                const int flags = i > 0 ? 0 : kBeginsSyllable | (syllable.stressed ? kStressed : 0);
                blob.push_back(static_cast<char>(static_cast<int>(syllable.phones[i]) | flags));
            }
    }
    putNumber(bytes, blob.size());
    return bytes + blob;
}

Result<Dictionary> Dictionary::fromBytes(std::span<const std::uint8_t> bytes)
{
    const auto damaged = [] { return fail("damaged", "The pronouncing dictionary is damaged."); };
    if (bytes.size() < 8)
        return damaged();
    Dictionary dictionary;
    dictionary.m_count = numberAt(bytes, 0);
    const std::size_t offsets = (dictionary.m_count + 1) * 4;
    if (bytes.size() < 4 + offsets)
        return damaged();
    dictionary.m_offsets = bytes.subspan(4, offsets);
    dictionary.m_entries = bytes.subspan(4 + offsets);
    for (std::size_t i = 0; i < dictionary.m_count; ++i) {
        const std::uint32_t begin = numberAt(dictionary.m_offsets, 4 * i);
        const std::uint32_t end = numberAt(dictionary.m_offsets, 4 * i + 4);
        if (begin >= end || end > dictionary.m_entries.size() || !isEntry(dictionary.entryAt(i)))
            return damaged();
    }
    return dictionary;
}

std::span<const std::uint8_t> Dictionary::entryAt(std::size_t index) const
{
    const std::uint32_t begin = numberAt(m_offsets, 4 * index);
    return m_entries.subspan(begin, numberAt(m_offsets, 4 * index + 4) - begin);
}

std::string_view Dictionary::wordAt(std::size_t index) const
{
    return wordOf(entryAt(index));
}

std::size_t Dictionary::firstOf(std::string_view word) const
{
    std::size_t low = 0;
    std::size_t high = m_count;
    while (low < high) {
        const std::size_t middle = low + (high - low) / 2;
        (wordAt(middle) < word ? low : high) = wordAt(middle) < word ? middle + 1 : middle;
    }
    return low < m_count && wordAt(low) == word ? low : m_count;
}

std::vector<Pronunciation> Dictionary::of(std::string_view word) const
{
    std::vector<Pronunciation> all;
    for (std::size_t index = firstOf(word); index < m_count && wordAt(index) == word; ++index) {
        Pronunciation said;
        for (const std::uint8_t phone : entryAt(index).subspan(word.size() + 1)) {
            if (phone & kBeginsSyllable)
                said.push_back({{}, (phone & kStressed) != 0});
            said.back().phones.push_back(static_cast<Phone>(phone & kPhoneBits));
        }
        all.push_back(std::move(said));
    }
    return all;
}

} // namespace vh::lexicon
