// Saves pictures of the page that lays out a class, and of a rehearsal, to be looked at:
//   QT_QPA_PLATFORM=offscreen .build/dev/bin/show_start FOLDER
#include "app/look/look.h"
#include "tests/app/write/start_scenes.h"

#include <QApplication>
#include <QDir>
#include <QRadioButton>
#include <QStackedWidget>

#include <cstdio>

namespace
{

using namespace vh;
using namespace vh::write;
using namespace vh::testing;

struct Show {
    QString folder;
    QString ground;
    bool save(QWidget& widget, const QString& name) const
    {
        widget.resize(1366, 700);
        widget.show();
        widget.activateWindow();
        for (int i = 0; i < 3; ++i)
            QApplication::processEvents();
        if (widget.size() != QSize(1366, 700))
            std::fprintf(stderr, "%s %s: grown to %d x %d\n", qPrintable(name), qPrintable(ground), widget.width(),
                         widget.height());
        return widget.grab().save(QStringLiteral("%1/write-%2-%3.png").arg(folder, name, ground));
    }
};

bool starting(const Show& show)
{
    StartPage page;
    if (!show.save(page, "start-empty"))
        return false;
    page.setState(ownShapes());
    fieldNamed(page, "What is it about?")->setText("Kites");
    fieldNamed(page, "About a dozen words that belong to it")
        ->setText("kite, string, hill, wind, tail, colour, picnic, kitchen, cloud, coat");
    if (!show.save(page, "start-filled"))
        return false;
    const auto cards = page.findChildren<QRadioButton*>();
    cards.last()->setChecked(true);
    fieldNamed(page, "Minutes")->setText("90");
    QMetaObject::invokeMethod(fieldNamed(page, "Minutes"), "returnPressed");
    return show.save(page, "start-missing");
}

bool rehearsing(const Show& show)
{
    HandClock clock;
    OwnPaceBook book(show.folder + "/book");
    Rehearsal rehearsal({&clock, nullptr, sound::DeviceChoice::nothing(), &book});
    rehearsal.start(shipped("down-the-river"), VH_SOURCE_DIR "/content/classes");
    if (!show.save(*rehearsal.widget(), "rehearse-before"))
        return false;
    rehearsal.begin();
    for (int second = 0; second < 8 * 60; ++second) {
        clock.advance(Millis{1'000});
        rehearsal.beat();
    }
    if (!show.save(*rehearsal.widget(), "rehearse-class"))
        return false;
    rehearsal.command(CommandKind::wait);
    clock.advance(Millis{14'000});
    rehearsal.command(CommandKind::resume);
    rehearsal.command(CommandKind::skip);
    while (rehearsal.running()) {
        clock.advance(Millis{1'000});
        rehearsal.beat();
    }
    return show.save(*rehearsal.widget(), "rehearse-after");
}

} // namespace

int main(int argc, char** argv)
{
    QApplication app(argc, argv);
    if (argc != 2 || argv[1][0] == '-' || !QDir().mkpath(argv[1])) {
        std::fprintf(stderr, "usage: show_start FOLDER\n");
        return 2;
    }
    for (const auto ground : {look::Ground::light, look::Ground::dark})
        for (const auto size : {look::TextSize::usual, look::TextSize::larger, look::TextSize::largest}) {
            if (!look::Look(ground, size).applyTo(app))
                return 1;
            const QString name = ground == look::Ground::light ? "light" : "dark";
            const Show show{argv[1], size == look::TextSize::usual    ? name
                                     : size == look::TextSize::larger ? name + "-larger"
                                                                      : name + "-largest"};
            if (!starting(show) || !rehearsing(show))
                return 1;
        }
    return 0;
}
