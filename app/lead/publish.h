#pragma once
// A class script made ready for the homes: its pictures become PNG parts named by their own SHA-256, and the script a
// JSON part that names them so. The script's part comes first. Reads picture files; any thread that may use QImage.
// Failure: picture-unreadable (missing, not a picture), class-too-large; the message says which and what to do.
#include "common/base/result.h"
#include "common/script/script.h"
#include "common/wire/limits.h"
#include "common/wire/to_relay.h"

#include <QString>

#include <vector>

namespace vh::lead
{

/// Longest edge of a picture as homes get it, in px.
inline constexpr int kPictureEdge = 640;
inline constexpr std::size_t kMostPartBytes = wire::kPartPutBytes;

struct Part {
    wire::Hash hash{};
    std::string bytes;
};

struct PublishedClass {
    ClassScript script; ///< with pictures named by hash, as the homes see it
    std::vector<Part> parts;
};

Result<PublishedClass> publish(const ClassScript& script, const QString& folder);

} // namespace vh::lead
