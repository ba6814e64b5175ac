// Saves pictures of the writing room in its states, to be looked at:
//   QT_QPA_PLATFORM=offscreen .build/dev/bin/show_write FOLDER
#include "app/look/look.h"
#include "tests/app/write/write_scenes.h"

#include <QApplication>
#include <QDir>

#include <cstdio>

using namespace vh;
using namespace vh::testing;

int main(int argc, char** argv)
{
    QApplication app(argc, argv);
    if (argc < 2 || argc > 3 || argv[1][0] == '-' || !QDir().mkpath(argv[1])) {
        std::fprintf(stderr, "usage: show_write FOLDER [SCENE]\n");
        return 2;
    }
    for (const auto ground : {look::Ground::light, look::Ground::dark})
        for (const auto size : {look::TextSize::usual, look::TextSize::larger, look::TextSize::largest}) {
            if (!look::Look(ground, size).applyTo(app))
                return 1;
            const char* const sizes[] = {"", "-larger", "-largest"};
            const QString name = QStringLiteral("%1%2").arg(ground == look::Ground::light ? "light" : "dark",
                                                            sizes[static_cast<int>(size)]);
            for (const WriteScene& scene : writeScenes()) {
                if (argc == 3 && scene.name != argv[2])
                    continue;
                const auto shown = scene.make();
                shown->resize(1366, 700);
                shown->show();
                shown->activateWindow();
                for (int i = 0; i < 3; ++i)
                    QApplication::processEvents();
                if (!shown->grab().save(QStringLiteral("%1/write-%2-%3.png").arg(argv[1], scene.name, name)))
                    return 1;
                if (shown->size() != QSize(1366, 700))
                    std::fprintf(stderr, "%s, %s: has grown to %d x %d\n", qPrintable(scene.name), qPrintable(name),
                                 shown->width(), shown->height());
            }
        }
    return 0;
}
