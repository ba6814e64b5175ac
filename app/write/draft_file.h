#pragma once
// What is not finished, as bytes: a class that may not be one yet (texts without words, pictures without description),
// with where the leader was in it and what the class file was when it was begun. JSON of our own, version 1; what
// another version wrote, or what is torn, is refused as a whole. Pure; any thread.
#include "app/write/script_edits.h"
#include "common/base/result.h"

#include <QByteArray>

namespace vh::write
{

struct Draft {
    ClassScript script;
    Spot spot;
    QByteArray basedOn;       ///< SHA-256 of the class file, in hexadecimal; empty: there was none
    std::int64_t written = 0; ///< milliseconds since the epoch, by this computer's clock
};

QByteArray bytesOf(const Draft& draft);
/// Error code: bad-draft.
Result<Draft> readDraft(const QByteArray& bytes);

} // namespace vh::write
