// The hall repainted whole, offscreen and by raster, when every seat has changed: 60 named seats, 3,000 in blocks. A
// repaint is taking in the new state and painting the widget into an image. The p95 of many, after a few to warm up.
#include "app/look/look.h"
#include "app/widgets/hall_view.h"
#include "tests/bench/bench_figure.h"

#include <QApplication>

#include <algorithm>
#include <array>
#include <chrono>
#include <random>

namespace
{

using namespace vh;

constexpr int kWarm = 20;
constexpr int kRepaints = 400;

HallView::State stateOf(int people, std::mt19937& chance)
{
    static constexpr std::array standings{Standing::inBand,   Standing::inBand,   Standing::below, Standing::above,
                                          Standing::noVoice,  Standing::cantTell, Standing::away,  Standing::resting,
                                          Standing::private_, Standing::straining};
    std::uniform_int_distribution<std::size_t> which(0, standings.size() - 1);
    std::uniform_real_distribution<float> level(-6, 16);
    std::uniform_int_distribution<int> offset(-3, 3);
    HallView::State hall;
    hall.places = people;
    for (int i = 0; i < people; ++i) {
        SeatRow row;
        row.seat = row.place = i;
        row.name = QStringLiteral("Person %1").arg(i);
        row.standing = standings[which(chance)];
        row.overUsualDb = level(chance);
        row.band = bandFor(SectionKind::phrases, static_cast<float>(offset(chance))).value_or(Band{});
        hall.seats.push_back(row);
    }
    return hall;
}

double p95Of(int people, QSize size)
{
    std::mt19937 chance(7);
    HallView view;
    view.resize(size);
    QImage page(size, QImage::Format_RGB32);
    std::vector<double> took;
    for (int i = 0; i < kWarm + kRepaints; ++i) {
        const HallView::State state = stateOf(people, chance);
        const auto from = std::chrono::steady_clock::now();
        view.setState(state);
        view.render(&page, QPoint(), QRegion(), QWidget::DrawWindowBackground);
        const std::chrono::duration<double, std::milli> spent = std::chrono::steady_clock::now() - from;
        if (i >= kWarm)
            took.push_back(spent.count());
    }
    std::sort(took.begin(), took.end());
    const bench::Spread spread = bench::spreadOf(took);
    bench::Figures::spread(people == 60 ? "hall_view_60" : "hall_view_3000", spread, took.size());
    return took[took.size() * 95 / 100];
}

} // namespace

int main(int argc, char** argv)
{
    qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication app(argc, argv);
    if (!look::Look().applyTo(app))
        return 1;
    bench::Figures figures;
    figures.atMost("hall_view_60_p95", p95Of(60, {597, 350}), "ms", 4);
    figures.atMost("hall_view_3000_p95", p95Of(3000, {597, 350}), "ms", 4);
    return figures.exitCode();
}
