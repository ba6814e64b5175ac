// What can be said of a picture without reading it: what it seems to be, and why it is refused. The relay has this much
// of server/photos and the process; the libraries that read pictures only the process has.
#include "server/photos/remake.h"

#include <algorithm>
#include <array>

namespace vh::photos
{

namespace
{
constexpr std::array<std::uint8_t, 3> kJpegBegins{0xFF, 0xD8, 0xFF}; // ITU-T T.81, B.1.1.3: SOI, then a marker
constexpr std::array<std::uint8_t, 8> kPngBegins{0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'}; // PNG, 5.2

template <std::size_t N>
bool begins(std::span<const std::uint8_t> bytes, const std::array<std::uint8_t, N>& with)
{
    return bytes.size() >= N && std::equal(with.begin(), with.end(), bytes.begin());
}
} // namespace

bool makesSense(const Cut& cut)
{
    return cut.left >= 0 && cut.left < cut.right && cut.right <= 1 && cut.top >= 0 && cut.top < cut.bottom &&
           cut.bottom <= 1;
}

Error unknown()
{
    return {"picture-unknown", "This is no picture that can be shown. Please send a JPEG or a PNG picture.", {}};
}

Error cutShort()
{
    return {"picture-cut-short",
            "The picture's file ends too early. Please send it again, or take another copy of it.",
            {}};
}

Error damaged()
{
    return {"picture-damaged", "The picture's file is damaged. Please open and save it once more, then send that.", {}};
}

Error tooLarge()
{
    return {"picture-too-large", "The picture is too large. Please send a smaller copy of it.", {}};
}

std::optional<Format> formatOf(std::span<const std::uint8_t> bytes)
{
    if (begins(bytes, kJpegBegins))
        return Format::jpeg;
    if (begins(bytes, kPngBegins))
        return Format::png;
    return std::nullopt;
}

} // namespace vh::photos
