#pragma once
// A picture that somebody sent, made anew from its pixels: read as JPEG or PNG, at most kEdge long, cut and turned as
// wished, written again in at most kMostBytesOut (at less quality, then smaller, where it must be). What is not pixels
// (place, camera, thumbnails, comments, what was appended) does not come along. Everything is checked before memory is
// taken for it: at most about 60 MB, whatever the bytes say. Pure; any thread. Meant for a process of its own
// (main.cpp): the bytes are anybody's. Errors, all with words for the sender: picture-unknown (neither JPEG nor PNG),
// picture-cut-short, picture-damaged, picture-too-large (its file, its pixels, or too many passes), picture-for-print
// (four inks).
#include "common/base/result.h"
#include "server/photos/picture.h"

#include <optional>

namespace vh::photos
{

inline constexpr int kEdge = 1600;                                   ///< px, of what comes out
inline constexpr std::size_t kMostBytesIn = std::size_t{8} << 20;    ///< of a file that is looked at
inline constexpr std::size_t kMostBytesOut = std::size_t{480} << 10; ///< of what comes out: one message to a home
inline constexpr int kMostEdgeIn = 20'000;                           ///< px
inline constexpr std::int64_t kMostPixelsIn = 50'000'000;            ///< more than telephones' cameras have
inline constexpr std::int64_t kMostHeldBytes = std::int64_t{48}
                                               << 20; ///< where a picture must be held whole to be read
inline constexpr int kMostScans = 30;                 ///< of a progressive JPEG; ordinary ones have ten

enum class Format : std::uint8_t { jpeg, png };

struct Wish {
    int quarterTurns = 0; ///< clockwise, after the cut
    Cut cut;
    friend bool operator==(const Wish&, const Wish&) = default;
};

struct Remade {
    Format format = Format::jpeg;
    Size size;
    std::vector<std::uint8_t> bytes; ///< at most kMostBytesOut
};

Result<Remade> remake(std::span<const std::uint8_t> bytes, const Wish& wish);

/// Something is left of the picture.
bool makesSense(const Cut& cut);
/// By their first bytes; nothing for anything else.
std::optional<Format> formatOf(std::span<const std::uint8_t> bytes);

// The two formats (jpeg.cpp, png.cpp). Reading: scaled to within kEdge, transparent parts white.
Result<Picture> readJpeg(std::span<const std::uint8_t> bytes);
Result<Picture> readPng(std::span<const std::uint8_t> bytes);
/// `quality`: 1..100. Empty if the library fails.
std::vector<std::uint8_t> writeJpeg(const Picture& picture, int quality);
std::vector<std::uint8_t> writePng(const Picture& picture);

// What is said in more than one place.
Error unknown();
Error cutShort();
Error damaged();
Error tooLarge();

} // namespace vh::photos
