#pragma once
// The words of worth a word: why somebody is on the list, and the short line that one key sends them. Plain and warm;
// nothing is ranked, and nobody is compared with anybody. Pure; any thread.
#include "common/live/share.h"
#include "common/live/worth_a_word.h"

#include <QString>
#include <QStringList>

#include <span>

namespace vh::lead
{

/// "Tomas: easy to hear in all three, for the first time today", then shorter ones for narrower screens; the last is
/// short. `section`: the title where it was so, or since when; may be empty.
QStringList worthWords(const QString& name, WorthReason reason, std::uint32_t turns, const QString& section);
/// What the key sends.
QString wordFor(WorthReason reason);

/// A leader's own short words to one person.
struct OwnWord {
    WordKind kind;
    const char* text;
};
std::span<const OwnWord> ownWords();

/// How a person may be addressed, as a sentence.
QString addressedWords(Addressed addressed);
/// "Asked: as usual", "Asked: 2 dB more than usual".
QString bandWords(float offsetDb);

} // namespace vh::lead
