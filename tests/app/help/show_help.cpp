// Saves a picture of the helper's desk in its states, with invented people, to be looked at:
//   QT_QPA_PLATFORM=offscreen .build/dev/bin/show_help FOLDER [SCENE]
#include "app/look/look.h"
#include "tests/app/help/desk_scenes.h"

#include <QApplication>
#include <QDir>

#include <cstdio>

namespace
{

using namespace vh;

void settle()
{
    for (int i = 0; i < 4; ++i)
        QApplication::processEvents();
}

bool save(const testing::DeskScene& scene, const QString& file)
{
    help::DeskModel model;
    scene.arrange(model);
    help::DeskRoom room;
    room.resize(1366, 700);
    room.setState(model.view(testing::kDeskNow));
    room.show();
    room.activateWindow();
    settle();
    if (scene.act)
        scene.act(room);
    settle();
    return room.grab().save(file);
}

} // namespace

int main(int argc, char** argv)
{
    QApplication app(argc, argv);
    if (argc < 2 || argv[1][0] == '-' || !QDir().mkpath(argv[1])) {
        std::fprintf(stderr, "usage: show_help FOLDER [SCENE]\n");
        return 2;
    }
    const QString only = argc > 2 ? QString::fromLocal8Bit(argv[2]) : QString();
    using enum look::Ground;
    using enum look::TextSize;
    for (const auto& [name, look] : {std::pair{"light", look::Look(light)}, std::pair{"dark", look::Look(dark)},
                                     std::pair{"largest", look::Look(light, largest)}}) {
        if (!look.applyTo(app))
            return 1;
        for (const testing::DeskScene& scene : testing::deskScenes())
            if (only.isEmpty() || only == scene.name)
                if (!save(scene, QStringLiteral("%1/help-%2-%3.png").arg(argv[1], scene.name, name)))
                    return 1;
    }
    return 0;
}
