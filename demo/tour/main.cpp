// voicehall-tour: one class, without a display if wanted, with pictures of every screen.
#include "app/look/look.h"
#include "demo/tour/tour.h"

#include <CLI/CLI.hpp>
#include <QApplication>

#include <iostream>

int main(int argc, char** argv)
{
    using namespace vh;
    CLI::App options{"One class of the invented group Lakeside voices, from beginning to end."};
    std::string pictures;
    bool fast = false;
    std::string script = VH_CONTENT_DIR "/classes/lakeside-plots.yaml";
    std::string lookName = "light";
    tour::TourOptions tour;
    options.add_option("--pictures", pictures, "Folder for a picture of every screen");
    options.add_flag("--fast", fast,
                     "The clock runs ten times as fast, and homes speak only while the leader is silent");
    options.add_option("--homes", tour.homes, "Simulated homes")->capture_default_str();
    options.add_option("--script", script, "Class script to lead")->capture_default_str();
    options.add_option("--look", lookName, "light or dark")->check(CLI::IsMember({"light", "dark"}));
    CLI11_PARSE(options, argc, argv);
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM"))
        qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication qt(argc, argv);
    if (!look::Look(lookName == "dark" ? look::Ground::dark : look::Ground::light).applyTo(qt)) {
        std::cerr << "voicehall-tour: the typeface is damaged\n";
        return 1;
    }
    tour.pictures = QString::fromStdString(pictures);
    tour.speed = fast ? 10 : 1;
    tour.onlyAlone = fast;
    tour.script = QString::fromStdString(script);
    return tour::Tour(tour).run();
}
