// JPEG by libjpeg-turbo. Its errors come by longjmp: between setjmp and the end of a function nothing is built that
// would have to be destroyed; what is needed lives in the structs outside.
#include "server/photos/remake.h"

#include <csetjmp>
#include <cstdio>

#include <jpeglib.h>

#include <jerror.h>

namespace vh::photos
{

namespace
{

struct Fault {
    jpeg_error_mgr manager; ///< first: the library knows this address only
    std::jmp_buf back;
    bool endedEarly = false;
    bool tooManyScans = false;
};

[[noreturn]] void stop(j_common_ptr common)
{
    std::longjmp(reinterpret_cast<Fault*>(common->err)->back, 1);
}

/// Warnings. A file that ends too early is one, and its rest would come out grey: that is no picture to show.
void warned(j_common_ptr common, int level)
{
    if (level >= 0)
        return;
    auto* fault = reinterpret_cast<Fault*>(common->err);
    ++fault->manager.num_warnings;
    if (fault->manager.msg_code == JWRN_JPEG_EOF || fault->manager.msg_code == JWRN_HIT_MARKER) {
        fault->endedEarly = true;
        stop(common);
    }
}

void silent(j_common_ptr) {}

struct Progress {
    jpeg_progress_mgr manager; ///< first
    Fault* fault;
};

/// Each pass over a progressive picture takes as long as the whole: a small file may ask for a thousand.
void countScans(j_common_ptr common)
{
    auto* progress = reinterpret_cast<Progress*>(common->progress);
    if (reinterpret_cast<j_decompress_ptr>(common)->input_scan_number > kMostScans) {
        progress->fault->tooManyScans = true;
        stop(common);
    }
}

struct Reading {
    jpeg_decompress_struct jpeg{};
    Fault fault{};
    Progress progress{};
    std::vector<std::uint8_t> row;
    std::optional<RowScaler> scaler;
    std::optional<Error> refused;

    Reading()
    {
        jpeg.err = jpeg_std_error(&fault.manager);
        fault.manager.error_exit = stop;
        fault.manager.emit_message = warned;
        fault.manager.output_message = silent;
        progress.manager.progress_monitor = countScans;
        progress.fault = &fault;
    }
    ~Reading() { jpeg_destroy_decompress(&jpeg); }
    Reading(const Reading&) = delete;
    Reading& operator=(const Reading&) = delete;

    bool run(std::span<const std::uint8_t> bytes);
    void look();
    void prepare();
};

/// What the header says, before anything is taken for it.
void Reading::look()
{
    const std::int64_t width = jpeg.image_width;
    const std::int64_t height = jpeg.image_height;
    if (width < 1 || height < 1)
        refused = damaged();
    else if (width > kMostEdgeIn || height > kMostEdgeIn || width * height > kMostPixelsIn)
        refused = tooLarge();
    else if (jpeg.num_components != 1 && jpeg.num_components != 3)
        refused =
            Error{"picture-for-print", "This picture was made for a printer. Please save it as an ordinary JPEG.", {}};
    if (refused || jpeg_has_multiple_scans(&jpeg) == 0)
        return;
    // Held whole until the last scan: two bytes for each sample of each component.
    std::int64_t held = 0;
    for (int i = 0; i < jpeg.num_components; ++i) {
        const auto& part = jpeg.comp_info[i];
        const std::int64_t across = (width * part.h_samp_factor / jpeg.max_h_samp_factor + 16) * 2;
        held += across * (height * part.v_samp_factor / jpeg.max_v_samp_factor + 16);
    }
    if (held > kMostHeldBytes)
        refused = tooLarge();
}

void Reading::prepare()
{
    jpeg.out_color_space = JCS_RGB;
    const auto longest = static_cast<int>(std::max(jpeg.image_width, jpeg.image_height));
    jpeg.scale_num = 1;
    jpeg.scale_denom = longest >= 8 * kEdge ? 8 : longest >= 4 * kEdge ? 4 : longest >= 2 * kEdge ? 2 : 1;
    jpeg_calc_output_dimensions(&jpeg);
    const Size size{static_cast<int>(jpeg.output_width), static_cast<int>(jpeg.output_height)};
    scaler.emplace(size, within(size, kEdge));
    row.resize(static_cast<std::size_t>(jpeg.output_width) * 3);
}

bool Reading::run(std::span<const std::uint8_t> bytes)
{
    if (setjmp(fault.back) != 0) // NOLINT(cert-err52-cpp): the library's only way
        return false;
    jpeg_create_decompress(&jpeg);
    jpeg.progress = &progress.manager;
    jpeg_mem_src(&jpeg, bytes.data(), bytes.size());
    if (jpeg_read_header(&jpeg, TRUE) != JPEG_HEADER_OK)
        return false;
    look();
    if (refused)
        return false;
    prepare();
    jpeg_start_decompress(&jpeg);
    while (jpeg.output_scanline < jpeg.output_height) {
        JSAMPROW line = row.data();
        jpeg_read_scanlines(&jpeg, &line, 1);
        scaler->push(row);
    }
    jpeg_finish_decompress(&jpeg);
    return true;
}

struct Writing {
    jpeg_compress_struct jpeg{};
    Fault fault{};
    unsigned char* bytes = nullptr;
    unsigned long size = 0;

    Writing()
    {
        jpeg.err = jpeg_std_error(&fault.manager);
        fault.manager.error_exit = stop;
        fault.manager.output_message = silent;
    }
    ~Writing()
    {
        jpeg_destroy_compress(&jpeg);
        std::free(bytes); // NOLINT: as jpeg_mem_dest() took it
    }
    Writing(const Writing&) = delete;
    Writing& operator=(const Writing&) = delete;

    bool run(const Picture& picture, int quality);
};

bool Writing::run(const Picture& picture, int quality)
{
    if (setjmp(fault.back) != 0) // NOLINT(cert-err52-cpp)
        return false;
    jpeg_create_compress(&jpeg);
    jpeg_mem_dest(&jpeg, &bytes, &size);
    jpeg.image_width = static_cast<JDIMENSION>(picture.width);
    jpeg.image_height = static_cast<JDIMENSION>(picture.height);
    jpeg.input_components = 3;
    jpeg.in_color_space = JCS_RGB;
    jpeg_set_defaults(&jpeg);
    jpeg_set_quality(&jpeg, quality, TRUE);
    jpeg_start_compress(&jpeg, TRUE);
    while (jpeg.next_scanline < jpeg.image_height) {
        const std::size_t at = static_cast<std::size_t>(jpeg.next_scanline) * jpeg.image_width * 3;
        JSAMPROW line = const_cast<JSAMPROW>(picture.rgb.data() + at); // the library's interface; it only reads
        jpeg_write_scanlines(&jpeg, &line, 1);
    }
    jpeg_finish_compress(&jpeg);
    return true;
}

} // namespace

Result<Picture> readJpeg(std::span<const std::uint8_t> bytes)
{
    Reading reading;
    if (reading.run(bytes))
        return reading.scaler->take();
    if (reading.refused)
        return tl::unexpected<Error>(*reading.refused);
    if (reading.fault.tooManyScans)
        return tl::unexpected<Error>(tooLarge());
    const bool noEnd = reading.fault.endedEarly || reading.fault.manager.msg_code == JERR_INPUT_EOF;
    return tl::unexpected<Error>(noEnd ? cutShort() : damaged());
}

std::vector<std::uint8_t> writeJpeg(const Picture& picture, int quality)
{
    Writing writing;
    if (!writing.run(picture, quality))
        return {};
    return {writing.bytes, writing.bytes + writing.size};
}

} // namespace vh::photos
