#pragma once
// Where papers go on this computer, and under which name. Any one thread; showing needs the GUI thread.
// Failure: folder-missing, not-saved, in words for the person (disk full, no permission).
#include "common/base/result.h"

#include <QDate>
#include <QString>

namespace vh::handout
{

/// "2025-05-14 The harbour in the mist - handout.pdf": fit for a file on every system, whatever the title holds.
QString paperName(const QString& title, const QDate& date, const QString& what);

/// Beside the class where that folder can be written; else the person's documents. `classFolder` may be empty.
QString folderForPapers(const QString& classFolder);
/// Where people look for what they fetched: their downloads, else their documents, else their home.
QString downloadFolder();

/// Whole or not at all; one of the same name is replaced. The folder is made if its parent is there. Gives the path.
Result<QString> savePaper(const QString& folder, const QString& name, const QByteArray& bytes);

/// Only when somebody asks: with the system's own reader or file browser. False: nothing here can show it.
bool showFile(const QString& path);
bool showFolderOf(const QString& path);

} // namespace vh::handout
