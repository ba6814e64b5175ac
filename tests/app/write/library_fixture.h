#pragma once
// Folders with class files, for the tests of the library.
#include "app/write/class_library.h"

#include <QFile>
#include <QTemporaryDir>
#include <QtTest>

namespace vh::write::testing
{

/// A small class of one spoken step, which may have a picture.
inline QByteArray classFile(const QString& title, const QString& theme, const QString& text,
                            const QString& picture = {})
{
    QString yaml = QStringLiteral("title: \"%1\"\ntheme: \"%2\"\nlanguage: en\nminutes: 1\nsections:\n"
                                  "  - kind: phrases\n    title: Out loud\n    steps:\n      - text: \"%3\"\n")
                       .arg(title, theme, text);
    if (!picture.isEmpty())
        yaml +=
            QStringLiteral("        picture:\n          file: %1\n          description: A drawing.\n").arg(picture);
    return (yaml + "        rounds:\n          - turns: [listen 4, ready, yours 6]\n").toUtf8();
}

inline bool put(const QString& path, const QByteArray& bytes)
{
    QDir().mkpath(QFileInfo(path).absolutePath());
    QFile file(path);
    return file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size();
}

inline QByteArray bytesOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

struct LibraryHere {
    QTemporaryDir folder;
    LibraryFolders folders{folder.filePath("bundled"), folder.filePath("Voicehall classes"),
                           folder.filePath("cache/classes.index")};

    QString own(const QString& name) const { return QDir(folders.own).filePath(name); }
    QString bundled(const QString& name) const { return QDir(folders.bundled).filePath(name); }
    bool fill() const
    {
        return put(bundled("kites.yaml"),
                   classFile("A windy day", "Kites", "The kite pulls at the line.", "pictures/kite.svg")) &&
               put(bundled("pictures/kite.svg"), "<svg xmlns='http://www.w3.org/2000/svg'/>") &&
               put(own("bread.yaml"), classFile("Warm loaves", "Bread", "Crème brûlée don't keep long.")) &&
               put(own("pond.yaml"), classFile("Round the pond", "Pond", "The ducks are up before us."));
    }
};

inline bool settle(ClassLibrary& library)
{
    QSignalSpy settled(&library, &ClassLibrary::settled);
    library.look();
    return settled.wait(20'000);
}

inline QStringList titlesOf(const ClassLibrary& library)
{
    QStringList titles;
    for (const ClassEntry& entry : library.entries())
        titles << entry.title;
    return titles;
}

} // namespace vh::write::testing
