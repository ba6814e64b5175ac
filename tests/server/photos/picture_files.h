#pragma once
// Picture files for tests, made with libjpeg and libpng as anybody's camera or program would, and worse: with what
// should not be in them.
#include "server/photos/remake.h"

#include <string>
#include <string_view>

namespace vh::photos
{

using Bytes = std::vector<std::uint8_t>;

/// Colours that change from place to place, so that turning and cutting show.
Picture motley(int width, int height);
/// A photograph's grain: hardly to be made smaller by packing.
Picture grainy(int width, int height, std::uint32_t seed);

/// After SOI, as a camera writes them: Exif with a place and a thumbnail, a comment, XMP, an ICC profile; and an
/// archive behind the end.
Bytes withMetadata(const Bytes& jpeg);
/// Text, time, Exif and a colour profile as chunks before IDAT, and an archive behind IEND.
Bytes pngWithMetadata(const Bytes& png);
/// The words that must be nowhere afterwards.
extern const std::vector<std::string_view> kTraces;
bool holds(const Bytes& bytes, std::string_view words);

/// Progressive, with as many passes as the format can be brought to: `scans` of them.
Bytes progressive(const Picture& picture, int scans);
Bytes interlaced(const Picture& picture);
/// Only a head that says it is so large, and a little data.
Bytes jpegThatSaysItIs(int width, int height);
Bytes pngThatSaysItIs(int width, int height);
/// A valid PNG of one colour: a few kilobytes that become width * height * 3 bytes.
Bytes plainPng(int width, int height);
Bytes fourInks(int width, int height);

} // namespace vh::photos
