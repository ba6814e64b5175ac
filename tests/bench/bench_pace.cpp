// Planned against actual time: every class that ships is led by a simulated leader (led_class.h), whose and whose
// people's time for a text is that of another program's voice at the pace of clear speech. Then a slower leader: how
// far the plan is off for her at first, and once her own pace has been learned from five of her classes.
#include "common/script/reader.h"
#include "common/script/spoken_pace.h"
#include "tests/bench/bench_figure.h"
#include "tests/bench/led_class.h"

#include <cmath>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace
{

using namespace vh;

struct Shipped {
    std::string file;
    ClassScript script;
};

std::vector<Shipped> shipped(Pace pace)
{
    std::vector<Shipped> classes;
    for (const auto& file : std::filesystem::directory_iterator(VH_SOURCE_DIR "/content/classes")) {
        if (file.path().extension() != ".yaml")
            continue;
        std::ostringstream bytes;
        bytes << std::ifstream(file.path(), std::ios::binary).rdbuf();
        if (auto script = readClassScript(bytes.str(), file.path().string(), pace))
            classes.push_back({file.path().filename().string(), std::move(*script)});
    }
    std::ranges::sort(classes, {}, &Shipped::file);
    return classes;
}

double percentOff(Millis actual, Millis planned)
{
    return 100.0 * (static_cast<double>(actual.count()) / static_cast<double>(planned.count()) - 1);
}

double minutes(Millis time)
{
    return std::chrono::duration<double, std::ratio<60>>(time).count();
}

bool asPlanned(const std::vector<Shipped>& classes, bench::ReadAloud& readAloud, bench::Figures& figures)
{
    double worst = 0;
    PaceSample read;
    std::vector<double> off;
    for (const Shipped& each : classes) {
        const auto led = bench::lead(each.script, readAloud);
        if (!led) {
            std::printf("# %s: %s\n", each.file.c_str(), led.error().message.c_str());
            return false;
        }
        const Millis planned = planOf(each.script).total;
        const double here = percentOff(led->actual, planned);
        off.push_back(here);
        worst = std::max(worst, std::abs(here));
        read.add(led->read);
        std::printf(
            "# %-28s planned %5.2f min, took %5.2f, %+.1f %%; held %d times, went on %d times; read turns %+.1f %%\n",
            each.file.c_str(), minutes(planned), minutes(led->actual), here, led->holds, led->goneOn,
            percentOff(led->read.sum().actual, led->read.sum().planned));
    }
    bench::Figures::spread("planned_against_actual", bench::spreadOf(off), off.size());
    figures.atMost("planned_against_actual_worst", worst, "%", 5);
    figures.reported("turns_of_text_needed_against_planned", percentOff(read.sum().actual, read.sum().planned), "%");
    for (std::size_t kind = 0; kind < kSectionKinds; ++kind)
        for (const PacePart part : {PacePart::shown, PacePart::spoken})
            if (const auto time = read.of(static_cast<SectionKind>(kind), part); time.planned > Millis{0})
                std::printf("# %s, %s: needed %+.1f %% against the plan\n",
                            std::string(nameOf(static_cast<SectionKind>(kind))).c_str(),
                            part == PacePart::shown ? "shown" : "spoken", percentOff(time.actual, time.planned));
    return true;
}

/// The same classes with turns planned by vowel groups alone, for comparison.
bool byVowelGroups(bench::ReadAloud& readAloud, bench::Figures& figures)
{
    double worst = 0;
    for (const Shipped& each : shipped(nullptr)) {
        const auto led = bench::lead(each.script, readAloud);
        if (!led)
            return false;
        worst = std::max(worst, std::abs(percentOff(led->actual, planOf(each.script).total)));
    }
    figures.reported("planned_by_vowel_groups_worst", worst, "%");
    return true;
}

bool slower(const std::vector<Shipped>& classes, bench::ReadAloud& readAloud, bench::Figures& figures)
{
    bench::LeaderManner manner;
    manner.wordsPerMinute = 80;
    std::vector<PaceSample> learned;
    double before = 0;
    double after = 0;
    constexpr std::size_t kLearned = 5;
    for (const Shipped& each : classes) {
        const auto led = bench::lead(each.script, readAloud, manner);
        if (!led)
            return false;
        const OwnPace pace(std::span<const PaceSample>(learned).first(std::min(learned.size(), kLearned)));
        const double off = std::abs(percentOff(led->actual, planOf(each.script, pace).total));
        if (learned.size() < kLearned) {
            learned.push_back(paceOf(each.script, led->trace, Led::inClass));
            before = std::max(before, std::abs(percentOff(led->actual, planOf(each.script).total)));
        } else {
            after = std::max(after, off);
        }
    }
    for (const std::string& words : wordsOf(OwnPace(learned)))
        std::printf("# %s\n", words.c_str());
    figures.reported("slow_leader_before_learning_worst", before, "%");
    figures.atMost("slow_leader_after_five_classes_worst", after, "%", 5);
    return true;
}

} // namespace

int main()
{
    bench::Figures figures;
    bench::ReadAloud readAloud;
    const auto classes = shipped(plannedAsSpoken);
    if (classes.empty() || !asPlanned(classes, readAloud, figures) || !byVowelGroups(readAloud, figures) ||
        !slower(classes, readAloud, figures))
        return 1;
    return figures.exitCode();
}
