// voicehall: join, lead, help or write. One window; docs/architecture.md says what is where.
#include "app/look/kept_look.h"
#include "app/program.h"

#include <CLI/CLI.hpp>
#include <QApplication>
#include <QDir>
#include <QStandardPaths>

#include <iostream>

namespace
{

QString classesFolder()
{
    // Beside the program when it is installed; in the tree when it is not.
    for (const QString& folder : {QCoreApplication::applicationDirPath() + "/../share/voicehall/classes",
                                  QStringLiteral(VH_CONTENT_DIR "/classes")})
        if (QDir(folder).exists())
            return QDir(folder).canonicalPath();
    return {};
}

} // namespace

int main(int argc, char** argv)
{
    using namespace vh;
    CLI::App options{"Voicehall: join a voice class, lead one, write one, or help at the desk."};
    std::string profile;
    std::string link;
    std::string name;
    std::string soundFile;
    std::string ownClasses;
    std::string lookName;
    std::string size;
    options.set_version_flag("--version", VH_VERSION);
    options.add_option("--profile", profile, "Folder of who has joined on this computer");
    options.add_option("--link", link, "Link to come in by: the group's, or a one-time link");
    options.add_option("--name", name, "Your name, for --link");
    options.add_option("--sound", soundFile, "Hear this sound file instead of the microphone")
        ->check(CLI::ExistingFile);
    options.add_option("--classes", ownClasses, "Folder of your own classes");
    options.add_option("--look", lookName, "light or dark; else as it was chosen before")
        ->check(CLI::IsMember({"light", "dark"}));
    options.add_option("--text", size, "Size of words; else as it was chosen before")
        ->check(CLI::IsMember({"usual", "larger", "largest"}));
    CLI11_PARSE(options, argc, argv);

    // Qt sees none of them: on X11 it would take --name for itself.
    int onlyItsName = 1;
    QApplication qt(onlyItsName, argv);
    QCoreApplication::setApplicationName("voicehall");
    QCoreApplication::setApplicationVersion(VH_VERSION);

    const QString folder = profile.empty() ? QStandardPaths::writableLocation(QStandardPaths::AppDataLocation)
                                           : QString::fromStdString(profile);
    const look::Look kept = look::keptLook(folder).value_or(look::Look{});
    const look::Look look(lookName.empty()     ? kept.ground()
                          : lookName == "dark" ? look::Ground::dark
                                               : look::Ground::light,
                          size.empty()       ? kept.textSize()
                          : size == "usual"  ? look::TextSize::usual
                          : size == "larger" ? look::TextSize::larger
                                             : look::TextSize::largest);
    if (!look.applyTo(qt)) {
        std::cerr << "voicehall: its typeface is damaged; please install the program again\n";
        return 1;
    }
    SystemClock clock;
    ProgramSetup setup;
    setup.clock = &clock;
    setup.folder = folder;
    setup.classes = classesFolder();
    setup.ownClasses =
        ownClasses.empty()
            ? QDir(QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation)).filePath("Voicehall classes")
            : QDir(QString::fromStdString(ownClasses)).absolutePath();
    setup.cache = profile.empty() ? QStandardPaths::writableLocation(QStandardPaths::CacheLocation) : folder + "/cache";
    if (!soundFile.empty())
        setup.sound = sound::DeviceChoice::fileOf(QString::fromStdString(soundFile));

    Program program(setup);
    program.resize(1366, 700);
    if (!link.empty()) {
        const auto parsed = wire::parseJoinLink(link);
        if (parsed && parsed->token && !name.empty())
            program.redeem(QString::fromStdString(link), QString::fromStdString(name));
        else
            program.join(QString::fromStdString(link), QString::fromStdString(name));
    }
    program.show();
    return QApplication::exec();
}
