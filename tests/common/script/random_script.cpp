#include "random_script.h"

#include "common/base/text.h"
#include "common/script/limits.h"
#include "common/script/valid.h"

#include <array>

using namespace vh;

namespace
{

/// SplitMix64 (Steele, Lea and Flood 2014): the distributions of <random> differ between libraries.
class Dice
{
public:
    explicit Dice(std::uint64_t seed) : m_state(seed) {}
    std::uint64_t next()
    {
        std::uint64_t z = (m_state += 0x9E3779B97F4A7C15U);
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9U;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBU;
        return z ^ (z >> 31);
    }
    int from(int least, int most) { return least + static_cast<int>(next() % static_cast<unsigned>(most - least + 1)); }
    bool oneIn(int n) { return from(1, n) == 1; }

private:
    std::uint64_t m_state;
};

/// Everything that YAML, the marks or a text editor might trip over.
constexpr std::array<std::string_view, 58> kPieces{"a",
                                                   "row",
                                                   "null",
                                                   "~",
                                                   "yes",
                                                   "0x1F",
                                                   "12",
                                                   "1e3",
                                                   " ",
                                                   "  ",
                                                   ": ",
                                                   ":",
                                                   " #",
                                                   "#",
                                                   "- ",
                                                   "-",
                                                   "---",
                                                   "...",
                                                   "?",
                                                   "? ",
                                                   "!",
                                                   "!!str",
                                                   "&a",
                                                   "*a",
                                                   "{",
                                                   "}",
                                                   "[",
                                                   "]",
                                                   ",",
                                                   "'",
                                                   "''",
                                                   "\"",
                                                   "\\",
                                                   "\\n",
                                                   "<",
                                                   ">",
                                                   "<<",
                                                   "|",
                                                   ">-",
                                                   "%",
                                                   "@",
                                                   "`",
                                                   "=",
                                                   "%YAML 1.2",
                                                   "\xC3\xA9",
                                                   "\xC3\xB8",
                                                   "e\xCC\x81",
                                                   "\xE6\xB0\xB4",
                                                   "\xF0\x9F\x8C\xB1",
                                                   "\xD0\x92\xD0\xBE",
                                                   "\xD9\x85\xD8\xA7",
                                                   "\xC2\xA0",
                                                   "\xE2\x80\xA8",
                                                   "\xE2\x80\xA9",
                                                   "\xE2\x80\x8D",
                                                   "\xE2\x80\x9C",
                                                   "\xEF\xBF\xBD",
                                                   "\xF4\x8F\xBF\xBD"};

std::string randomText(Dice& dice, int mostPieces, std::size_t most, LineBreaks breaks)
{
    std::string text;
    for (int i = dice.from(1, mostPieces); i > 0; --i) {
        if (breaks == LineBreaks::keep && dice.oneIn(6))
            text += dice.oneIn(3) ? "\n\n" : dice.oneIn(2) ? "\n  " : "\n";
        text += kPieces[static_cast<std::size_t>(dice.from(0, kPieces.size() - 1))];
        if (dice.oneIn(2))
            text += ' ';
    }
    return cleanLine(text, most, breaks).value_or("x");
}

std::vector<Stretch> randomStretches(Dice& dice, const std::string& text)
{
    std::vector<std::uint32_t> borders;
    for (std::size_t i = 0; i <= text.size(); ++i)
        if (i == text.size() || (static_cast<unsigned char>(text[i]) & 0xC0) != 0x80)
            borders.push_back(static_cast<std::uint32_t>(i));
    std::vector<Stretch> stretches;
    for (std::size_t i = 0; i + 1 < borders.size() && stretches.size() < limits::kMaxStretches; ++i) {
        if (!dice.oneIn(4))
            continue;
        const std::size_t end = std::min(i + static_cast<std::size_t>(dice.from(1, 3)), borders.size() - 1);
        const std::string_view inside = std::string_view(text).substr(borders[i], borders[end] - borders[i]);
        if (inside.find_first_of(" \n") != std::string_view::npos)
            continue;
        stretches.push_back({borders[i], borders[end]});
        i = end - 1;
    }
    return stretches;
}

std::vector<Round> randomRounds(Dice& dice, bool pause)
{
    std::vector<Round> rounds;
    for (int i = dice.from(1, 4); i > 0; --i) {
        Round round{dice.oneIn(2), {}};
        for (int j = dice.from(1, 5); j > 0; --j) {
            const TurnKind kind = pause ? TurnKind::listen : static_cast<TurnKind>(dice.from(0, 3));
            const Millis planned{dice.oneIn(2) ? dice.from(1, 20) * 500 : dice.from(500, 600'000)};
            round.turns.push_back({kind, planned});
        }
        rounds.insert(rounds.end(), static_cast<std::size_t>(dice.from(1, 3)), round);
    }
    return rounds;
}

Step randomStep(Dice& dice, bool pause)
{
    Step step;
    if (!pause || dice.oneIn(2))
        step.text = randomText(dice, 25, limits::kMaxText, LineBreaks::keep);
    step.stretches = randomStretches(dice, step.text);
    if (dice.oneIn(3))
        step.picture = Picture{dice.oneIn(2) ? "pictures/gate.svg" : "a b/\xC3\xA9 #1 - {x}.png",
                               randomText(dice, 8, limits::kMaxDescription, LineBreaks::remove)};
    if (dice.oneIn(2))
        step.note = randomText(dice, 10, limits::kMaxNote, LineBreaks::keep);
    step.rounds = randomRounds(dice, pause);
    if (dice.oneIn(3))
        step.optionalDearness = dice.from(limits::kMinDearness, limits::kMaxDearness);
    return step;
}

} // namespace

ClassScript randomScript(std::uint64_t seed)
{
    Dice dice(seed);
    ClassScript script;
    script.title = randomText(dice, 8, limits::kMaxTitle, LineBreaks::remove);
    script.theme = randomText(dice, 8, limits::kMaxTitle, LineBreaks::remove);
    script.language = dice.oneIn(2) ? "en" : "sr-Latn-RS";
    script.plannedMinutes = dice.from(1, limits::kMaxMinutes);
    for (int i = dice.from(1, 6); i > 0; --i) {
        Section section;
        section.kind = static_cast<SectionKind>(dice.from(0, static_cast<int>(SectionKind::closing)));
        section.title = randomText(dice, 8, limits::kMaxTitle, LineBreaks::remove);
        const bool pause = section.kind == SectionKind::pause;
        for (int j = dice.from(1, 5); j > 0; --j)
            section.steps.push_back(randomStep(dice, pause));
        if (dice.oneIn(2)) // the case in which a section's rounds are written once for all its steps
            for (Step& step : section.steps)
                step.rounds = section.steps.front().rounds;
        script.sections.push_back(std::move(section));
    }
    return script;
}

ClassScript largestScript()
{
    ClassScript script{"t", "b", "en", 120, {}};
    std::size_t bytes = 4;
    for (std::size_t i = 0; i < limits::kMaxSteps; ++i) {
        if (i % 20 == 0) {
            script.sections.push_back({SectionKind::sustainedVowel, "s", {}});
            bytes += 1;
        }
        Step step;
        step.text = std::string(20, '\\');
        for (std::uint32_t k = 0; k < 20; ++k)
            step.stretches.push_back({k, k + 1});
        step.note = std::string(100, '"');
        step.optionalDearness = 1;
        step.picture = Picture{"p.svg", "d"};
        for (std::size_t k = 0; k < limits::kMaxTurns / limits::kMaxSteps; ++k)
            step.rounds.push_back({true, {{TurnKind::listen, Millis{100'001 + static_cast<int>(i * 10 + k)}}}});
        bytes += step.text.size() + step.note.size() + 6;
        script.sections.back().steps.push_back(std::move(step));
    }
    // What is left of the bytes goes into texts of backslashes, four bytes each once written.
    for (std::size_t i = 0; bytes < limits::kMaxTextBytes; ++i) {
        std::string& text = script.sections[i / 20].steps[i % 20].text;
        const std::size_t more = std::min(limits::kMaxText - text.size(), limits::kMaxTextBytes - bytes);
        text.append(more, '\\');
        bytes += more;
    }
    return script;
}
