// Not a test: saves a picture of every screen of the participant, and the first screen, into a folder, to be looked at.
// The states are reached as a person reaches them, through the model.
#include "app/first_room.h"
#include "app/join/join_room.h"
#include "app/look/look.h"
#include "tests/app/join/scenes.h"

#include <QApplication>
#include <QDir>

#include <cstdio>

using namespace vh;
using namespace vh::join;
using namespace vh::testing;

namespace
{

bool save(QWidget& window, const QString& file)
{
    window.resize(1366, 700);
    window.show();
    window.activateWindow();
    for (int i = 0; i < 3; ++i)
        QApplication::processEvents();
    return window.grab().save(file);
}

bool showFirst(const QString& pattern)
{
    FirstRoom first;
    if (!save(first, pattern.arg("first-new")))
        return false;
    link::Membership one;
    one.groupName = "Lakeside voices";
    one.name = "Ruth";
    link::Membership two = one;
    two.name = "Bram";
    link::Membership three = one;
    three.role = Role::moderator;
    three.groupName = "The singing and speaking group of the Northern Harbour community house";
    first.setState(firstViewOf({one, two, three, one, two, three}));
    return save(first, pattern.arg("first-known"));
}

} // namespace

int main(int argc, char** argv)
{
    QApplication app(argc, argv);
    if (argc != 2 || argv[1][0] == '-' || !QDir().mkpath(argv[1])) {
        std::fprintf(stderr, "usage: show_join FOLDER\n");
        return 2;
    }
    const std::vector<std::tuple<QString, look::Ground, look::TextSize>> looks{
        {"light", look::Ground::light, look::TextSize::usual},
        {"dark", look::Ground::dark, look::TextSize::usual},
        {"larger", look::Ground::light, look::TextSize::larger},
        {"largest", look::Ground::light, look::TextSize::largest}};
    for (const auto& [name, ground, size] : looks) {
        if (!look::Look(ground, size).applyTo(app))
            return 1;
        const QString pattern = QStringLiteral("%1/%2-%3.png").arg(argv[1], "%1", name);
        if (!showFirst(pattern))
            return 1;
        for (const Scene& scene : joinScenes()) {
            SceneClass here;
            JoinModel model;
            scene.arrange(model, here);
            JoinRoom room;
            room.setState(model.view(&here.follow));
            room.setHeard(model.voices().isHeard());
            if (!save(room, pattern.arg(scene.name)))
                return 1;
        }
    }
    return 0;
}
