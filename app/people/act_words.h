#pragma once
// What was done at the desk, in words: one sentence for each act of the log (`acts` of docs/protocol.md), the time of
// day before it, and what it was about below it. Pure; any thread.
#include "common/wire/board_messages.h"

#include <QString>

namespace vh
{

/// "Kim set aside what Bo wrote." An act that this program does not know is named as the relay names it.
QString actWords(const wire::Act& act);
/// "10:04", local.
QString actTime(const wire::Act& act);
/// The line, the reason, how a call ended; may be empty.
QString actDetail(const wire::Act& act);

} // namespace vh
