#pragma once
// One press: both papers of a class made and saved into a folder, as two files named after the class and its day.
// A paper of the same name is replaced whole or not at all. Nothing is opened unless asked for.
// Needs a QGuiApplication. GUI thread, or any one thread for makePapers().
// Failure: as handoutPdf(); folder-missing, not-saved (with the system's own words: disk full, no permission).
#include "app/handout/handout.h"
#include "app/handout/paper_script.h"

namespace vh::handout
{

struct PapersOptions {
    HandoutOptions handout; ///< paper, group, date and words hold for both
    QTime startsAt;         ///< for the paper script
};

struct Papers {
    QString handout; ///< path of the large-print handout
    QString script;  ///< path of the leader's paper script
};

/// Beside the class where that folder can be written; else the person's documents. `classFolder` may be empty.
QString folderForPapers(const QString& classFolder);

/// `folder` is made if its parent is there. `pictures`: the folder that the script's picture files are relative to.
Result<Papers> makePapers(const ClassScript& script, const QString& pictures, const QString& folder,
                          const PapersOptions& options);

/// "2025-05-14 The harbour in the mist - handout.pdf": fit for a file on every system.
QString paperName(const ClassScript& script, const QDate& date, const QString& what);

/// Only when somebody asks: with the system's own reader or file browser. False: nothing here can show it.
bool showFile(const QString& path);
bool showFolderOf(const QString& path);

} // namespace vh::handout
