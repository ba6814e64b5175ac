#pragma once
// A class script's file on this computer. Any thread.
#include "common/base/result.h"
#include "common/script/script.h"
#include "common/script/script_error.h"

#include <QString>

#include <tl/expected.hpp>
#include <vector>

namespace vh::write
{

/// Reads one file, of at most the script reader's limit. Either the class or every mistake.
tl::expected<ClassScript, std::vector<ScriptError>> readScriptFile(const QString& path);
/// Writes it whole or not at all; the folder is made where it is missing. Failure: cannot-write, in words that say
/// where.
Result<void> writeScriptFile(const QString& path, const ClassScript& script);

} // namespace vh::write
