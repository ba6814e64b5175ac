// A library of a thousand classes: how long it takes until all of it stands on the page, and what each letter typed
// into the field costs until what it finds is painted. The classes are those that ship, fifty times each under other
// titles: most letters find hundreds of them, which is the dearest case. The room is the real one, painted off screen.
#include "app/look/look.h"
#include "app/write/write_control.h"
#include "tests/bench/bench_figure.h"

#include <QApplication>
#include <QDir>
#include <QElapsedTimer>
#include <QFile>
#include <QKeyEvent>
#include <QLineEdit>
#include <QTemporaryDir>

namespace
{

using namespace vh;
using namespace vh::write;

constexpr int kClasses = 1000;

/// The classes that ship, again and again, under titles and themes of their own.
bool fill(const QString& folder)
{
    const QDir content(VH_SOURCE_DIR "/content/classes");
    const QStringList names = content.entryList({QStringLiteral("*.yaml")}, QDir::Files);
    QDir().mkpath(folder);
    for (int i = 0; i < kClasses && !names.isEmpty(); ++i) {
        QFile from(content.filePath(names[i % names.size()]));
        QFile to(QStringLiteral("%1/class-%2.yaml").arg(folder).arg(i));
        if (!from.open(QIODevice::ReadOnly) || !to.open(QIODevice::WriteOnly))
            return false;
        QByteArray yaml = from.readAll();
        const QByteArray number = QByteArray::number(i / names.size());
        for (const char* const key : {"\ntitle: ", "\ntheme: "})
            yaml.insert(yaml.indexOf('\n', yaml.indexOf(key) + 1), " no. " + number);
        to.write(yaml);
    }
    return !names.isEmpty();
}

/// A library and the room that shows it.
struct Opened {
    explicit Opened(const QTemporaryDir& here)
        : library({{}, here.filePath("classes"), here.filePath("classes.index")}),
          control({&clock, here.filePath("profile"), &library, {}})
    {
        control.room().resize(1366, 700);
        control.room().show();
    }
    [[nodiscard]] std::size_t rows() { return control.room().library().findChild<RowList*>()->state().rows.size(); }

    SystemClock clock;
    ClassLibrary library;
    WriteControl control;
};

struct Opening {
    double shown = 0; ///< ms until all titles that are known, or file names, stand there
    double whole = 0; ///< ms until every class is known
};

Opening open(const QTemporaryDir& here)
{
    Opening took;
    QElapsedTimer timer;
    timer.start();
    Opened opened(here);
    while (!opened.library.isSettled()) {
        QApplication::processEvents(QEventLoop::WaitForMoreEvents);
        if (took.shown == 0 && opened.rows() == kClasses)
            took.shown = static_cast<double>(timer.nsecsElapsed()) / 1e6;
    }
    QApplication::processEvents(); // painted
    took.whole = static_cast<double>(timer.nsecsElapsed()) / 1e6;
    if (opened.rows() != kClasses)
        std::printf("# %zu classes stand on the page\n", opened.rows());
    return took;
}

/// Each letter, until what it finds is painted. In ms.
std::vector<double> typing(const QTemporaryDir& here)
{
    Opened opened(here);
    while (!opened.library.isSettled())
        QApplication::processEvents(QEventLoop::WaitForMoreEvents);
    auto* field = opened.control.room().library().findChild<QLineEdit*>();
    std::vector<double> times;
    const QStringList queries{"kites",       "bread",          "the lake",     "who taught you",
                              "water pause", "lanterns no. 7", "a warm loaf",  "slow train",
                              "xylophone",   "river",          "good morning", "wool and loom",
                              "schöne",      "soup po",        "maps 12",      "say it again"};
    for (const QString& query : queries) {
        emit opened.control.room().library().searchRequested({});
        QApplication::processEvents();
        for (const QChar letter : query) {
            QElapsedTimer timer;
            timer.start();
            QKeyEvent press(QEvent::KeyPress, 0, Qt::NoModifier, letter);
            QApplication::sendEvent(field, &press);
            QApplication::processEvents();
            times.push_back(static_cast<double>(timer.nsecsElapsed()) / 1e6);
        }
    }
    return times;
}

} // namespace

int main(int argc, char** argv)
{
    qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication app(argc, argv);
    QTemporaryDir here;
    if (!look::Look{}.applyTo(app) || !fill(here.filePath("classes")))
        return 1;
    bench::Figures figures;
    const Opening cold = open(here);
    figures.reported("library_of_1000_first_opening_shown", cold.shown, "ms");
    figures.reported("library_of_1000_first_opening_read", cold.whole, "ms");
    std::vector<double> warm;
    for (int i = 0; i < 7; ++i)
        warm.push_back(open(here).whole);
    const auto spread = bench::spreadOf(warm);
    bench::Figures::spread("library_of_1000_opened", spread, warm.size());
    figures.atMost("library_of_1000_opened", spread.median, "ms", 300);
    std::vector<double> letters = typing(here);
    std::sort(letters.begin(), letters.end());
    std::printf("# %zu letters typed; median %.2f ms, most %.2f ms\n", letters.size(), letters[letters.size() / 2],
                letters.back());
    figures.atMost("search_as_you_type_p95", letters[letters.size() * 95 / 100], "ms", 50);
    return figures.exitCode();
}
