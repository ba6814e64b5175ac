#include "common/lexicon/alignment.h"

#include <algorithm>
#include <bit>

namespace vh::lexicon
{

namespace
{

constexpr std::size_t kLetters = 27; // a-z and the apostrophe
constexpr std::size_t kLabels = (kPhones + 1) * (kPhones + 1);
constexpr std::size_t kMost = 2; // phones of one letter
constexpr int kRounds = 6;
constexpr float kPairPrior = 0.01F; // two phones for a letter are rare: x, and u as in "use"
constexpr float kLeast = 1e-6F;     // what was never seen may still be, in names and foreign words
constexpr std::size_t kEntryBytes = 7;

std::size_t indexOf(char letter)
{
    return letter == '\'' ? kLetters - 1 : static_cast<std::size_t>(letter - 'a');
}

} // namespace

Alignment::Alignment() : m_table(kLetters * kLabels, kLeast) {}

double Alignment::of(char letter, std::span<const Phone> phones) const
{
    return m_table[indexOf(letter) * kLabels + labelOf(phones)];
}

/// Adds to `counts` how often each letter gives each label in all ways to cut this word, each by its likelihood.
void Alignment::count(const Spoken& word, std::vector<double>& counts) const
{
    const std::size_t letters = word.word.size();
    const std::size_t phones = word.phones.size();
    const std::size_t width = phones + 1;
    const std::span<const Phone> all(word.phones);
    std::vector<double> before((letters + 1) * width);
    std::vector<double> behind((letters + 1) * width);
    before[0] = 1;
    for (std::size_t i = 0; i < letters; ++i)
        for (std::size_t k = 0; k <= phones; ++k)
            for (std::size_t n = 0; n <= std::min(kMost, phones - k); ++n)
                before[(i + 1) * width + k + n] += before[i * width + k] * of(word.word[i], all.subspan(k, n));
    const double total = before[letters * width + phones];
    if (total <= 0)
        return;
    behind[letters * width + phones] = 1;
    for (std::size_t i = letters; i-- > 0;)
        for (std::size_t k = 0; k <= phones; ++k)
            for (std::size_t n = 0; n <= std::min(kMost, phones - k); ++n) {
                const double step = of(word.word[i], all.subspan(k, n)) * behind[(i + 1) * width + k + n];
                behind[i * width + k] += step;
                counts[indexOf(word.word[i]) * kLabels + labelOf(all.subspan(k, n))] +=
                    before[i * width + k] * step / total;
            }
}

void Alignment::take(const std::vector<double>& counts)
{
    for (std::size_t letter = 0; letter < kLetters; ++letter) {
        const auto row = std::span(counts).subspan(letter * kLabels, kLabels);
        double sum = 0;
        for (const double count : row)
            sum += count;
        for (std::size_t label = 0; sum > 0 && label < kLabels; ++label)
            m_table[letter * kLabels + label] = static_cast<float>(row[label] / sum);
    }
}

Alignment Alignment::learnt(const std::vector<Spoken>& words)
{
    Alignment now;
    for (std::size_t letter = 0; letter < kLetters; ++letter)
        for (std::size_t label = 0; label < kLabels; ++label)
            now.m_table[letter * kLabels + label] = label <= kPhones ? 1.0F : kPairPrior;
    for (int round = 0; round < kRounds; ++round) {
        std::vector<double> counts(kLetters * kLabels);
        for (const Spoken& word : words)
            now.count(word, counts);
        now.take(counts);
    }
    for (float& value : now.m_table)
        value = std::max(value, kLeast);
    return now;
}

std::vector<std::uint16_t> Alignment::labels(std::string_view word, std::span<const Phone> phones) const
{
    const std::size_t width = phones.size() + 1;
    std::vector<double> best((word.size() + 1) * width);
    std::vector<std::uint8_t> taken((word.size() + 1) * width);
    best[0] = 1;
    for (std::size_t i = 0; i < word.size(); ++i)
        for (std::size_t k = 0; k < width; ++k)
            for (std::size_t n = 0; n <= std::min(kMost, phones.size() - k); ++n) {
                const double here = best[i * width + k] * of(word[i], phones.subspan(k, n));
                double& there = best[(i + 1) * width + k + n];
                if (here <= there)
                    continue;
                there = here;
                taken[(i + 1) * width + k + n] = static_cast<std::uint8_t>(n);
            }
    if (best.back() <= 0)
        return {};
    std::vector<std::uint16_t> labels(word.size());
    std::size_t k = phones.size();
    for (std::size_t i = word.size(); i-- > 0;) {
        const std::size_t n = taken[(i + 1) * width + k];
        k -= n;
        labels[i] = labelOf(phones.subspan(k, n));
    }
    return labels;
}

std::string Alignment::bytes() const
{
    std::string bytes;
    for (std::size_t i = 0; i < m_table.size(); ++i) {
        if (m_table[i] <= kLeast)
            continue;
        const auto value = std::bit_cast<std::uint32_t>(m_table[i]);
        bytes.push_back(static_cast<char>(i / kLabels));
        bytes.push_back(static_cast<char>((i % kLabels) >> 8));
        bytes.push_back(static_cast<char>(i % kLabels));
        for (int shift = 24; shift >= 0; shift -= 8)
            bytes.push_back(static_cast<char>(value >> shift));
    }
    return bytes;
}

Result<Alignment> Alignment::fromBytes(std::span<const std::uint8_t> bytes)
{
    if (bytes.size() % kEntryBytes != 0)
        return fail("damaged", "The letters' alignment is cut short.");
    Alignment alignment;
    for (; !bytes.empty(); bytes = bytes.subspan(kEntryBytes)) {
        const std::size_t label = static_cast<std::size_t>(bytes[1]) << 8 | bytes[2];
        std::uint32_t value = 0;
        for (std::size_t k = 3; k < kEntryBytes; ++k)
            value = value << 8 | bytes[k];
        const auto likelihood = std::bit_cast<float>(value);
        if (bytes[0] >= kLetters || label >= kLabels || !(likelihood > 0 && likelihood <= 1))
            return fail("damaged", "The letters' alignment is damaged.");
        alignment.m_table[bytes[0] * kLabels + label] = likelihood;
    }
    return alignment;
}

} // namespace vh::lexicon
