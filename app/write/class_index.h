#pragma once
// What was read of many class files, kept in one file so that the next opening need not read them again. Written whole
// or not at all; a file that is missing, damaged or of another version is no index: the classes are read again. Any one
// thread.
#include "app/write/class_entry.h"

#include <optional>

namespace vh::write
{

std::optional<std::vector<ClassEntry>> readIndex(const QString& path);
/// Without those that are unread. False: it could not be written; the next opening is slower, and nothing else.
bool writeIndex(const QString& path, const std::vector<ClassEntry>& entries);

} // namespace vh::write
