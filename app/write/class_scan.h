#pragma once
// One look at the folders of classes: which files there are, what is known of them already, and the rest read. Runs in
// the background; touches files and its own values only.
#include "app/write/class_entry.h"

#include <QPromise>

#include <optional>

namespace vh::write
{

struct ScanOrder {
    QString bundled;
    QString own;
    QString index;
    bool readIndex = false;        ///< else `known` is all that is known
    std::vector<ClassEntry> known; ///< from before
};

/// Gives first one list of all files, those not known as unread; then those that were read, some at a time.
void scan(QPromise<std::vector<ClassEntry>>& promise, const ScanOrder& order);

/// The folders in which classes of `own` lie, itself first.
QStringList foldersUnder(const QString& own);

} // namespace vh::write
