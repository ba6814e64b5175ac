#pragma once
// The style sheet for Qt's own widgets (line edits, lists, check boxes, tables, frames), made from a Look. Private to
// app/look.
#include "app/look/look.h"

#include <QString>

namespace vh::look
{

QString styleSheetOf(const Look& look);

} // namespace vh::look
