// A class in the shape of an earlier one: what was written for that day goes, what is needed every day comes in the
// words of the new day.
#include "common/script/day_parts.h"
#include "common/script/mend.h"
#include "common/script/review.h"
#include "common/script/shapes.h"
#include "common/script/step_build.h"
#include "common/script/to_write.h"

#include <algorithm>
#include <array>

namespace vh
{

namespace
{

constexpr std::size_t kLeastSentences = 3; ///< so many stay in a section, however short the class is to be

bool isSpoken(const Step& step)
{
    return std::ranges::any_of(step.rounds, [](const Round& round) {
        return std::ranges::any_of(round.turns, [](const Turn& turn) { return turn.kind != TurnKind::listen; });
    });
}

/// What every leader writes anew.
bool isWritten(SectionKind kind)
{
    return kind == SectionKind::phrases || kind == SectionKind::categoryNaming || kind == SectionKind::passage ||
           kind == SectionKind::openTalk;
}

/// The cautions, however she words them.
bool isCaution(const Step& step)
{
    static constexpr std::array<std::string_view, 6> kOf{"hurt",    "dizzy",     "hoarse",
                                                         "swallow", "clinician", "practice aid"};
    const std::string words = said(step.text);
    return std::ranges::any_of(kOf, [&](std::string_view each) { return words.find(each) != std::string::npos; });
}

/// The steps of one class, in order, in new words.
class Renewal
{
public:
    Renewal(const ClassScript& earlier, const Theme& theme)
        : m_theme(theme), m_english(earlier.language == "en" || earlier.language.starts_with("en-"))
    {
        for (const Section& section : earlier.sections)
            if (section.kind == SectionKind::passage)
                m_parts += static_cast<std::size_t>(std::ranges::count_if(section.steps, isSpoken));
    }

    Section section(const Section& earlier)
    {
        Section section{earlier.kind, titleFor(earlier.kind), {}};
        if (section.kind == SectionKind::pause) {
            section.title = earlier.title;
            section.steps = earlier.steps;
            return section;
        }
        if (section.kind == SectionKind::backOfTongue)
            m_lines = day::backOfTongue(m_theme.day, static_cast<int>(earlier.steps.size()), {});
        for (std::size_t i = 0; i < earlier.steps.size(); ++i)
            section.steps.push_back(step(section.kind, earlier.steps[i], i));
        return section;
    }

private:
    Step step(SectionKind kind, const Step& earlier, std::size_t index)
    {
        if (kind == SectionKind::opening && isCaution(earlier)) {
            Step kept = earlier;
            kept.picture.reset(); // it was of the other theme
            return kept;
        }
        if (!m_english && !isWritten(kind)) // the fixed parts speak English only
            return earlier;
        Step renewed = isSpoken(earlier) ? spoken(kind, earlier, index) : shown(kind);
        renewed.rounds = earlier.rounds;
        renewed.optionalDearness = earlier.optionalDearness;
        return isToWrite(renewed) ? renewed : timed(kind, std::move(renewed));
    }

    /// Her times, where the new words have room in them.
    static Step timed(SectionKind kind, Step step)
    {
        if (kind == SectionKind::counting || kind == SectionKind::backOfTongue || kind == SectionKind::closing)
            return withSpokenLengths(std::move(step), "en");
        for (Turn& turn : step.rounds.front().turns)
            if (turn.kind == TurnKind::listen)
                turn.planned = std::max(turn.planned, build::toSay(step));
        return step;
    }

    Step shown(SectionKind kind)
    {
        switch (kind) {
        case SectionKind::opening:
            return m_welcomed++ == 0 ? day::welcome(m_theme.day, m_theme.name)
                                     : day::posture(m_theme.day, m_welcomed - 2);
        case SectionKind::warmUp:
            return day::movement(m_theme.day, m_movements++);
        case SectionKind::closing:
            return day::lastWord(m_theme.day, m_lastWords++);
        case SectionKind::backOfTongue:
            return day::backOfTongueBegins(m_theme.day);
        default:
            return toWrite::leadIn(m_theme);
        }
    }

