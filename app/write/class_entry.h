#pragma once
// What the library knows of one class file without reading it again: enough to find it, list it and give a look at it.
// Value; any thread.
#include "app/write/script_file.h"

#include <QByteArray>
#include <QString>
#include <QStringList>

namespace vh::write
{

struct ClassEntry {
    struct Part {
        QString title;
        SectionKind kind = SectionKind::opening;
        Millis length{0};
        QString firstLine; ///< of its first step
        friend bool operator==(const Part&, const Part&) = default;
    };
    struct Mistake {
        int line = 1;
        QString message;
        QString remedy;
        friend bool operator==(const Mistake&, const Mistake&) = default;
    };

    QString path;        ///< absolute
    qint64 size = 0;     ///< of the file when it was read, in bytes
    qint64 modified = 0; ///< likewise, ms since the epoch
    bool bundled = false;
    bool unfinished = false; ///< there is no such file yet, only its draft ("kites.yaml.draft"), which `size` and
                             ///< `modified` are of
    bool unread = false;     ///< found, and not read yet: only path and title (the file's name) are known

    QString title; ///< the file's name where it cannot be read
    QString theme;
    QString language;
    int plannedMinutes = 0;
    Millis length{0}; ///< by the plan
    int steps = 0;
    std::vector<Part> parts;
    QStringList pictures;          ///< files, relative to the script's folder; each once
    QByteArray lines;              ///< all that is shown of it, UTF-8, one line under the other
    QByteArray headFolded;         ///< title and theme, folded
    QByteArray folded;             ///< `lines`, folded line by line
    QByteArray sentences;          ///< sentencesSaid(), one line each
    std::vector<Mistake> mistakes; ///< of a file that is no class; at most kMostMistakes
    friend bool operator==(const ClassEntry&, const ClassEntry&) = default;
};

inline constexpr std::size_t kMostMistakes = 20;
inline constexpr char kDraftEnding[] = ".draft";

/// What can be said of a file that has not been read.
ClassEntry unreadEntry(const QString& path, qint64 size, qint64 modified, bool bundled);
/// Reads the file, or the draft where there is nothing else.
ClassEntry entryOf(const QString& path, qint64 size, qint64 modified, bool bundled);

} // namespace vh::write
