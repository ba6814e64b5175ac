// The helper's desk in a class of 3,000 with 20 lines a second for five minutes (desk_load.h): what each frame costs.
// Simulated time at 60 frames a second, driven as fast as they can be made: a frame takes in what has come (from its
// JSON), makes the view, gives it to the room and lets it paint; frames without anything new are passed by. Twice:
// all 6,000 lines still to be read at the end, and every line seen to by others. Then all must be there, in order.
#include "app/help/desk_model.h"
#include "app/help/desk_room.h"
#include "app/look/look.h"
#include "common/wire/codec.h"
#include "tests/bench/bench_figure.h"
#include "tests/bench/desk_load.h"

#include <QAbstractItemView>
#include <QApplication>
#include <QKeyEvent>

#include <ctime>
#include <fstream>
#include <numeric>
#include <unistd.h>

namespace
{

using namespace vh;
using bench::DeskLoad;

constexpr std::chrono::minutes kLong{5};
constexpr double kFrameMs = 1000.0 / 60;
constexpr Millis kBeat{500};     ///< how long ago is said anew
constexpr Millis kKeyEach{2000}; ///< the helper steps through the list
constexpr double kMostMs = 16;
/// More of these than the hundredth that p99 allows: what comes after cannot mend it.
constexpr std::size_t kHopeless = 400;

double residentMb()
{
    std::ifstream file("/proc/self/statm");
    double total = 0;
    double resident = 0;
    file >> total >> resident;
    return resident * static_cast<double>(::sysconf(_SC_PAGESIZE)) / 1e6;
}

double cpuMs()
{
    timespec time{};
    ::clock_gettime(CLOCK_THREAD_CPUTIME_ID, &time);
    return static_cast<double>(time.tv_sec) * 1e3 + static_cast<double>(time.tv_nsec) / 1e6;
}

QAbstractItemView* listOf(const help::DeskRoom& room, const QString& name)
{
    for (auto* each : room.findChildren<QAbstractItemView*>())
        if (each->accessibleName() == name)
            return each;
    return nullptr;
}

/// How many of these lines a list does not show in their order. It may show others between them: what has been dealt
/// with goes only once it is out of sight.
double lostOf(const QAbstractItemView* list, const std::vector<std::uint64_t>& lines)
{
    std::size_t found = 0;
    for (int row = 0; list && row < list->model()->rowCount() && found < lines.size(); ++row) {
        const QString mark = QString::fromStdString(DeskLoad::mark(lines[found]));
        const QModelIndex index = list->model()->index(row, 0);
        if (index.data(Qt::DisplayRole).toString().contains(mark) ||
            index.data(Qt::AccessibleTextRole).toString().contains(mark))
            ++found;
    }
    return static_cast<double>(lines.size() - found);
}

class Desk
{
public:
    explicit Desk(DeskLoad::Shape shape) : m_load(shape, m_clock.now())
    {
        m_model.setLine(help::DeskModel::LineNow::up);
        for (const wire::ToClient& message : m_load.onComingIn())
            m_model.take(message, m_clock.now());
        m_room.resize(1366, 768);
        m_room.setState(m_model.view(m_clock.now()));
        m_room.show();
        paint();
    }

    /// False: far too slow, the rest was left out.
    bool run()
    {
        const Instant end = m_clock.now() + kLong;
        Instant nextBeat = m_clock.now();
        Instant nextKey = m_clock.now();
        double due = 0;
        while (m_clock.now() < end) {
            due += kFrameMs;
            const Millis whole{static_cast<std::int64_t>(due)};
            due -= static_cast<double>(whole.count());
            m_clock.advance(whole);
            std::vector<std::string> come;
            for (const wire::ToClient& message : m_load.until(m_clock.now()))
                come.push_back(std::visit([](const auto& each) { return wire::encode(each); }, message));
            const bool beat = m_clock.now() >= nextBeat;
            const bool key = m_clock.now() >= nextKey;
            if (come.empty() && !beat && !key)
                continue;
            if (beat)
                nextBeat += kBeat;
            if (key)
                nextKey += kKeyEach;
            frame(come, key);
            if (m_slow > kHopeless) {
                std::printf("# far too slow: left off after %.0f s\n",
                            std::chrono::duration<double>(m_clock.now() - (end - kLong)).count());
                return false;
            }
        }
        return true;
    }

