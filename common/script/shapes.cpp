#include "common/script/shapes.h"

#include "common/base/text.h"
#include "common/script/day_parts.h"
#include "common/script/mend.h"
#include "common/script/step_build.h"
#include "common/script/to_write.h"

#include <algorithm>
#include <array>

namespace vh
{

namespace
{

constexpr std::size_t kMostSentences = 9; ///< before there is a drink of water
constexpr std::size_t kMostWords = 40;
constexpr std::size_t kLongestWord = 40;

/// How much of each there is in a class.
struct Amounts {
    std::size_t sentences = 5;
    std::size_t groups = 2;
    std::size_t parts = 3; ///< of the passage
    std::size_t questions = 1;
    int lines = 3; ///< from the back of the tongue
    int vowels = 2;
};

/// One thing more, again and again: mostly sentences.
void grow(Amounts& amounts, std::size_t step)
{
    switch (step % 8) {
    case 3:
        ++amounts.groups;
        break;
    case 5:
        ++amounts.questions;
        break;
    case 7:
        ++amounts.parts;
        break;
    default:
        ++amounts.sentences;
    }
    if (step % 10 == 9 && amounts.lines < 6)
        ++amounts.lines;
    if (step % 14 == 13 && amounts.vowels < 4)
        ++amounts.vowels;
}

/// Builds one class, counting what is left to write so that no two notes are alike.
class Layout
{
public:
    explicit Layout(const Theme& theme) : m_theme(theme) {}

    void opening()
    {
        Section& section = add(SectionKind::opening, "Hello");
        section.steps.push_back(day::welcome(m_theme.day, m_theme.name));
        for (Step& step : cautionSteps())
            section.steps.push_back(std::move(step));
        section.steps.push_back(day::posture(m_theme.day, 0));
    }
    void warmUp()
    {
        add(SectionKind::warmUp, "Waking up").steps = {day::movement(m_theme.day, 0), day::hum(m_theme.day, 0),
                                                       day::hum(m_theme.day, 1)};
    }
    void vowels(std::size_t count, int times)
    {
        Section& section = add(SectionKind::sustainedVowel, "Long vowels");
        for (std::size_t i = 0; i < count; ++i)
            section.steps.push_back(day::vowel(m_theme.day, m_vowels++, times));
    }
    void glides()
    {
        add(SectionKind::pitchGlide, "Up and down").steps = {day::glide(m_theme.day, 0, 2),
                                                             day::glide(m_theme.day, 1, 2)};
    }
    void counting()
    {
        add(SectionKind::counting, "Counting").steps = {day::count(m_theme.day, 0), day::count(m_theme.day, 1)};
    }
    void backOfTongue(int lines)
    {
        Section& section = add(SectionKind::backOfTongue, "From the back of the tongue");
        section.steps = day::backOfTongue(m_theme.day, lines, m_theme.words);
        section.steps.insert(section.steps.begin(), day::backOfTongueBegins(m_theme.day));
    }
    /// In two halves, with water between them, where they are many. The last two may be left out.
    void sentences(std::size_t count)
    {
        const bool halves = count > kMostSentences;
        std::size_t left = count;
        for (const std::size_t here : halves ? std::vector{count - count / 2, count / 2} : std::vector{count}) {
            if (left < count)
                pause();
            Section& section = add(SectionKind::phrases, left < count ? "And some more" : m_theme.name);
            for (std::size_t i = 0; i < here; ++i, --left) {
                section.steps.push_back(toWrite::sentence(m_theme, m_sentences++));
                if (left <= 2 && count > 4)
                    section.steps.back().optionalDearness = left == 1 ? 2 : 3;
            }
        }
    }
    void groups(std::size_t count)
    {
        Section& section = add(SectionKind::categoryNaming, "What belongs to it");
        for (std::size_t i = 0; i < count; ++i)
            section.steps.push_back(toWrite::group(m_theme, i));
    }
    void passage(std::size_t parts)
    {
        Section& section = add(SectionKind::passage, "To read");
        for (std::size_t i = 0; i < parts; ++i)
            section.steps.push_back(toWrite::passagePart(m_theme, i, parts));
    }
    void openTalk(std::size_t count)
    {
        Section& section = add(SectionKind::openTalk, "In your own words");
        for (std::size_t i = 0; i < count; ++i) {
            section.steps.push_back(toWrite::question(m_theme, i));
            if (i > 0)
                section.steps.back().optionalDearness = 1;
        }
    }
    void closing()
    {
        add(SectionKind::closing, "Goodbye").steps = {day::goodbye(m_theme.day, 0), day::lastWord(m_theme.day, 0)};
    }
    void pause() { m_sections.push_back(waterPause(build::seconds(25))); }

