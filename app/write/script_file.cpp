#include "app/write/script_file.h"

#include "common/script/limits.h"
#include "common/script/reader.h"
#include "common/script/spoken_pace.h"
#include "common/script/writer.h"

#include <QCoreApplication>
#include <QDir>
#include <QFile>
#include <QSaveFile>

namespace vh::write
{

tl::expected<ClassScript, std::vector<ScriptError>> readScriptFile(const QString& path)
{
    const std::string name = QFileInfo(path).fileName().toStdString();
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return tl::unexpected(
            std::vector<ScriptError>{{name, 1, 1, "The file cannot be opened.",
                                      "Check that it is there and that you may read it.", "file-unreadable"}});
    // One byte more than is allowed: the reader then says that the file is too large.
    const QByteArray bytes = file.read(static_cast<qint64>(limits::kMaxScriptBytes) + 1);
    return readClassScript({bytes.constData(), static_cast<std::size_t>(bytes.size())}, name, plannedAsSpoken);
}

Result<void> writeScriptFile(const QString& path, const ClassScript& script)
{
    const QFileInfo where(path);
    QDir().mkpath(where.absolutePath());
    const std::string yaml = writeClassScript(script);
    QSaveFile file(path);
    if (!file.open(QIODevice::WriteOnly) ||
        file.write(yaml.data(), static_cast<qint64>(yaml.size())) != static_cast<qint64>(yaml.size()) || !file.commit())
        return fail("cannot-write",
                    QCoreApplication::translate("vh::write", "The class could not be written to the folder \"%1\". "
                                                             "Is the disk full, or the folder locked?")
                        .arg(QDir::toNativeSeparators(where.absolutePath()))
                        .toStdString());
    return {};
}

} // namespace vh::write
