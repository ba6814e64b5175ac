#pragma once
// The look that the people of this computer chose: size of words, light or dark. Kept in look.ini in the profile's
// folder. GUI thread. A file that cannot be read, or says something unknown, counts as none.
#include "app/look/look.h"

#include <QString>

#include <optional>

namespace vh::look
{

std::optional<Look> keptLook(const QString& folder);
/// False when it could not be written down: it then holds until the program ends.
bool keepLook(const QString& folder, const Look& look);

} // namespace vh::look
