#include "app/write/rehearse_words.h"

#include <QCoreApplication>

#include <cmath>

namespace vh::write
{

namespace
{

constexpr Millis kNothing{3'000};
constexpr double kTenth = 0.1;

QString words(const char* text)
{
    return QCoreApplication::translate("vh::write::Rehearse", text);
}

QString amountWords(Millis time)
{
    const auto seconds = std::lround(static_cast<double>(time.count()) / 1000);
    if (seconds < 55)
        return words("%1 seconds").arg(seconds);
    if (seconds < 75)
        return words("a minute");
    if (seconds < 105)
        return words("a minute and a half");
    return words("%1 minutes").arg(std::lround(static_cast<double>(seconds) / 60));
}

} // namespace

QString againstPlanWords(const SectionTime& time)
{
    if (time.stepsSeen == 0)
        return words("left out");
    if (time.stepsSeen < time.steps)
        return words("%1 of %2 steps").arg(time.stepsSeen).arg(time.steps);
    const Millis off = time.actual - time.planned;
    const bool little = std::chrono::abs(off) <= kNothing || std::abs(static_cast<double>(off.count())) <=
                                                                 kTenth * static_cast<double>(time.planned.count());
    if (little)
        return words("as planned");
    return off > Millis{0} ? words("%1 longer").arg(amountWords(off)) : words("%1 shorter").arg(amountWords(-off));
}

RehearsalResult resultOf(const ClassScript& script, const ClassTrace& trace, bool learned, const QStringList& pace)
{
    RehearsalResult result;
    const auto times = sectionTimes(script, trace);
    SectionTime all;
    SectionTime pauses;
    const auto add = [](SectionTime& sum, const SectionTime& time) {
        sum.planned += time.planned;
        sum.actual += time.actual;
        sum.steps += time.steps;
        sum.stepsSeen += time.stepsSeen;
    };
    const auto row = [&](const QString& title, const SectionTime& time) {
        result.rows.push_back({title, clockWords(time.planned), clockWords(time.actual), againstPlanWords(time)});
    };
    for (std::size_t i = 0; i < times.size(); ++i) {
        add(all, times[i]);
        if (script.sections[i].kind == SectionKind::pause)
            add(pauses, times[i]);
        else
            row(QString::fromStdString(script.sections[i].title), times[i]);
    }
    if (pauses.steps > 0)
        row(words("Water pauses"), pauses);
    result.headline = words("Planned: %1. It took %2.").arg(clockWords(all.planned), clockWords(all.actual));
    if (!learned)
        result.pace << words("Too little of it was gone through at the clock's pace to learn yours from it.");
    else if (pace.isEmpty())
        result.pace << words("Your pace is about that of the plan.");
    else
        result.pace << pace << words("Later plans reckon with it.");
    return result;
}

} // namespace vh::write