    [[nodiscard]] std::vector<Section> take() { return std::move(m_sections); }

private:
    Section& add(SectionKind kind, std::string title)
    {
        return m_sections.emplace_back(Section{kind, std::move(title), {}});
    }

    const Theme& m_theme;
    std::vector<Section> m_sections;
    std::size_t m_vowels = 0;
    std::size_t m_sentences = 0;
};

std::vector<Section> sectionsOf(ClassShape shape, const Theme& theme, const Amounts& many)
{
    Layout to(theme);
    to.opening();
    to.warmUp();
    switch (shape) {
    case ClassShape::steadyClimb:
        to.vowels(2, many.vowels);
        to.pause();
        to.glides();
        to.counting();
        to.pause();
        to.sentences(many.sentences);
        to.pause();
        to.groups(many.groups);
        to.backOfTongue(many.lines);
        to.pause();
        to.passage(many.parts);
        to.openTalk(many.questions);
        break;
    case ClassShape::thereAndBack:
        to.vowels(1, many.vowels + 1);
        to.pause();
        to.sentences(many.sentences);
        to.pause();
        to.backOfTongue(many.lines);
        to.glides();
        to.pause();
        to.counting();
        to.groups(many.groups);
        to.pause();
        to.vowels(1, many.vowels);
        to.passage(many.parts);
        to.openTalk(many.questions);
        break;
    case ClassShape::talkingDay:
        to.vowels(1, many.vowels);
        to.backOfTongue(std::max(many.lines - 1, 2));
        to.pause();
        to.sentences(many.sentences);
        to.pause();
        to.groups(many.groups + 2);
        to.pause();
        to.passage(many.parts);
        to.openTalk(many.questions + 3);
        break;
    }
    to.closing();
    return to.take();
}

Millis offTime(const ClassScript& script, const Theme& theme)
{
    return std::chrono::abs(planOf(script, theme.pace).total - std::chrono::minutes(theme.minutes));
}

} // namespace

bool isToWrite(const Step& step)
{
    return step.text == kToWrite;
}

std::string_view titleOf(ClassShape shape)
{
    constexpr std::array<std::string_view, kShapes> kTitles{"Steady climb", "There and back", "Talking day"};
    return kTitles[static_cast<std::size_t>(shape)];
}

std::string_view aboutOf(ClassShape shape)
{
    constexpr std::array<std::string_view, kShapes> kAbout{"From one sound to connected speech, step by step.",
                                                           "Sounds, sentences, sounds again, and home with a story.",
                                                           "Short drills, and much to say in one's own words."};
    return kAbout[static_cast<std::size_t>(shape)];
}

std::vector<std::string> wordsTyped(std::string_view line)
{
    const bool marks = line.find_first_of(",;") != std::string_view::npos;
    const std::string_view between = marks ? ",;\n" : " \t\n";
    constexpr std::string_view kAround = " \t\r.";
    std::vector<std::string> words;
    for (std::size_t at = 0; at <= line.size() && words.size() < kMostWords;) {
        const std::size_t end = std::min(line.find_first_of(between, at), line.size());
        std::string_view word = line.substr(at, end - at);
        at = end + 1;
        word.remove_prefix(std::min(word.find_first_not_of(kAround), word.size()));
        word = word.substr(0, word.find_last_not_of(kAround) + 1);
        const bool known = std::ranges::find(words, word) != words.end();
        if (!word.empty() && !known && codePointCount(word) <= kLongestWord)
            words.emplace_back(word);
    }
    return words;
}

ClassScript laidOut(ClassShape shape, const Theme& theme)
{
    ClassScript script;
    script.title = theme.name;
    script.theme = theme.name;
    script.language = "en";
    script.plannedMinutes = theme.minutes;
    // As much to write as brings it nearest to the time that was asked for.
    constexpr std::size_t kMostGrown = 60;
    Amounts amounts;
    std::vector<Section> best;
    Millis nearest = Millis::max();
    for (std::size_t step = 0; step < kMostGrown; ++step) {
        script.sections = sectionsOf(shape, theme, amounts);
        grow(amounts, step);
        const Millis off = offTime(script, theme);
        if (off >= nearest)
            break; // longer and longer from here on
        nearest = off;
        best = script.sections;
    }
    script.sections = std::move(best);
    return script;
}

} // namespace vh
