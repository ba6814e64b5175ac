#pragma once
// One press: both papers of a class made and saved into a folder, as two files named after the class and its day.
// Nothing is opened unless asked for (paper_files.h: showFile, showFolderOf).
// Needs a QGuiApplication. Any one thread. Failure: as handoutPdf() and savePaper().
#include "app/handout/handout.h"
#include "app/handout/paper_files.h"
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

/// `pictures`: the folder that the script's picture files are relative to. `folder`: see folderForPapers().
Result<Papers> makePapers(const ClassScript& script, const QString& pictures, const QString& folder,
                          const PapersOptions& options);

} // namespace vh::handout
