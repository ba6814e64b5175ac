#include "app/handout/paper_files.h"

#include <QCoreApplication>
#include <QDesktopServices>
#include <QDir>
#include <QFileInfo>
#include <QSaveFile>
#include <QStandardPaths>
#include <QUrl>

namespace vh::handout
{

namespace
{

QString tr(const char* source)
{
    return QCoreApplication::translate("vh::handout", source);
}

constexpr qsizetype kMostTitle = 80; ///< characters; file names may have 255 bytes

/// Letters, digits and spaces of any script; what file systems or shells make something of goes.
QString fitForAFile(const QString& title)
{
    QString fit;
    for (const QChar each : title.left(kMostTitle))
        fit += each.isLetterOrNumber() || each.isMark() || each.isSurrogate() || each == QLatin1Char('-') ? each
                                                                                                          : QChar(' ');
    if (!fit.isEmpty() && fit.back().isHighSurrogate())
        fit.chop(1);
    return fit.simplified();
}

QString folderOf(QStandardPaths::StandardLocation place)
{
    const QString path = QStandardPaths::writableLocation(place);
    return !path.isEmpty() && QFileInfo(path).isDir() && QFileInfo(path).isWritable() ? path : QString();
}

} // namespace

QString paperName(const QString& title, const QDate& date, const QString& what)
{
    QStringList parts;
    if (!date.isNull())
        parts << date.toString(Qt::ISODate);
    if (const QString fit = fitForAFile(title); !fit.isEmpty())
        parts << fit;
    parts << QStringLiteral("-") << fitForAFile(what);
    return parts.join(QLatin1Char(' ')) + QStringLiteral(".pdf");
}

QString folderForPapers(const QString& classFolder)
{
    const QFileInfo beside(classFolder);
    if (!classFolder.isEmpty() && beside.isDir() && beside.isWritable())
        return classFolder;
    const QString documents = folderOf(QStandardPaths::DocumentsLocation);
    return documents.isEmpty() ? QDir::homePath() : documents;
}

QString downloadFolder()
{
    for (const auto place : {QStandardPaths::DownloadLocation, QStandardPaths::DocumentsLocation})
        if (const QString path = folderOf(place); !path.isEmpty())
            return path;
    return QDir::homePath();
}

Result<QString> savePaper(const QString& folder, const QString& name, const QByteArray& bytes)
{
    const QDir dir(folder);
    if (!dir.exists() && !(QFileInfo(QFileInfo(dir.absolutePath()).path()).isDir() && QDir().mkdir(dir.absolutePath())))
        return fail("folder-missing", tr("There is no folder %1.").arg(QDir::toNativeSeparators(folder)).toStdString());
    const QString path = dir.filePath(name);
    QSaveFile file(path);
    if (!file.open(QIODevice::WriteOnly) || file.write(bytes) != bytes.size() || !file.commit())
        return fail("not-saved", tr("%1 could not be saved: %2. Is the disk full, or may nothing be written there?")
                                     .arg(QDir::toNativeSeparators(path), file.errorString())
                                     .toStdString());
    return path;
}

bool showFile(const QString& path)
{
    return QDesktopServices::openUrl(QUrl::fromLocalFile(path));
}

bool showFolderOf(const QString& path)
{
    return QDesktopServices::openUrl(QUrl::fromLocalFile(QFileInfo(path).path()));
}

} // namespace vh::handout