    [[nodiscard]] double lost() const
    {
        std::vector<std::uint64_t> board = m_load.board();
        if (board.size() > wire::kBoardTail)
            board.erase(board.begin(), board.end() - wire::kBoardTail);
        return lostOf(listOf(m_room, QStringLiteral("To read")), m_load.toRead()) +
               lostOf(listOf(m_room, QStringLiteral("On the board")), board);
    }
    [[nodiscard]] std::uint64_t lines() const { return m_load.lines(); }
    std::vector<double> wallMs;
    std::vector<double> usedMs;
    std::vector<std::string> what; ///< in each of them

private:
    static void paint()
    {
        QCoreApplication::sendPostedEvents();
        QCoreApplication::processEvents(); // layout, then the paint that it asks for
    }

    void frame(const std::vector<std::string>& come, bool key)
    {
        const auto from = std::chrono::steady_clock::now();
        const double cpu = cpuMs();
        for (const std::string& text : come) { // as DeskControl does, for each of them
            m_model.take(wire::decodeToClient(text).value(), m_clock.now());
            m_room.setState(m_model.view(m_clock.now()));
        }
        if (come.empty())
            m_room.setState(m_model.view(m_clock.now()));
        if (key)
            step();
        paint();
        usedMs.push_back(cpuMs() - cpu);
        what.push_back(std::to_string(come.size()) + " messages" + (key ? ", a key" : "") + ", " +
                       std::to_string(m_load.lines()) + " lines so far");
        wallMs.push_back(std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - from).count());
        m_slow += wallMs.back() > kMostMs ? 1 : 0;
    }

    void step()
    {
        if (QAbstractItemView* list = listOf(m_room, QStringLiteral("To read"))) {
            QKeyEvent down(QEvent::KeyPress, Qt::Key_Down, Qt::NoModifier);
            QCoreApplication::sendEvent(list, &down);
        }
    }

    HandClock m_clock;
    DeskLoad m_load;
    help::DeskModel m_model;
    help::DeskRoom m_room;
    std::size_t m_slow = 0;
};

double p99(std::vector<double> values)
{
    std::sort(values.begin(), values.end());
    return values[values.size() * 99 / 100];
}

/// For whoever wants to better it.
void showDearest(const Desk& desk)
{
    std::vector<std::size_t> order(desk.usedMs.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(), [&](auto a, auto b) { return desk.usedMs[a] > desk.usedMs[b]; });
    for (std::size_t i = 0; i < std::min<std::size_t>(5, order.size()); ++i)
        std::printf("# frame %zu: %.1f ms of the processor's time, %s\n", order[i], desk.usedMs[order[i]],
                    desk.what[order[i]].c_str());
}

double worst(const std::vector<double>& values)
{
    return *std::max_element(values.begin(), values.end());
}

/// Returns by how much the process grew.
double measure(DeskLoad::Shape shape, const std::string& name, bench::Figures& figures)
{
    Desk desk(shape);
    const double before = residentMb();
    const bool whole = desk.run();
    const double grown = residentMb() - before;
    bench::Figures::spread(name.c_str(), bench::spreadOf(desk.wallMs), desk.wallMs.size());
    std::printf("# %s: %llu lines; of the processor's time p99 %.1f ms, worst %.1f ms; grew by %.0f MB\n", name.c_str(),
                static_cast<unsigned long long>(desk.lines()), p99(desk.usedMs), worst(desk.usedMs), grown);
    showDearest(desk);
    figures.atMost((name + "_p99").c_str(), p99(desk.wallMs), "ms", kMostMs);
    figures.atMost((name + "_worst").c_str(), worst(desk.wallMs), "ms", kMostMs);
    if (whole)
        figures.atMost((name + "_lost").c_str(), desk.lost(), "lines", 0);
    return grown;
}

} // namespace

int main(int argc, char** argv)
{
    qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication app(argc, argv);
    if (!look::Look().applyTo(app))
        return 1;
    bench::Figures figures;
    const double grown = measure(DeskLoad::Shape::allWait, "desk_frame", figures);
    measure(DeskLoad::Shape::seenTo, "desk_flow_frame", figures);
    figures.atMost("desk_memory_growth", grown, "MB", 200);
    figures.reported("desk_memory", residentMb(), "MB");
    return figures.exitCode();
}
