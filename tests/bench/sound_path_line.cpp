#include "tests/bench/sound_path_line.h"

#include "tests/stage/slow_line.h"
#include "tests/whole/voice_class.h"

namespace vh::bench
{

namespace
{

using namespace vh::testing;
using Steady = std::chrono::steady_clock;

constexpr int kSoonMs = 20'000;
constexpr double kSeconds = 60;
constexpr double kStallMs = 1'000; ///< no frame for so long: it was a stall, and not a held segment

struct Moment {
    double ms = 0;
    double behindMs = 0;
    std::size_t frames = 0; ///< that have come
};

bool soon(const std::function<bool()>& holds, const char* what)
{
    const bool did = QTest::qWaitFor(holds, kSoonMs);
    if (!did)
        std::printf("# on a bad line: %s\n", what);
    return did;
}

double quantile(std::vector<double> values, double share)
{
    std::sort(values.begin(), values.end());
    return values[static_cast<std::size_t>(share * static_cast<double>(values.size() - 1))];
}

/// Once in a hundredth of a second.
std::vector<Moment> watch(const Leading& leader, InHome& home)
{
    std::vector<Moment> moments;
    const auto begun = Steady::now();
    QTimer look;
    look.setTimerType(Qt::PreciseTimer);
    QEventLoop loop;
    QObject::connect(&look, &QTimer::timeout, [&] {
        const double ms = std::chrono::duration<double, std::milli>(Steady::now() - begun).count();
        const auto heard = home.control.sound().audibleUpTo(home.control.voices().leadersStream());
        const auto said = static_cast<double>(leader.tap->heard());
        if (heard && *heard > 0)
            moments.push_back({ms, (said - static_cast<double>(*heard)) / 48, home.log.size()});
        if (ms >= kSeconds * 1000)
            loop.quit();
    });
    look.start(10);
    loop.exec();
    return moments;
}

/// When sound began to come again after the longest time without any; nothing if that was no stall.
std::optional<double> endOfStall(const std::vector<Moment>& moments)
{
    double last = moments.front().ms;
    double longest = kStallMs;
    std::optional<double> end;
    for (std::size_t i = 1; i < moments.size(); ++i) {
        if (moments[i].frames == moments[i - 1].frames)
            continue;
        if (moments[i].ms - last > longest) {
            longest = moments[i].ms - last;
            end = moments[i].ms;
        }
        last = moments[i].ms;
    }
    return end;
}

void report(const std::vector<Moment>& moments, const SoundStats& before, const SoundStats& after, Figures& figures)
{
    std::vector<double> behind;
    for (const Moment& moment : moments)
        behind.push_back(moment.behindMs);
    figures.reported("real_hard_line_interruptions", static_cast<double>(after.interruptions - before.interruptions),
                     "1/min");
    figures.reported("real_hard_line_waited", after.waitedSeconds - before.waitedSeconds, "s/min");
    figures.reported("real_hard_line_lost", after.lostSeconds - before.lostSeconds, "s/min");
    figures.reported("real_hard_line_delay_median", quantile(behind, 0.5), "ms");
    figures.reported("real_hard_line_delay_p90", quantile(behind, 0.9), "ms");
    const auto end = endOfStall(moments);
    figures.atLeast("real_hard_line_stalls", end ? 1 : 0, "stalls", 1);
    if (!end)
        return;
    double back = 1e9;
    double most = 0;
    for (const Moment& moment : moments) {
        if (moment.ms >= *end && moment.behindMs <= 400)
            back = std::min(back, moment.ms - *end);
        if (moment.ms >= *end + 1'000)
            most = std::max(most, moment.behindMs);
    }
    figures.reported("real_hard_line_back_after_stall", back, "ms");
    figures.atMost("real_hard_line_behind_1s_after_stall", most, "ms", 400);
}

} // namespace

bool aMinuteOnABadLine(const QString& voice, Figures& figures)
{
    QTemporaryDir folder;
    VoiceHall hall;
    if (!hall.start()) {
        std::printf("# on a bad line: no relay\n");
        return false;
    }
    Leading leader(voice);
    leader.line.open(hall.entry(Role::leader, "Anna"));
    if (!soon([&] { return leader.view().stage == lead::Stage::choosing; }, "the leader did not come in"))
        return false;
    leader.control.chooseFile(VH_SOURCE_DIR "/tests/whole/voices.yaml");
    leader.control.openChosen();
    if (!soon([&] { return leader.view().stage == lead::Stage::ready; }, "no class was opened"))
        return false;
    stage::SlowLine line(hall.relay().port(), stage::hardLine());
    wire::JoinLink link = hall.link(Role::participant);
    link.port = line.port();
    InHome home(folder.filePath("home"), toneFile(folder, Tone::guest));
    if (!home.comeIn(link, "Ruth"))
        return soon([] { return false; }, "nobody came in");
    leader.control.command(CommandKind::start);
    if (!soon([&] { return home.control.voices().leadersStream() && home.log.size() > 50; }, "no sound came"))
        return false;
    const SoundStats before = home.control.sound().leaderStats();
    const std::vector<Moment> moments = watch(leader, home);
    if (moments.empty())
        return soon([] { return false; }, "nothing was heard");
    report(moments, before, home.control.sound().leaderStats(), figures);
    return true;
}

} // namespace vh::bench
