#include "app/write/class_files.h"

#include "app/write/class_entry.h"
#include "app/write/folded.h"
#include "app/write/script_file.h"
#include "common/base/text.h"
#include "common/script/limits.h"

#include <QCoreApplication>
#include <QDir>
#include <QFile>
#include <QFileInfo>

#include <map>

namespace vh::write
{

namespace
{

constexpr qsizetype kMostSlug = 48; // letters

std::string say(const char* words)
{
    return QCoreApplication::translate("vh::write", words).toStdString();
}

Result<ClassScript> readToChange(const QString& path)
{
    auto script = readScriptFile(path);
    if (script)
        return std::move(*script);
    return fail("not-a-class", say("This file is no class yet: what is wrong with it has to be mended first."));
}

Result<std::string> fitTitle(const QString& title)
{
    if (auto fit = cleanLine(title.toStdString(), limits::kMaxTitle))
        return std::move(*fit);
    return fail("title", say("Please give it a title of 1 to 120 letters."));
}

bool moveTo(const QString& from, const QString& to, bool copy)
{
    QDir().mkpath(QFileInfo(to).absolutePath());
    return copy ? QFile::copy(from, to) : QFile::rename(from, to);
}

/// Takes back what was done of it.
void undo(const std::vector<PutAside::Move>& moves)
{
    for (auto move = moves.rbegin(); move != moves.rend(); ++move)
        if (move->copied)
            QFile::remove(move->to);
        else
            (void)moveTo(move->to, move->from, false);
}

} // namespace

QString slugOf(const QString& title)
{
    QString slug;
    for (const QString& word : foldedWords(title)) {
        if (slug.size() + word.size() > kMostSlug)
            break;
        slug += (slug.isEmpty() ? QString() : QStringLiteral("-")) + word;
    }
    return slug.isEmpty() ? QStringLiteral("class") : slug;
}

QString freePath(const QString& folder, const QString& slug, const QString& ending)
{
    QString path = QDir(folder).absoluteFilePath(slug + ending);
    const auto taken = [&] { return QFileInfo::exists(path) || QFileInfo::exists(path + QLatin1String(kDraftEnding)); };
    for (int number = 2; taken(); ++number)
        path = QDir(folder).absoluteFilePath(QStringLiteral("%1-%2%3").arg(slug).arg(number).arg(ending));
    return path;
}

Result<QString> copyClass(const QString& from, const QString& folder, const QString& title)
{
    auto script = readToChange(from);
    if (!script)
        return tl::unexpected<Error>(script.error());
    auto fit = fitTitle(title);
    if (!fit)
        return tl::unexpected<Error>(fit.error());
    script->title = *fit;
    const QString path = freePath(folder, slugOf(title));
    const QString slug = QFileInfo(path).completeBaseName();
    const QDir there = QFileInfo(from).absoluteDir();
    std::map<std::string, std::string> names; // of each picture, in the copy
    std::vector<PutAside::Move> made;
    for (Section& section : script->sections)
        for (Step& step : section.steps) {
            if (!step.picture)
                continue;
            const QString file = there.filePath(QString::fromStdString(step.picture->file));
            std::string& name = names[step.picture->file];
            if (name.empty() && !QFileInfo::exists(file)) {
                name = step.picture->file;
            } else if (name.empty()) {
                const QString ending = '.' + QFileInfo(file).suffix().toLower();
                const QString to = freePath(QDir(folder).filePath(QStringLiteral("pictures")),
                                            QStringLiteral("%1-%2").arg(slug).arg(names.size()), ending);
                if (!moveTo(file, to, true)) {
                    undo(made);
                    return fail("cannot-write", say("A picture of this class could not be copied. Is the disk full?"),
                                step.picture->file);
                }
                made.push_back({file, to, true});
                name = "pictures/" + QFileInfo(to).fileName().toStdString();
            }
            step.picture->file = name;
        }
    if (auto written = writeScriptFile(path, *script); !written) {
        undo(made);
        return tl::unexpected<Error>(written.error());
    }
    return path;
}

Result<void> renameClass(const QString& path, const QString& title)
{
    auto script = readToChange(path);
    if (!script)
        return tl::unexpected<Error>(script.error());
    auto fit = fitTitle(title);
    if (!fit)
        return tl::unexpected<Error>(fit.error());
    script->title = *fit;
    return writeScriptFile(path, *script);
}

Result<PutAside> putAside(const QString& path, const QString& own, const QStringList& pictures,
                          const QStringList& shared)
{
    const QFileInfo file(path);
    const QString aside = QDir(own).filePath(QLatin1String(kAsideFolder));
    const QDir folder(freePath(aside, file.completeBaseName(), QString()));
    PutAside done{path, {}};
    const auto take = [&](const QString& from, const QString& to, bool copy) {
        const bool moved = moveTo(from, to, copy);
        if (moved)
            done.moves.push_back({from, to, copy});
        return moved;
    };
    bool all = true;
    for (const QString& name : {file.fileName(), file.fileName() + QLatin1String(kDraftEnding)})
        if (const QString from = file.absoluteDir().filePath(name); all && QFileInfo::exists(from))
            all = take(from, folder.filePath(name), false);
    all = all && !done.moves.empty();
    for (const QString& picture : pictures) {
        const QString from = file.absoluteDir().filePath(picture);
        if (all && QFileInfo::exists(from))
            all = take(from, folder.filePath(picture), shared.contains(picture));
    }
    if (all)
        return done;
    undo(done.moves);
    return fail("cannot-move", say("The class could not be put aside. Is its folder locked?"));
}

Result<void> putBack(const PutAside& aside)
{
    for (const PutAside::Move& move : aside.moves)
        if (!move.copied && QFileInfo::exists(move.from))
            return fail("in-its-place", say("Another file stands in its place by now; the class is still in the folder "
                                            "\"Put aside\"."));
    undo(aside.moves);
    if (!QFileInfo::exists(aside.moves.front().from))
        return fail("cannot-move", say("The class could not be put back; it is still in the folder \"Put aside\"."));
    QDir().rmpath(QFileInfo(aside.moves.front().to).absolutePath()); // where it is empty
    return {};
}

} // namespace vh::write
