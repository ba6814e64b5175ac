// Not a test: saves a picture of every screen with pictures into a folder, to be looked at:
//   QT_QPA_PLATFORM=offscreen .build/dev/bin/show_pictures FOLDER
#include "app/look/look.h"
#include "tests/app/pictures/picture_scenes.h"

#include <QApplication>
#include <QDir>

#include <cstdio>

using namespace vh;
using namespace vh::testing;

int main(int argc, char** argv)
{
    QApplication app(argc, argv);
    if (argc != 2 || argv[1][0] == '-' || !QDir().mkpath(argv[1])) {
        std::fprintf(stderr, "usage: show_pictures FOLDER\n");
        return 2;
    }
    const std::vector<std::tuple<QString, look::Ground, look::TextSize>> looks{
        {"light", look::Ground::light, look::TextSize::usual},
        {"dark", look::Ground::dark, look::TextSize::usual},
        {"largest", look::Ground::light, look::TextSize::largest}};
    for (const auto& [name, ground, size] : looks) {
        if (!look::Look(ground, size).applyTo(app))
            return 1;
        for (const PictureScene& scene : pictureScenes()) {
            const auto page = scene.make();
            page->resize(1366, 700);
            page->show();
            page->activateWindow();
            for (int i = 0; i < 3; ++i)
                QApplication::processEvents();
            if (!page->grab().save(QStringLiteral("%1/%2-%3.png").arg(argv[1], scene.name, name)))
                return 1;
        }
    }
    return 0;
}
