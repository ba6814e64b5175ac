#pragma once
// The page that lays out a class, and a rehearsal, in the states that are looked at: by tests and in pictures.
#include "app/write/rehearse.h"
#include "app/write/start_page.h"
#include "common/script/reader.h"
#include "common/script/spoken_pace.h"

#include <QFile>
#include <QLineEdit>

namespace vh::testing
{

inline ClassScript shipped(const QString& name)
{
    QFile file(QStringLiteral(VH_SOURCE_DIR "/content/classes/%1.yaml").arg(name));
    if (!file.open(QIODevice::ReadOnly))
        return {};
    return readClassScript(file.readAll().toStdString(), name.toStdString(), plannedAsSpoken).value_or(ClassScript{});
}

/// Somebody who takes her time over sentences.
inline PaceSample slowSample()
{
    PaceSample sample;
    for (std::size_t kind = 0; kind < kSectionKinds; ++kind)
        sample.add(static_cast<SectionKind>(kind), PacePart::shown, Millis{60'000}, Millis{62'000});
    sample.add(SectionKind::phrases, PacePart::shown, Millis{60'000}, Millis{105'000});
    sample.add(SectionKind::passage, PacePart::shown, Millis{60'000}, Millis{90'000});
    return sample;
}

inline write::StartPage::State ownShapes()
{
    write::StartPage::State state;
    state.earlier = {shipped("down-the-river"), shipped("soup-pots"), shipped("kite-hill")};
    state.pace = OwnPace(std::vector<PaceSample>(5, slowSample()));
    state.minutes = 22;
    state.day = 20'045;
    return state;
}

inline QLineEdit* fieldNamed(const QWidget& page, const QString& name)
{
    for (auto* each : page.findChildren<QLineEdit*>())
        if (each->accessibleName() == name)
            return each;
    return nullptr;
}

/// Two steps of two rounds, a pause, a closing: 90 s.
inline ClassScript shortScript()
{
    const auto seconds = [](int count) { return Millis{1000 * count}; };
    ClassScript script{"Bread", "Baking", "en", 2, {}};
    const std::vector<Round> twice{
        {false, {{TurnKind::listen, seconds(4)}, {TurnKind::ready, seconds(2)}, {TurnKind::yours, seconds(6)}}},
        {true, {{TurnKind::ready, seconds(2)}, {TurnKind::yours, seconds(6)}}}};
    script.sections = {
        {SectionKind::phrases,
         "Warm loaves",
         {{"The loaf is warm.", {{4, 4 + 4}}, {}, "Smile.", twice, {}}, {"Who taught you?", {}, {}, "", twice, {}}}},
        {SectionKind::pause, "Water pause", {{"", {}, {}, "", {{false, {{TurnKind::listen, seconds(20)}}}}, {}}}},
        {SectionKind::closing,
         "Home",
         {{"Until Tuesday.", {}, {}, "", {{false, {{TurnKind::listen, seconds(30)}}}}, {}}}}};
    return script;
}

} // namespace vh::testing
