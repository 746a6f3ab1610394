#include <csetjmp>
#include <cstdio>
#include <stdexcept>
#include <string_view>

#include <jpeglib.h>

#include <jerror.h>

#include "analysis/measure.h"
#include "codecs.h"
#include "pictures.h"

namespace loafmark::analysis {
namespace {

// libjpeg reports errors through callbacks that must not return; this one jumps back to the
// decoder.
struct JumpingErrors {
    jpeg_error_mgr manager;
    std::jmp_buf back;
    char message[JMSG_LENGTH_MAX];
};

void jump_out(j_common_ptr info) {
    auto* errors = reinterpret_cast<JumpingErrors*>(info->err);
    info->err->format_message(info, errors->message);
    std::longjmp(errors->back, 1);
}

// Coded bytes that are left when the picture is full. Some cameras pad; more than this means that
// what came before was not what the camera wrote. (A wrong code by itself passes unseen:
// libjpeg-turbo takes it for a zero.)
constexpr int most_padding = 128;

bool harmless(const jpeg_decompress_struct& info) {
    const bool in_pixels = info.input_scan_number > 0;
    switch (info.err->msg_code) {
        case JWRN_EXTRANEOUS_DATA:
            return !in_pixels || info.err->msg_parm.i[0] <= most_padding;
        case JWRN_ADOBE_XFORM:
        case JWRN_BOGUS_PROGRESSION:
            return true;
        default:
            return false;
    }
}

// A truncated or broken scan only warns in libjpeg, which then fills the rest with grey: a
// full-size picture of half a loaf. Such warnings end the decoding; stray bytes between segments,
// which some cameras write, do not.
void fail_on_damage(j_common_ptr info, int level) {
    if (level >= 0) return;
    if (!harmless(*reinterpret_cast<j_decompress_ptr>(info))) jump_out(info);
}

std::vector<std::uint8_t> exif_of(const jpeg_decompress_struct& info) {
    constexpr std::string_view header("Exif\0\0", 6);
    for (const jpeg_marker_struct* m = info.marker_list; m; m = m->next) {
        const std::string_view data(reinterpret_cast<const char*>(m->data), m->data_length);
        if (m->marker == JPEG_APP0 + 1 && data.starts_with(header))
            return {m->data, m->data + m->data_length};
    }
    return {};
}

// Returns false with errors.message set. All objects with destructors live in the caller: a longjmp
// over them would be undefined.
enum class Step { header, pixels };
bool run(jpeg_decompress_struct& info, JumpingErrors& errors, Bytes file, Step step, cv::Mat* rgb) {
    if (setjmp(errors.back)) return false;
    if (step == Step::header) {
        jpeg_mem_src(&info, file.data(), file.size());
        jpeg_save_markers(&info, JPEG_APP0 + 1, 0xFFFF);
        jpeg_read_header(&info, TRUE);
        return true;
    }
    info.out_color_space = JCS_RGB;
    jpeg_start_decompress(&info);
    while (info.output_scanline < info.output_height) {
        JSAMPROW row = rgb->ptr(static_cast<int>(info.output_scanline));
        jpeg_read_scanlines(&info, &row, 1);
    }
    jpeg_finish_decompress(&info);
    return true;
}

struct Decoder {
    jpeg_decompress_struct info{};
    JumpingErrors errors{};

    Decoder() {
        info.err = jpeg_std_error(&errors.manager);
        errors.manager.error_exit = jump_out;
        errors.manager.emit_message = fail_on_damage;
        jpeg_create_decompress(&info);
    }
    ~Decoder() { jpeg_destroy_decompress(&info); }
    Decoder(const Decoder&) = delete;
    Decoder& operator=(const Decoder&) = delete;

    [[noreturn]] void fail(const std::string& remedy) const {
        throw DecodeFailure{"is a damaged JPEG (" + std::string(errors.message) + ")", remedy};
    }
};

}  // namespace

DecodedPicture decode_jpeg(Bytes file, unsigned shrink) {
    const std::string remedy = "copy it from the phone again, or take a new photo";
    Decoder decoder;
    if (!run(decoder.info, decoder.errors, file, Step::header, nullptr)) decoder.fail(remedy);
    check_size(decoder.info.image_width, decoder.info.image_height);
    if (decoder.info.jpeg_color_space == JCS_CMYK || decoder.info.jpeg_color_space == JCS_YCCK)
        throw DecodeFailure{"is a JPEG for print (CMYK)", "save it as an ordinary RGB JPEG"};
    DecodedPicture picture;
    picture.exif = exif_of(decoder.info);
    decoder.info.scale_num = 1;
    decoder.info.scale_denom = shrink;
    jpeg_calc_output_dimensions(&decoder.info);
    picture.rgb.create(static_cast<int>(decoder.info.output_height),
                       static_cast<int>(decoder.info.output_width), CV_8UC3);
    if (!run(decoder.info, decoder.errors, file, Step::pixels, &picture.rgb)) decoder.fail(remedy);
    return picture;
}

Picture picture_of_jpeg(std::span<const std::uint8_t> file, int shrink) {
    if (shrink != 1 && shrink != 2 && shrink != 4 && shrink != 8)
        throw std::invalid_argument("a JPEG is shrunk by 1, 2, 4 or 8");
    try {
        return picture_of(decode_jpeg(file, static_cast<unsigned>(shrink)).rgb);
    } catch (const DecodeFailure& failure) {
        throw Error("a kept picture " + failure.what, "measure its slice again");
    }
}

}  // namespace loafmark::analysis
