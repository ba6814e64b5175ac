// PNG by libpng. Its errors come by longjmp: between setjmp and the end of a function nothing is built that would have
// to be destroyed; what is needed lives in the structs outside.
#include "server/photos/remake.h"

#include <algorithm>
#include <csetjmp>
#include <cstring>

#include <png.h>

namespace vh::photos
{

namespace
{

constexpr std::size_t kChannels = 3;
constexpr std::size_t kWithAlpha = 4;
constexpr png_alloc_size_t kMostChunkBytes = 1 << 20;

struct Fault {
    bool endedEarly = false;
};

[[noreturn]] void stop(png_structp png, png_const_charp)
{
    png_longjmp(png, 1);
}

void silent(png_structp, png_const_charp) {}

struct Reading {
    std::span<const std::uint8_t> left;
    png_structp png = nullptr;
    png_infop info = nullptr;
    Fault fault;
    std::vector<std::uint8_t> held; ///< the whole picture where its rows come in seven passes, else one row
    std::vector<std::uint8_t> row;
    std::optional<RowScaler> scaler;
    std::optional<Error> refused;
    Size size;
    bool inPasses = false;

    explicit Reading(std::span<const std::uint8_t> bytes) : left(bytes)
    {
        png = png_create_read_struct(PNG_LIBPNG_VER_STRING, nullptr, stop, silent);
        if (png)
            info = png_create_info_struct(png);
    }
    ~Reading() { png_destroy_read_struct(&png, &info, nullptr); }
    Reading(const Reading&) = delete;
    Reading& operator=(const Reading&) = delete;

    bool run();
    void limit();
    void look();
    void prepare();
    void pushRow(const std::uint8_t* rgba);
};

void give(png_structp png, png_bytep to, std::size_t count)
{
    auto* reading = static_cast<Reading*>(png_get_io_ptr(png));
    if (reading->left.size() < count) {
        reading->fault.endedEarly = true;
        png_error(png, "end");
    }
    std::memcpy(to, reading->left.data(), count);
    reading->left = reading->left.subspan(count);
}

/// No ancillary chunk is wanted but the one that says which colour is transparent.
void Reading::limit()
{
    png_set_user_limits(png, kMostEdgeIn, kMostEdgeIn);
    png_set_chunk_malloc_max(png, kMostChunkBytes);
    png_set_chunk_cache_max(png, 1);
    png_set_keep_unknown_chunks(png, PNG_HANDLE_CHUNK_NEVER, nullptr, -1);
    static constexpr png_byte kSkipped[] = "iCCP\0tEXt\0zTXt\0iTXt\0eXIf\0sPLT\0hIST\0tIME\0pCAL\0sCAL";
    png_set_keep_unknown_chunks(png, PNG_HANDLE_CHUNK_NEVER, kSkipped, sizeof kSkipped / 5);
}

void Reading::look()
{
    const std::int64_t width = png_get_image_width(png, info);
    const std::int64_t height = png_get_image_height(png, info);
    inPasses = png_get_interlace_type(png, info) != PNG_INTERLACE_NONE;
    if (width < 1 || height < 1)
        refused = damaged();
    else if (width > kMostEdgeIn || height > kMostEdgeIn || width * height > kMostPixelsIn ||
             (inPasses && width * height * std::int64_t{kWithAlpha} > kMostHeldBytes))
        refused = tooLarge();
    size = {static_cast<int>(width), static_cast<int>(height)};
}

void Reading::prepare()
{
    png_set_expand(png);
    png_set_strip_16(png);
    png_set_gray_to_rgb(png);
    png_set_add_alpha(png, 0xFF, PNG_FILLER_AFTER); // where there is none
    scaler.emplace(size, within(size, kEdge));
    row.resize(static_cast<std::size_t>(size.width) * kChannels);
    held.resize(static_cast<std::size_t>(size.width) * kWithAlpha *
                (inPasses ? static_cast<std::size_t>(size.height) : 1));
}

/// On white, as paper is.
void Reading::pushRow(const std::uint8_t* rgba)
{
    for (std::size_t x = 0; x < static_cast<std::size_t>(size.width); ++x) {
        const unsigned alpha = rgba[x * kWithAlpha + 3];
        for (std::size_t c = 0; c < kChannels; ++c)
            row[x * kChannels + c] =
                static_cast<std::uint8_t>((rgba[x * kWithAlpha + c] * alpha + 255 * (255 - alpha) + 127) / 255);
    }
    scaler->push(row);
}

bool Reading::run()
{
    if (!png || !info)
        return false;
    if (setjmp(png_jmpbuf(png)) != 0) // NOLINT(cert-err52-cpp): the library's only way
        return false;
    png_set_read_fn(png, this, give);
    limit();
    png_read_info(png, info);
    look();
    if (refused)
        return false;
    prepare();
    const int passes = png_set_interlace_handling(png);
    png_read_update_info(png, info);
    if (png_get_rowbytes(png, info) != static_cast<std::size_t>(size.width) * kWithAlpha)
        return false;
    const std::size_t stride = inPasses ? static_cast<std::size_t>(size.width) * kWithAlpha : 0;
    for (int pass = 0; pass < passes; ++pass)
        for (int y = 0; y < size.height; ++y) {
            std::uint8_t* line = held.data() + stride * static_cast<std::size_t>(y);
            png_read_row(png, line, nullptr);
            if (pass + 1 == passes)
                pushRow(line);
        }
    png_read_end(png, nullptr);
    return true;
}

struct Writing {
    png_structp png = nullptr;
    png_infop info = nullptr;
    std::vector<std::uint8_t> bytes;

    Writing()
    {
        png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, stop, silent);
        if (png)
            info = png_create_info_struct(png);
    }
    ~Writing() { png_destroy_write_struct(&png, &info); }
    Writing(const Writing&) = delete;
    Writing& operator=(const Writing&) = delete;

    bool run(const Picture& picture);
};

void keep(png_structp png, png_bytep from, std::size_t count)
{
    auto* writing = static_cast<Writing*>(png_get_io_ptr(png));
    writing->bytes.insert(writing->bytes.end(), from, from + count);
}

void nothing(png_structp) {}

bool Writing::run(const Picture& picture)
{
    if (!png || !info)
        return false;
    if (setjmp(png_jmpbuf(png)) != 0) // NOLINT(cert-err52-cpp)
        return false;
    png_set_write_fn(png, this, keep, nothing);
    png_set_IHDR(png, info, static_cast<png_uint_32>(picture.width), static_cast<png_uint_32>(picture.height), 8,
                 PNG_COLOR_TYPE_RGB, PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
    png_write_info(png, info);
    const std::size_t stride = static_cast<std::size_t>(picture.width) * kChannels;
    for (int y = 0; y < picture.height; ++y)
        png_write_row(png, picture.rgb.data() + stride * static_cast<std::size_t>(y));
    png_write_end(png, nullptr);
    return true;
}

} // namespace

Result<Picture> readPng(std::span<const std::uint8_t> bytes)
{
    Reading reading(bytes);
    if (reading.run())
        return reading.scaler->take();
    if (reading.refused)
        return tl::unexpected<Error>(*reading.refused);
    return tl::unexpected<Error>(reading.fault.endedEarly ? cutShort() : damaged());
}

std::vector<std::uint8_t> writePng(const Picture& picture)
{
    Writing writing;
    if (!writing.run(picture))
        return {};
    return std::move(writing.bytes);
}

} // namespace vh::photos
