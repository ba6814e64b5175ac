#include "common/script/own_pace.h"

#include <algorithm>
#include <cmath>

namespace vh
{

namespace
{

constexpr double kWorthSaying = 0.07; // less than this nobody notices

/// "sentences" in "You take longer to show sentences", and in "The people's turns in sentences".
std::string_view wordsFor(SectionKind kind)
{
    static constexpr std::array<std::string_view, kSectionKinds> kWords{
        "the welcome",    "the warm-up",    "long vowels", "glides",    "counting", "sentences",
        "things to name", "back-of-tongue", "the story",   "open talk", "a pause",  "the goodbye"};
    return kWords[static_cast<std::size_t>(kind)];
}

/// "about a fifth".
std::string_view shareWords(double share)
{
    static constexpr std::array<std::pair<double, std::string_view>, 7> kShares{{{0.1, "about a tenth"},
                                                                                 {0.143, "about a seventh"},
                                                                                 {0.2, "about a fifth"},
                                                                                 {0.25, "about a quarter"},
                                                                                 {0.333, "about a third"},
                                                                                 {0.4, "about two fifths"},
                                                                                 {0.5, "about half"}}};
    const auto nearest =
        std::ranges::min_element(kShares, {}, [&](const auto& each) { return std::abs(each.first - share); });
    return nearest->second;
}

std::string sentence(SectionKind kind, PacePart part, double longer)
{
    const std::string amount = std::string(shareWords(std::abs(longer))) + (longer > 0 ? " longer" : " less time");
    const std::string what(wordsFor(kind));
    if (kind == SectionKind::pause)
        return "Your water pauses take " + amount + " than the plan says.";
    const std::string lines = kind == SectionKind::backOfTongue ? "back-of-tongue lines" : what;
    if (part == PacePart::shown)
        return "You take " + amount + " over " + lines + " than the plan says.";
    return "The people's turns in " + lines + " take " + amount + " than the plan says.";
}

double median(std::vector<double> values)
{
    std::ranges::sort(values);
    const std::size_t middle = values.size() / 2;
    return values.size() % 2 == 1 ? values[middle] : (values[middle - 1] + values[middle]) / 2;
}

} // namespace

const PaceSample::Time& PaceSample::of(SectionKind kind, PacePart part) const
{
    return times[static_cast<std::size_t>(kind)][static_cast<std::size_t>(part)];
}

void PaceSample::add(SectionKind kind, PacePart part, Millis planned, Millis actual)
{
    Time& time = times[static_cast<std::size_t>(kind)][static_cast<std::size_t>(part)];
    time.planned += planned;
    time.actual += actual;
}

void PaceSample::add(const PaceSample& other)
{
    for (std::size_t kind = 0; kind < kSectionKinds; ++kind)
        for (std::size_t part = 0; part < kPaceParts; ++part) {
            times[kind][part].planned += other.times[kind][part].planned;
            times[kind][part].actual += other.times[kind][part].actual;
        }
}

PaceSample::Time PaceSample::sum() const
{
    Time all;
    for (const auto& kind : times)
        for (const Time& each : kind) {
            all.planned += each.planned;
            all.actual += each.actual;
        }
    return all;
}

OwnPace::OwnPace(std::span<const PaceSample> classes)
{
    for (std::size_t kind = 0; kind < kSectionKinds; ++kind)
        for (std::size_t part = 0; part < kPaceParts; ++part) {
            std::vector<double> ratios;
            for (auto each = classes.rbegin(); each != classes.rend() && ratios.size() < kMostClasses; ++each) {
                const PaceSample::Time& time = each->times[kind][part];
                if (time.planned >= kLeastPlanned)
                    ratios.push_back(static_cast<double>(time.actual.count()) /
                                     static_cast<double>(time.planned.count()));
            }
            if (ratios.empty())
                continue;
            const auto count = static_cast<double>(ratios.size());
            // As if there had been one more class, just as planned.
            const double longer = (median(std::move(ratios)) - 1) * count / (count + 1);
            m_longer[kind][part] = std::clamp(longer, kLeastTimes - 1, kMostTimes - 1);
        }
}

double OwnPace::times(SectionKind kind, PacePart part) const
{
    return 1 + m_longer[static_cast<std::size_t>(kind)][static_cast<std::size_t>(part)];
}

Millis OwnPace::at(SectionKind kind, TurnKind turn, Millis planned) const
{
    return Millis{std::llround(static_cast<double>(planned.count()) * times(kind, partOf(turn)))};
}

TimingPlan planOf(const ClassScript& script, const OwnPace& pace)
{
    TimingPlan plan = planOf(script);
    if (pace.isAsPlanned())
        return plan;
    plan.total = Millis{0};
    std::ranges::fill(plan.sectionLengths, Millis{0});
    for (PlannedTurn& turn : plan.turns) {
        const Section& section = script.sections[turn.index.section];
        const TurnKind kind = section.steps[turn.index.step].rounds[turn.index.round].turns[turn.index.turn].kind;
        turn.length = pace.at(section.kind, kind, turn.length);
        turn.start = plan.total;
        plan.total += turn.length;
        plan.sectionLengths[turn.index.section] += turn.length;
    }
    return plan;
}

std::vector<std::string> wordsOf(const OwnPace& pace)
{
    struct Found {
        double longer = 0;
        std::string words;
    };
    std::vector<Found> found;
    for (std::size_t kind = 0; kind < kSectionKinds; ++kind)
        for (const PacePart part : {PacePart::shown, PacePart::spoken}) {
            const double longer = pace.times(static_cast<SectionKind>(kind), part) - 1;
            if (std::abs(longer) >= kWorthSaying)
                found.push_back({longer, sentence(static_cast<SectionKind>(kind), part, longer)});
        }
    std::ranges::stable_sort(found, std::greater{}, [](const Found& each) { return std::abs(each.longer); });
    std::vector<std::string> words;
    words.reserve(found.size());
    for (Found& each : found)
        words.push_back(std::move(each.words));
    return words;
}

} // namespace vh
