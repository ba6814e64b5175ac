#include "tests/server/photos/picture_files.h"

#include <algorithm>
#include <cstdio>
#include <cstdlib>

#include <jpeglib.h>
#include <png.h>
#include <zlib.h>

namespace vh::photos
{

const std::vector<std::string_view> kTraces{"Exif",    "GPSLatitude", "Greenhill Camera", "a thumbnail",
                                            "xpacket", "ICC_PROFILE", "Lakeside 4",       "PK\3\4"};

namespace
{

constexpr std::string_view kExif{"Exif\0\0MM\0*GPSLatitude 47.1 Greenhill Camera a thumbnail", 55};
constexpr std::string_view kXmp = "http://ns.adobe.com/xap/1.0/ <?xpacket?> Lakeside 4";
constexpr std::string_view kProfile = "ICC_PROFILE\0\1\1 of Greenhill Camera";
constexpr std::string_view kComment = "taken at Lakeside 4";
constexpr std::string_view kArchive = "PK\3\4 an archive with anything in it";

void append(Bytes& bytes, std::string_view text)
{
    bytes.insert(bytes.end(), text.begin(), text.end());
}

void segment(Bytes& bytes, std::uint8_t marker, std::string_view text)
{
    const std::size_t length = text.size() + 2;
    for (const std::size_t byte : {std::size_t{0xFF}, std::size_t{marker}, length >> 8, length & 0xFF})
        bytes.push_back(static_cast<std::uint8_t>(byte));
    append(bytes, text);
}

void number(Bytes& bytes, std::uint32_t value)
{
    for (int shift = 24; shift >= 0; shift -= 8)
        bytes.push_back(static_cast<std::uint8_t>(value >> shift));
}

void chunk(Bytes& bytes, std::string_view type, std::string_view data)
{
    number(bytes, static_cast<std::uint32_t>(data.size()));
    const std::size_t from = bytes.size();
    append(bytes, type);
    append(bytes, data);
    number(bytes, static_cast<std::uint32_t>(crc32(0, bytes.data() + from, static_cast<uInt>(bytes.size() - from))));
}

struct Compressor {
    jpeg_compress_struct jpeg{};
    jpeg_error_mgr errors{};
    unsigned char* bytes = nullptr;
    unsigned long size = 0;
    Compressor()
    {
        jpeg.err = jpeg_std_error(&errors);
        jpeg_create_compress(&jpeg);
        jpeg_mem_dest(&jpeg, &bytes, &size);
    }
    ~Compressor()
    {
        jpeg_destroy_compress(&jpeg);
        std::free(bytes);
    }
    void begin(int width, int height, int channels, J_COLOR_SPACE space)
    {
        jpeg.image_width = static_cast<JDIMENSION>(width);
        jpeg.image_height = static_cast<JDIMENSION>(height);
        jpeg.input_components = channels;
        jpeg.in_color_space = space;
        jpeg_set_defaults(&jpeg);
    }
    Bytes finish(const Bytes& pixels)
    {
        jpeg_start_compress(&jpeg, TRUE);
        const std::size_t stride = std::size_t{jpeg.image_width} * static_cast<std::size_t>(jpeg.input_components);
        while (jpeg.next_scanline < jpeg.image_height) {
            JSAMPROW row = const_cast<JSAMPROW>(pixels.data() + stride * jpeg.next_scanline);
            jpeg_write_scanlines(&jpeg, &row, 1);
        }
        jpeg_finish_compress(&jpeg);
        return {bytes, bytes + size};
    }
};

/// Bit by bit: the first of each of four parts (all DC; AC of each component), then each lower bit of it.
std::vector<jpeg_scan_info> manyScans()
{
    std::vector<jpeg_scan_info> scans;
    for (int low = 10; low >= 0; --low) {
        const int high = low == 10 ? 0 : low + 1;
        scans.push_back({3, {0, 1, 2, 0}, 0, 0, high, low});
        for (int component = 0; component < 3; ++component)
            scans.push_back({1, {component, 0, 0, 0}, 1, 63, high, low});
    }
    return scans;
}

Bytes pngOf(const Picture& picture, int interlace)
{
    Bytes bytes;
    png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
    png_infop info = png_create_info_struct(png);
    const auto keep = [](png_structp writer, png_bytep from, std::size_t count) {
        auto* to = static_cast<Bytes*>(png_get_io_ptr(writer));
        to->insert(to->end(), from, from + count);
    };
    png_set_write_fn(png, &bytes, keep, [](png_structp) {});
    png_set_IHDR(png, info, static_cast<png_uint_32>(picture.width), static_cast<png_uint_32>(picture.height), 8,
                 PNG_COLOR_TYPE_RGB, interlace, PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
    png_write_info(png, info);
    std::vector<png_bytep> rows;
    for (int y = 0; y < picture.height; ++y)
        rows.push_back(const_cast<png_bytep>(picture.rgb.data()) + std::ptrdiff_t{3} * picture.width * y);
    png_write_image(png, rows.data());
    png_write_end(png, nullptr);
    png_destroy_write_struct(&png, &info);
    return bytes;
}

} // namespace

Picture motley(int width, int height)
{
    Picture picture{width, height, {}};
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x)
            for (const int value : {x * 255 / std::max(1, width - 1), y * 255 / std::max(1, height - 1), 128})
                picture.rgb.push_back(static_cast<std::uint8_t>(value));
    return picture;
}

Picture grainy(int width, int height, std::uint32_t seed)
{
    Picture picture = motley(width, height);
    for (std::uint8_t& value : picture.rgb) {
        seed = seed * 1664525U + 1013904223U; // Numerical Recipes' quick generator
        value = static_cast<std::uint8_t>(seed >> 24);
    }
    return picture;
}

Bytes withMetadata(const Bytes& jpeg)
{
    Bytes bytes(jpeg.begin(), jpeg.begin() + 2);
    segment(bytes, 0xE1, kExif);
    segment(bytes, 0xE1, kXmp);
    segment(bytes, 0xE2, kProfile);
    segment(bytes, 0xFE, kComment);
    bytes.insert(bytes.end(), jpeg.begin() + 2, jpeg.end());
    append(bytes, kArchive);
    return bytes;
}

Bytes pngWithMetadata(const Bytes& png)
{
    constexpr std::ptrdiff_t kHead = 8 + 25; // signature and IHDR
    Bytes bytes(png.begin(), png.begin() + kHead);
    chunk(bytes, "tEXt", std::string("Comment\0", 8) + std::string(kComment));
    chunk(bytes, "eXIf", kExif.substr(6));
    chunk(bytes, "tIME", std::string_view("\x07\xEA\x0B\x1A\x08\x00\x00", 7));
    chunk(bytes, "prVt", kProfile);
    bytes.insert(bytes.end(), png.begin() + kHead, png.end());
    append(bytes, kArchive);
    return bytes;
}

bool holds(const Bytes& bytes, std::string_view words)
{
    return std::search(bytes.begin(), bytes.end(), words.begin(), words.end(),
                       [](std::uint8_t a, char b) { return a == static_cast<std::uint8_t>(b); }) != bytes.end();
}

Bytes progressive(const Picture& picture, int scans)
{
    const std::vector<jpeg_scan_info> all = manyScans();
    Compressor compressor;
    compressor.begin(picture.width, picture.height, 3, JCS_RGB);
    if (scans > 0) {
        compressor.jpeg.scan_info = all.data();
        compressor.jpeg.num_scans = std::min(scans, static_cast<int>(all.size()));
    } else {
        jpeg_simple_progression(&compressor.jpeg);
    }
    return compressor.finish(picture.rgb);
}

Bytes interlaced(const Picture& picture)
{
    return pngOf(picture, PNG_INTERLACE_ADAM7);
}

Bytes jpegThatSaysItIs(int width, int height)
{
    Bytes bytes = writeJpeg(motley(32, 32), 85);
    constexpr std::uint8_t kFrame[] = {0xFF, 0xC0};
    const auto frame = std::search(bytes.begin(), bytes.end(), std::begin(kFrame), std::end(kFrame));
    frame[5] = static_cast<std::uint8_t>(height >> 8);
    frame[6] = static_cast<std::uint8_t>(height);
    frame[7] = static_cast<std::uint8_t>(width >> 8);
    frame[8] = static_cast<std::uint8_t>(width);
    return bytes;
}

Bytes pngThatSaysItIs(int width, int height)
{
    const Bytes real = writePng(motley(32, 32));
    Bytes head;
    number(head, static_cast<std::uint32_t>(width));
    number(head, static_cast<std::uint32_t>(height));
    append(head, std::string_view("\x08\x02\0\0\0", 5));
    Bytes bytes(real.begin(), real.begin() + 8);
    chunk(bytes, "IHDR", {reinterpret_cast<const char*>(head.data()), head.size()});
    bytes.insert(bytes.end(), real.begin() + 8 + 25, real.end());
    return bytes;
}

Bytes plainPng(int width, int height)
{
    return pngOf({width, height,
                  Bytes(std::size_t{3} * static_cast<std::size_t>(width) * static_cast<std::size_t>(height), 200)},
                 PNG_INTERLACE_NONE);
}

Bytes fourInks(int width, int height)
{
    Compressor compressor;
    compressor.begin(width, height, 4, JCS_CMYK);
    return compressor.finish(
        Bytes(std::size_t{4} * static_cast<std::size_t>(width) * static_cast<std::size_t>(height), 60));
}

} // namespace vh::photos
