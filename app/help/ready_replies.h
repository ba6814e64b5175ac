#pragma once
// A volunteer's own ready-made answers, up to nine, one for each digit; kept on this computer in the program's folder.
// Values; GUI thread.
#include <QStringList>

namespace vh::help
{

/// Always this many; an empty one is none.
inline constexpr int kReadyReplies = 9;

/// Of this folder; what cannot be read is none. Before anything was kept there: a few to begin with.
QStringList keptReplies(const QString& folder);
/// False: it could not be written.
bool keepReplies(const QString& folder, const QStringList& replies);

} // namespace vh::help