    Step spoken(SectionKind kind, const Step& earlier, std::size_t index)
    {
        switch (kind) {
        case SectionKind::opening:
        case SectionKind::closing:
            return day::goodbye(m_theme.day, m_goodbyes++);
        case SectionKind::warmUp:
            return day::hum(m_theme.day, m_hums++);
        case SectionKind::sustainedVowel:
            return day::vowel(m_theme.day, m_vowels++, 1);
        case SectionKind::pitchGlide:
            return day::glide(m_theme.day, m_glides++, 1);
        case SectionKind::counting:
            return day::count(m_theme.day, m_counts++);
        case SectionKind::backOfTongue:
            return m_lines[index % m_lines.size()];
        case SectionKind::phrases:
            return toWrite::sentence(m_theme, m_sentences++);
        case SectionKind::categoryNaming:
            return toWrite::group(m_theme, m_groups++);
        case SectionKind::passage:
            return toWrite::passagePart(m_theme, m_passage++, m_parts);
        case SectionKind::openTalk:
            return toWrite::question(m_theme, m_questions++);
        case SectionKind::pause:
            break;
        }
        return earlier;
    }

    [[nodiscard]] std::string titleFor(SectionKind kind) const
    {
        static constexpr std::array<std::string_view, kSectionKinds> kTitles{"Hello",
                                                                             "Waking up",
                                                                             "Long vowels",
                                                                             "Up and down",
                                                                             "Counting",
                                                                             {},
                                                                             "What belongs to it",
                                                                             "From the back of the tongue",
                                                                             "To read",
                                                                             "In your own words",
                                                                             {},
                                                                             "Goodbye"};
        return kind == SectionKind::phrases ? m_theme.name : std::string(kTitles[static_cast<std::size_t>(kind)]);
    }

    const Theme& m_theme;
    bool m_english;
    std::vector<Step> m_lines;
    std::size_t m_parts = 0;
    std::size_t m_welcomed = 0, m_movements = 0, m_lastWords = 0, m_goodbyes = 0, m_hums = 0, m_vowels = 0,
                m_glides = 0, m_counts = 0, m_sentences = 0, m_groups = 0, m_passage = 0, m_questions = 0;
};

/// Sentences come, or go from the end of the longest list, until the class takes the minutes that were asked for.
void fitSentences(ClassScript& script, const Theme& theme)
{
    const Millis wanted = std::chrono::minutes(theme.minutes);
    const auto sentences = [](const Section& section) {
        return section.kind == SectionKind::phrases ? section.steps.size() : 0;
    };
    std::size_t next = 0;
    for (const Section& section : script.sections)
        next += sentences(section);
    for (int i = 0; i < 100; ++i) {
        const Millis total = planOf(script, theme.pace).total;
        if (std::chrono::abs(total - wanted) <= build::seconds(60))
            return;
        Section* section = nullptr;
        for (Section& each : script.sections)
            if (each.kind == SectionKind::phrases &&
                (section == nullptr || (total > wanted) == (sentences(each) > sentences(*section))))
                section = &each;
        if (section == nullptr)
            return;
        if (total < wanted) {
            Step more = toWrite::sentence(theme, next++);
            more.rounds = section->steps.back().rounds;
            section->steps.push_back(std::move(more));
        } else if (section->steps.size() > kLeastSentences) {
            section->steps.pop_back();
        } else {
            return;
        }
    }
}

} // namespace

ClassScript laidOutAs(const ClassScript& earlier, const Theme& theme)
{
    ClassScript script;
    script.title = theme.name;
    script.theme = theme.name;
    script.language = earlier.language;
    script.plannedMinutes = theme.minutes;
    Renewal renewal(earlier, theme);
    for (const Section& section : earlier.sections)
        script.sections.push_back(renewal.section(section));
    fitSentences(script, theme);
    const Millis total = planOf(script, theme.pace).total;
    if (std::chrono::abs(total - std::chrono::minutes(theme.minutes)) > build::seconds(60)) // no sentences to fit it by
        script.plannedMinutes = static_cast<int>(std::chrono::round<std::chrono::minutes>(total).count());
    return script;
}

} // namespace vh
