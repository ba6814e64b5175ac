#pragma once
// Text as it is looked for: small letters without accents, words apart by one space. Pure; any thread.
#include <QByteArray>
#include <QStringList>

namespace vh::write
{

/// Each word with a space before it (" the ducks are awake"), as UTF-8: the beginning of a word is found as " beg".
/// Letters and digits make words; an apostrophe is left out ("don't" is "dont"), everything else parts them.
QByteArray folded(QStringView text);
/// The words alone.
QStringList foldedWords(QStringView text);

} // namespace vh::write
