// The editor's screens.
#include "app/write/editor_control.h"
#include "common/script/reader.h"
#include "common/script/shapes.h"
#include "tests/app/write/write_scenes.h"

#include <QFile>
#include <QTemporaryDir>
#include <QVBoxLayout>

namespace vh::testing
{

namespace
{

using namespace vh::write;

/// The editor on a class of its own in a folder of its own.
class Shown : public QWidget
{
public:
    Shown() : control(EditorSetup{}, this)
    {
        auto* box = new QVBoxLayout(this);
        box->setContentsMargins(0, 0, 0, 0);
        box->addWidget(control.page());
    }
    [[nodiscard]] QString file(const QString& name) const { return folder.filePath(name); }

    QTemporaryDir folder;
    EditorControl control;
};

ClassScript kiteHill()
{
    QFile file(QStringLiteral(VH_SOURCE_DIR "/content/classes/kite-hill.yaml"));
    if (!file.open(QIODevice::ReadOnly))
        qFatal("no such class");
    return *readClassScript(file.readAll().toStdString(), "kite-hill.yaml");
}

std::unique_ptr<Shown> onKiteHill()
{
    auto shown = std::make_unique<Shown>();
    QDir(shown->folder.path()).mkdir("pictures");
    for (const char* each : {"hill", "climb"})
        QFile::copy(QStringLiteral(VH_SOURCE_DIR "/content/classes/pictures/kite-hill-%1.svg").arg(each),
                    shown->file(QStringLiteral("pictures/kite-hill-%1.svg").arg(each)));
    shown->control.openNew(kiteHill(), shown->file("kite-hill.yaml"));
    return shown;
}

std::unique_ptr<Shown> laidOutClass()
{
    auto shown = std::make_unique<Shown>();
    const Theme theme{"The old harbour",
                      {"harbour", "boat", "rope", "gull", "tide", "crane", "quay", "fog", "bell", "net"},
                      20,
                      3,
                      {}};
    shown->control.openNew(laidOut(ClassShape::steadyClimb, theme), shown->file("harbour.yaml"));
    return shown;
}

std::unique_ptr<QWidget> written()
{
    auto shown = onKiteHill();
    shown->control.document().select({10, 2});
    return shown;
}

std::unique_ptr<QWidget> turns()
{
    auto shown = onKiteHill();
    shown->control.document().select({2, 0});
    shown->control.page()->toSide(Side::turns);
    return shown;
}

std::unique_ptr<QWidget> picture()
{
    auto shown = onKiteHill();
    shown->control.document().select({0, 0});
    shown->control.page()->toSide(Side::picture);
    return shown;
}

std::unique_ptr<QWidget> part()
{
    auto shown = onKiteHill();
    shown->control.document().select({4, -1});
    return shown;
}

std::unique_ptr<QWidget> wholeClass()
{
    auto shown = onKiteHill();
    shown->control.document().select({});
    return shown;
}

std::unique_ptr<QWidget> toWrite()
{
    return laidOutClass();
}

std::unique_ptr<QWidget> remarks()
{
    auto shown = laidOutClass();
    ClassDocument& document = shown->control.document();
    const char* const lines[] = {
        "Call the boat home across the harbour.", "Throw me the rope, I am nearly there!",
        "The gulls know more about the tide than the harbour master and all of his clerks together do."};
    for (const char* line : lines) {
        document.select(*document.nextToWrite());
        document.setText(line, static_cast<int>(qstrlen(line)));
    }
    document.setTitle({});
    return shown;
}

std::unique_ptr<QWidget> unfinished()
{
    auto shown = onKiteHill();
    EditorControl& control = shown->control;
    const QString path = control.path();
    emit control.page()->pressed(Press::save);
    control.document().setTitle("A very windy day");
    control.keepNow();
    control.open(path);
    return shown;
}

std::unique_ptr<QWidget> leaving()
{
    auto shown = onKiteHill();
    emit shown->control.page()->pressed(Press::leave);
    return shown;
}

} // namespace

std::vector<WriteScene> editorScenes()
{
    return {{"editor-written", written}, {"editor-turns", turns},           {"editor-picture", picture},
            {"editor-part", part},       {"editor-class", wholeClass},      {"editor-to-write", toWrite},
            {"editor-remarks", remarks}, {"editor-unfinished", unfinished}, {"editor-leaving", leaving}};
}

} // namespace vh::testing
