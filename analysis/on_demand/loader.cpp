// The functions of analysis/measure.h for a program that seldom measures: they open the module when
// first called, so that looking up a bake does not wait for OpenCV (docs/decisions/0001).
#include <dlfcn.h>

#include <stdexcept>

#include "engine.h"

namespace loafmark::analysis {
namespace {

const Engine& opened() {
    // Found beside the program, or where its run path says. It stays open until the program ends.
    void* module = ::dlopen(LOAFMARK_ANALYSIS_MODULE, RTLD_NOW | RTLD_LOCAL);
    if (!module)
        throw std::runtime_error(std::string("the analysis cannot be loaded (") + ::dlerror() +
                                 "); build or install Loafmark again");
    const auto function = reinterpret_cast<EngineFunction>(::dlsym(module, engine_symbol));
    if (!function)
        throw std::runtime_error(std::string(LOAFMARK_ANALYSIS_MODULE) +
                                 " is not the analysis; build or install Loafmark again");
    return function();
}

const Engine& engine() {
    static const Engine& once = opened();
    return once;
}

}  // namespace

void MeasureOptions::check() const {
    engine().check(*this);
}

std::string analysis_version() {
    return engine().version();
}

Measurement measure_photo(const std::filesystem::path& photo, const MeasureOptions& options) {
    return engine().measure(photo, options);
}

std::vector<std::uint8_t> encode_jpeg(const Picture& picture, int quality) {
    return engine().jpeg(picture, quality);
}

std::vector<std::uint8_t> encode_png(const Picture& picture) {
    return engine().png(picture);
}

std::vector<std::uint8_t> encode_png(const LabelMap& map) {
    return engine().map_png(map);
}

Picture picture_of_jpeg(std::span<const std::uint8_t> file, int shrink) {
    return engine().from_jpeg(file, shrink);
}

}  // namespace loafmark::analysis
