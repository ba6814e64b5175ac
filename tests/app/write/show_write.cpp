// Saves a picture of the writing room in its states to be looked at:
//   QT_QPA_PLATFORM=offscreen .build/dev/bin/show_write FOLDER
#include "app/look/look.h"
#include "tests/app/write/library_scenes.h"

#include <QApplication>
#include <QDir>

#include <cstdio>

namespace
{

using namespace vh;
using namespace vh::write::testing;

bool save(QWidget& widget, const QString& path)
{
    widget.show();
    widget.activateWindow();
    for (int i = 0; i < 3; ++i)
        QApplication::processEvents();
    if (widget.size() != QSize(1366, 700))
        std::fprintf(stderr, "%s: the room has grown to %d x %d\n", qPrintable(path), widget.width(), widget.height());
    return widget.grab().save(path);
}

bool library(const QString& folder, const QString& look)
{
    for (const WriteScene& scene : libraryScenes()) {
        WriteHere here;
        if (!here.isReady())
            return false;
        scene.arrange(here);
        if (!save(here.room(), QStringLiteral("%1/write-%2-%3.png").arg(folder, scene.name, look)))
            return false;
    }
    return true;
}

} // namespace

int main(int argc, char** argv)
{
    QApplication app(argc, argv);
    if (argc != 2 || argv[1][0] == '-' || !QDir().mkpath(argv[1])) {
        std::fprintf(stderr, "usage: show_write FOLDER\n");
        return 2;
    }
    for (const auto ground : {look::Ground::light, look::Ground::dark})
        for (const auto size : {look::TextSize::usual, look::TextSize::larger, look::TextSize::largest}) {
            if (!look::Look(ground, size).applyTo(app))
                return 1;
            const QString name = ground == look::Ground::light ? "light" : "dark";
            const QString sized = size == look::TextSize::usual    ? name
                                  : size == look::TextSize::larger ? name + "-larger"
                                                                   : name + "-largest";
            if (!library(argv[1], sized))
                return 1;
        }
    return 0;
}
