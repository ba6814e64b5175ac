#pragma once
// What was done at the desk, in plain words, for the list of it. Any one thread.
#include "app/widgets/row_list.h"
#include "common/wire/board_messages.h"

namespace vh::help
{

/// "10:02", "Ines let through what Rolf wrote", and the words it was about.
RowList::Row rowOf(const wire::Act& act);

} // namespace vh::help
