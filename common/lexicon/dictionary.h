#pragma once
// A pronouncing dictionary, packed: words in order, each with how it is said. Reads from bytes that outlive it (they
// are part of the program); copying one is cheap. Reading is const and may be done on any thread.
#include "common/base/result.h"
#include "common/lexicon/pronunciation.h"

#include <span>
#include <string>

namespace vh::lexicon
{

class Dictionary
{
public:
    struct Entry {
        std::string word; ///< lower case
        Pronunciation said;
    };

    Dictionary() = default;
    /// Damaged bytes are refused as a whole.
    static Result<Dictionary> fromBytes(std::span<const std::uint8_t> bytes);
    /// Entries of one word stay in their order.
    static std::string pack(std::vector<Entry> entries);

    [[nodiscard]] std::size_t size() const { return m_count; }
    [[nodiscard]] bool has(std::string_view word) const { return firstOf(word) < m_count; }
    /// All ways to say it, the dictionary's first one first; empty for a word that it does not have.
    [[nodiscard]] std::vector<Pronunciation> of(std::string_view word) const;
    [[nodiscard]] std::string_view wordAt(std::size_t index) const;

private:
    [[nodiscard]] std::span<const std::uint8_t> entryAt(std::size_t index) const;
    /// m_count: it is not there.
    [[nodiscard]] std::size_t firstOf(std::string_view word) const;

    std::size_t m_count = 0;
    std::span<const std::uint8_t> m_offsets; ///< m_count + 1 of four bytes, into m_entries
    std::span<const std::uint8_t> m_entries; ///< word, 0, phones
};

} // namespace vh::lexicon
