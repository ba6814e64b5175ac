// For somebody who has been here before: how long from the start of the process to the first screen, painted; and how
// many presses from there to the class screen, the real program against the real relay. Without a display the picture
// is painted into memory, by the same code.
#include "app/look/look.h"
#include "app/program.h"
#include "demo/stage/press.h"
#include "demo/stage/voice_file.h"
#include "tests/app/link/relay_here.h"
#include "tests/bench/bench_figure.h"

#include <QApplication>
#include <QPaintEvent>
#include <QProcess>
#include <QTemporaryDir>

#include <chrono>
#include <cstdlib>

namespace
{

using namespace vh;
using namespace vh::bench;

constexpr int kStarts = 9;
const Instant kMorning{Millis{1'700'000'000'000}};

[[noreturn]] void giveUp(const char* why)
{
    std::printf("# %s\n", why);
    std::exit(2);
}

void need(bool held, const char* what)
{
    if (!held)
        giveUp(what);
}

/// The program as main() makes it.
ProgramSetup setupIn(const QString& folder, const Clock& clock)
{
    ProgramSetup setup;
    setup.clock = &clock;
    setup.folder = folder;
    setup.plain = true;
    return setup;
}

/// Ends the process when the window has been painted.
class FirstPaint : public QObject
{
public:
    bool eventFilter(QObject* watched, QEvent* event) override
    {
        if (event->type() != QEvent::Paint || !qobject_cast<FirstRoom*>(watched))
            return false;
        QMetaObject::invokeMethod(
            this,
            [] {
                std::puts("painted");
                std::fflush(stdout);
                QCoreApplication::exit(0);
            },
            Qt::QueuedConnection); // after this event, and its children's, have been handled
        return false;
    }
};

int startAndPaint(int argc, char** argv, const QString& folder)
{
    QApplication app(argc, argv);
    if (!look::Look{}.applyTo(app))
        return 1;
    SystemClock clock;
    Program program(setupIn(folder, clock));
    FirstPaint painted;
    program.findChild<FirstRoom*>()->installEventFilter(&painted);
    program.resize(1366, 700);
    program.show();
    return QApplication::exec();
}

double secondsToFirstPaint(const QString& folder)
{
    const auto before = std::chrono::steady_clock::now();
    QProcess child;
    child.start(QCoreApplication::applicationFilePath(), {"--first-room", folder});
    need(child.waitForReadyRead(30'000), "the first screen was not painted");
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - before;
    need(child.readAllStandardOutput().startsWith("painted"), "the program said something else");
    child.waitForFinished();
    return took.count();
}

/// A person's hand: counts.
class Hand
{
public:
    explicit Hand(QWidget& room) : m_room(room) {}
    void press(const QString& words)
    {
        need(stage::waitUntil([&] { return stage::canPress(m_room, words); }), qPrintable("no control: " + words));
        need(stage::press(m_room, words), "a control that went away");
        ++m_presses;
    }
    [[nodiscard]] int presses() const { return m_presses; }

private:
    QWidget& m_room;
    int m_presses = 0;
};

join::Screen screenOf(Program& program)
{
    return program.joinControl() ? program.joinControl()->model().screen() : join::Screen::connecting;
}

/// The first time: a link, the questions, the mic check.
void enrol(Program& program, HandClock& clock, const QString& link)
{
    Hand hand(program);
    hand.press("Join a class");
    stage::fillIn(program, {link, {}, "Ruth"});
    hand.press("Come in");
    const char* const answers[] = {
        "Yes, the leader", "Yes, keep them", "Yes", "Yes, under my name", "Yes", "Yes, kind words", "No"};
    for (const char* answer : answers)
        hand.press(answer);
    hand.press("Go on");
    hand.press("Fine");
    need(stage::waitUntil([&] {
             clock.advance(Millis{500});
             return program.joinControl()->model().check().full().stage() > FullCheck::Stage::usual;
         }),
         "the mic check did not hear the voice");
    for (int i = 0; i < 3; ++i) {
        hand.press("Leave this out");
        stage::letRun(std::chrono::milliseconds(450)); // a press sooner than that belongs to the one before
    }
    hand.press("Only I");
    hand.press("Go on");
    need(stage::waitUntil([&] { return program.joinControl()->line().unanswered() == 0; }), "not all was acknowledged");
}

int pressesWhenKnown(const QTemporaryDir& folder)
{
    testing::RelayHere relay(ops::Tls::off);
    const auto group = relay.addGroup("Lakeside voices");
    wire::JoinLink link;
    link.host = "127.0.0.1";
    link.port = relay.entry(link::Entry::How::redeem).port;
    link.token = relay.link(group.id, store::Role::participant);
    stage::VoiceFile voice;
    voice.seconds = 120;
    const QString file = folder.filePath("voice.wav");
    need(stage::writeVoiceFile(file.toStdString(), voice), "no voice could be written");
    HandClock clock(kMorning);
    ProgramSetup setup = setupIn(folder.filePath("profile"), clock);
    setup.sound = sound::DeviceChoice::fileOf(file, sound::Pace::byHand);
    {
        Program first(setup);
        first.show();
        enrol(first, clock, QString::fromStdString(wire::format(link)));
    }
    Program again(setup); // the next day
    again.show();
    Hand hand(again);
    hand.press("Ruth");
    hand.press("Fine");
    need(stage::waitUntil([&] { return screenOf(again) == join::Screen::inClass; }), "not in class");
    return hand.presses();
}

} // namespace

int main(int argc, char** argv)
{
    qputenv("QT_QPA_PLATFORM", "offscreen");
    qunsetenv("DBUS_SESSION_BUS_ADDRESS");
    if (argc == 3 && std::string(argv[1]) == "--first-room")
        return startAndPaint(argc, argv, QString::fromLocal8Bit(argv[2]));
    QApplication app(argc, argv);
    need(look::Look{}.applyTo(app), "the typeface is damaged");
    QTemporaryDir folder;
    const int presses = pressesWhenKnown(folder);
    std::vector<double> seconds;
    for (int i = 0; i < kStarts; ++i)
        seconds.push_back(secondsToFirstPaint(folder.filePath("profile")));
    const Spread spread = spreadOf(seconds);
    Figures::spread("start to first paint, s", spread, seconds.size());
    Figures figures;
    figures.atMost("presses_when_known", presses, "presses", 2);
    figures.atMost("start_to_first_paint", spread.most, "s", 2);
    return figures.exitCode();
}
