#include "common/script/shapes.h"

#include "common/lexicon/back_lines.h"
#include "common/lexicon/measures.h"
#include "common/script/mend.h"
#include "common/script/plan.h"

#include <algorithm>
#include <array>

namespace vh
{

namespace
{

constexpr Millis operator""_s(unsigned long long seconds)
{
    return Millis{static_cast<std::int64_t>(seconds) * 1000};
}

Turn listen(Millis length)
{
    return {TurnKind::listen, length};
}
Turn ready()
{
    return {TurnKind::ready, 2_s};
}
Turn withMe(Millis length)
{
    return {TurnKind::withMe, length};
}
Turn yours(Millis length)
{
    return {TurnKind::yours, length};
}

/// `text` with its marks: "b<oa>t".
Step stepOf(std::string_view text, std::vector<Round> rounds, std::string note = {})
{
    Step step;
    for (const char c : text) {
        const auto here = static_cast<std::uint32_t>(step.text.size());
        if (c == '<')
            step.stretches.push_back({here, here});
        else if (c == '>')
            step.stretches.back().end = here;
        else
            step.text += c;
    }
    step.rounds = std::move(rounds);
    step.note = std::move(note);
    return step;
}

Step said(std::string_view text, Millis length, std::string note = {})
{
    return stepOf(text, {{false, {listen(length)}}}, std::move(note));
}

Step toWrite(std::vector<Round> rounds, std::string note)
{
    return stepOf(kToWrite, std::move(rounds), std::move(note));
}

std::vector<Round> twice(Millis shown, Millis spoken)
{
    return {{false, {listen(shown), ready(), yours(spoken)}}, {true, {ready(), yours(spoken)}}};
}

std::vector<Round> rounds(Round first, const Round& again, int times)
{
    std::vector<Round> all{std::move(first)};
    all.insert(all.end(), static_cast<std::size_t>(times), again);
    return all;
}

Section pause()
{
    return waterPause(25_s);
}

Section opening(const Theme& theme)
{
    Section section{SectionKind::opening, "Hello", {}};
    section.steps.push_back(said("Good morning, and welcome. Today: " + theme.name + ".", 20_s,
                                 "Greet two or three people by name, those who like it."));
    for (Step& step : cautionSteps())
        section.steps.push_back(std::move(step));
    section.steps.push_back(said("Both feet on the ground, back tall, shoulders easy.", 15_s));
    return section;
}

Section warmUp()
{
    const Round all{false, {ready(), withMe(5_s)}};
    return {SectionKind::warmUp,
            "Waking up",
            {said("Roll your shoulders, slowly. Whoever is sore only thinks it.", 16_s),
             stepOf("Hum along. M<mm>", rounds({false, {listen(4_s), ready(), withMe(5_s)}}, all, 2)),
             stepOf("Breathe out and let the voice come along. H<oo>",
                    rounds({false, {listen(4_s), ready(), withMe(5_s)}}, all, 1))}};
}

Section vowels(std::initializer_list<std::string_view> all, int times)
{
    Section section{SectionKind::sustainedVowel, "Long vowels", {}};
    for (const std::string_view vowel : all)
        section.steps.push_back(stepOf(
            vowel,
            rounds({false, {listen(4_s), ready(), yours(7_s)}}, {true, {listen(3_s), ready(), yours(7_s)}}, times),
            "Steady from the first moment to the last; the throat stays soft."));
    return section;
}

Section glides(int times)
{
    const Round again{false, {listen(3_s), ready(), yours(5_s)}};
    return {
        SectionKind::pitchGlide,
        "Up and down",
        {stepOf("Glide from low to high. W<oo>", rounds({false, {listen(6_s), ready(), withMe(5_s)}}, again, times),
                "As high as is comfortable, no higher."),
         stepOf("Glide from high to low. W<oo>", rounds({false, {listen(6_s), ready(), withMe(5_s)}}, again, times))}};
}

Section counting()
{
    const std::vector<Round> all{{false, {listen(6_s), ready(), withMe(8_s)}}, {true, {ready(), yours(8_s)}}};
    return {SectionKind::counting,
            "Counting",
            {stepOf("One, two, three, four, f<i>ve, six, seven, eight, n<i>ne, ten.", all),
             stepOf("Ten, n<i>ne, eight, seven, six, f<i>ve, four, three, two, one.", all,
                    "Keep \"one\" as full as \"ten\".")}};
}

/// The theme's words with the most sounds of the back of the tongue.
std::string backWords(const Theme& theme)
{
    std::vector<std::pair<int, std::string>> words;
    for (const std::string& word : theme.words) {
        const int count = lexicon::measure(word, lexicon::english()).backOfTongue;
        if (count > 0)
            words.emplace_back(-count, word);
    }
    std::stable_sort(words.begin(), words.end(),
                     [](const auto& one, const auto& other) { return one.first < other.first; });
    int sounds = 0;
    std::string line;
    for (std::size_t i = 0; i < std::min<std::size_t>(words.size(), 4); ++i) {
        line += (line.empty() ? "" : ", ") + words[i].second;
        sounds -= words[i].first;
    }
    return sounds >= 3 ? line + '.' : std::string();
}

Section backOfTongue(const Theme& theme, int lines)
{
    const std::vector<Round> all{{false, {listen(4_s), ready(), withMe(4_s)}}, {true, {ready(), yours(4_s)}}};
    Section section{SectionKind::backOfTongue, "From the back of the tongue", {}};
    section.steps.push_back(said("Sounds from the back of the tongue, large and slow.", 8_s));
    for (const std::string& line : lexicon::backLines(theme.day, lines))
        section.steps.push_back(stepOf(line, all));
    if (const std::string words = backWords(theme); !words.empty())
        section.steps.push_back(stepOf(words, all));
    return section;
}

Section phrases(const Theme& theme, int count)
{
    Section section{SectionKind::phrases, theme.name, {}};
    const auto wordFor = [&](int i) {
        return theme.words.empty() ? theme.name : theme.words[static_cast<std::size_t>(i) % theme.words.size()];
    };
    for (int i = 0; i < count; ++i) {
        Step step =
            toWrite(twice(5_s, 5_s), "A sentence with \"" + wordFor(i) +
                                         "\": something one would call to somebody, sayable on one breath, with a long "
                                         "vowel to stretch.");
        if (i + 2 >= count && count > 4)
            step.optionalDearness = i + 1 == count ? 2 : 3;
        section.steps.push_back(std::move(step));
    }
    return section;
}

Section groups(const Theme& theme, int count)
{
    Section section{SectionKind::categoryNaming, "What belongs to it", {}};
    for (int i = 0; i < count; ++i)
        section.steps.push_back(toWrite({{false, {listen(7_s), ready(), yours(20_s)}}},
                                        "A group of things to name that has to do with " + theme.name +
                                            ": wide enough for ten answers, and none of them wrong."));
    return section;
}

Section passage(int steps)
{
    Section section{SectionKind::passage, "To read", {}};
    for (int i = 0; i < steps; ++i)
        section.steps.push_back(toWrite({{false, {listen(7_s), ready(), withMe(8_s)}}, {true, {ready(), yours(8_s)}}},
                                        i == 0 ? "The story begins: two short lines, a place and somebody in it."
                                        : i + 1 == steps ? "It ends well. The last line is one to send across the room."
                                                         : "It goes on: two short lines; somebody says something."));
    return section;
}

Section openTalk(int count)
{
    Section section{SectionKind::openTalk, "In your own words", {}};
    for (int i = 0; i < count; ++i) {
        Step step = toWrite({{false, {listen(8_s), ready(), yours(25_s)}}},
                            "A question about their own life that everybody can answer, and nobody has to.");
        if (i > 0)
            step.optionalDearness = 1;
        section.steps.push_back(std::move(step));
    }
    return section;
}

Section closing()
{
    return {SectionKind::closing,
            "Goodbye",
            {stepOf("Thank you, all of you. See you t<o>morrow!", twice(4_s, 4_s)),
             said("Take this voice along to the next phone call.\nIf your throat is sore or hoarse now, let it rest.",
                  20_s)}};
}

std::vector<Section> sectionsOf(Shape shape, const Theme& theme, int size)
{
    switch (shape) {
    case Shape::steadyClimb:
        return {opening(theme),
                warmUp(),
                vowels({"<Ah>", "<Oh>"}, 2),
                pause(),
                glides(2),
                counting(),
                pause(),
                phrases(theme, 6 + size),
                pause(),
                groups(theme, 2),
                backOfTongue(theme, 3),
                pause(),
                passage(4),
                openTalk(2),
                closing()};
    case Shape::thereAndBack:
        return {opening(theme),
                warmUp(),
                vowels({"<Ah>"}, 3),
                pause(),
                phrases(theme, 4 + size),
                pause(),
                backOfTongue(theme, 4),
                glides(2),
                pause(),
                counting(),
                groups(theme, 2),
                pause(),
                vowels({"<Ee>"}, 2),
                passage(4),
                openTalk(1),
                closing()};
    case Shape::talkingDay:
        return {opening(theme),
                warmUp(),
                vowels({"<Ah>"}, 2),
                backOfTongue(theme, 2),
                pause(),
                phrases(theme, 4 + size),
                pause(),
                groups(theme, 4),
                pause(),
                passage(3),
                openTalk(5),
                closing()};
    }
    return {};
}

/// What every leader writes anew.
bool isWritten(SectionKind kind)
{
    return kind == SectionKind::phrases || kind == SectionKind::categoryNaming || kind == SectionKind::passage ||
           kind == SectionKind::openTalk;
}

} // namespace

bool isToWrite(const Step& step)
{
    return step.text == kToWrite;
}

std::string_view titleOf(Shape shape)
{
    constexpr std::array<std::string_view, kShapes> kTitles{"Steady climb", "There and back", "Talking day"};
    return kTitles[static_cast<std::size_t>(shape)];
}

std::string_view aboutOf(Shape shape)
{
    constexpr std::array<std::string_view, kShapes> kAbout{"From one sound to connected speech, step by step.",
                                                           "Sounds, sentences, sounds again, and home with a story.",
                                                           "Short drills, and much to say in one's own words."};
    return kAbout[static_cast<std::size_t>(shape)];
}

ClassScript laidOut(Shape shape, const Theme& theme)
{
    ClassScript script;
    script.title = theme.name;
    script.theme = theme.name;
    script.language = "en";
    script.plannedMinutes = theme.minutes;
    const auto off = [&] { return std::chrono::abs(planOf(script).total - std::chrono::minutes(theme.minutes)); };
    // As many sentences as bring it nearest to the time that was asked for.
    std::vector<Section> best;
    Millis nearest = Millis::max();
    for (int size = -3; size <= 60; ++size) {
        script.sections = sectionsOf(shape, theme, size);
        if (off() >= nearest)
            continue;
        nearest = off();
        best = script.sections;
    }
    script.sections = std::move(best);
    return script;
}

ClassScript laidOutAs(const ClassScript& earlier, const Theme& theme)
{
    ClassScript script = earlier;
    script.title = theme.name;
    script.theme = theme.name;
    std::size_t word = 0;
    for (Section& section : script.sections) {
        if (section.kind == SectionKind::phrases)
            section.title = theme.name;
        std::vector<std::string> lines;
        if (section.kind == SectionKind::backOfTongue)
            lines = lexicon::backLines(theme.day, static_cast<int>(section.steps.size()));
        for (std::size_t i = 0; i < section.steps.size(); ++i) {
            Step& step = section.steps[i];
            step.picture.reset(); // it was of the other theme
            const bool spoken = step.rounds.size() > 1 || step.rounds.front().turns.size() > 1;
            if (!spoken || !(isWritten(section.kind) || section.kind == SectionKind::backOfTongue))
                continue;
            step.stretches.clear();
            step.note.clear();
            step.text = section.kind == SectionKind::backOfTongue ? lines[i] : std::string(kToWrite);
            if (section.kind == SectionKind::phrases && !theme.words.empty())
                step.note = "A sentence with \"" + theme.words[word++ % theme.words.size()] + "\".";
        }
    }
    return script;
}

} // namespace vh
