#include "app/look/kept_look.h"

#include <QDir>
#include <QSettings>

namespace vh::look
{

namespace
{

const QStringList kSizes{"usual", "larger", "largest"}; // in the order of TextSize
const QStringList kGrounds{"light", "dark"};            // in the order of Ground

QString pathIn(const QString& folder)
{
    return QDir(folder).filePath("look.ini");
}

} // namespace

std::optional<Look> keptLook(const QString& folder)
{
    const QSettings file(pathIn(folder), QSettings::IniFormat);
    const auto size = kSizes.indexOf(file.value("words").toString());
    const auto ground = kGrounds.indexOf(file.value("ground").toString());
    if (size < 0 || ground < 0)
        return std::nullopt;
    return Look(static_cast<Ground>(ground), static_cast<TextSize>(size));
}

bool keepLook(const QString& folder, const Look& look)
{
    QDir().mkpath(folder);
    QSettings file(pathIn(folder), QSettings::IniFormat);
    file.setValue("words", kSizes[static_cast<int>(look.textSize())]);
    file.setValue("ground", kGrounds[static_cast<int>(look.ground())]);
    file.sync();
    return file.status() == QSettings::NoError;
}

} // namespace vh::look
