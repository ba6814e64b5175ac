#pragma once
// Copying, renaming and putting aside class files with their pictures. Nothing is ever overwritten or deleted. Failure:
// an Error in words; then nothing of what was there has changed. Any one thread.
#include "common/base/result.h"
#include "common/script/script.h"

#include <QString>
#include <QStringList>

#include <vector>

namespace vh::write
{

/// The folder, inside the leader's own, to which classes are moved that were put aside; the library does not look in.
inline constexpr char kAsideFolder[] = "Put aside";

/// "a-windy-day-on-kite-hill": a file's name from a title; "class" where the title has no letters.
QString slugOf(const QString& title);
/// A path in `folder` that nothing has yet: "slug.yaml", "slug-2.yaml"...
QString freePath(const QString& folder, const QString& slug, const QString& ending = QStringLiteral(".yaml"));

/// The class at `from` under a title of its own, in `folder`, with copies of its pictures in `folder`/pictures. A
/// picture that is not there stays missing. Gives the copy's path.
Result<QString> copyClass(const QString& from, const QString& folder, const QString& title);
/// The same file with another title.
Result<void> renameClass(const QString& path, const QString& title);

/// What was moved, so that it can be moved back.
struct PutAside {
    QString path; ///< where the class was
    struct Move {
        QString from;
        QString to;
        bool copied = false; ///< another class needs it, too: it stayed, and `to` is a copy
    };
    std::vector<Move> moves;
};
/// Moves the class into a folder of its own inside `own`/kAsideFolder, and those of its `pictures` (relative to it)
/// that are not `shared` with another class; of the others it gets copies.
Result<PutAside> putAside(const QString& path, const QString& own, const QStringList& pictures,
                          const QStringList& shared);
/// The other way round. Failure: something stands in its place by now.
Result<void> putBack(const PutAside& aside);

} // namespace vh::write
