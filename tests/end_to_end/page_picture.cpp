// Takes the picture of a report that README.md shows: its shelf and its crumb map, as a JPEG.
//   loafmark-page-picture REPORT.html FILE.jpg
#include <algorithm>
#include <fstream>
#include <iostream>

#include "browser.h"

namespace {

using loafmark::end_to_end::Browser;
using loafmark::end_to_end::Clip;

constexpr int width = 1100;
constexpr std::size_t most_bytes = 300'000;

void take(const std::string& report, const std::string& file) {
    const auto program = Browser::program();
    if (!program) throw std::runtime_error("no chromium on the PATH (apt-get install chromium)");
    Browser browser(*program);
    browser.set_window(width, 900);
    browser.open("file://" + std::filesystem::absolute(report).string());
    // What lies between the shelf and the map, and below it, is put out of sight: the shelf shows
    // pictures that stand there.
    (void)browser.evaluate(
        "for (const id of ['questions', 'trends', 'steady', 'trials', 'bakes', 'flours']) {"
        "  const section = document.getElementById(id)?.closest('section');"
        "  if (section) section.style.cssText = 'position:absolute;left:-9999px;top:0;width:900px;"
        "height:9px;overflow:hidden'; }"
        "document.querySelectorAll('footer, details, nav, .order').forEach(d => d.remove());"
        "document.querySelector('.map svg').style.maxWidth = '29rem';"
        "document.body.style.paddingBottom = '1rem'; 0");
    const double height = browser.evaluate("document.body.scrollHeight");
    for (int quality = 88; quality >= 40; quality -= 6) {
        const auto bytes = browser.jpeg({0, 0, width, height}, 1, quality);
        if (bytes.size() > most_bytes) continue;
        std::ofstream(file, std::ios::binary)
            .write(reinterpret_cast<const char*>(bytes.data()),
                   static_cast<std::streamsize>(bytes.size()));
        return;
    }
    throw std::runtime_error("the picture does not become small enough");
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 3) {
        std::cerr << "loafmark-page-picture REPORT.html FILE.jpg\n";
        return 2;
    }
    try {
        take(argv[1], argv[2]);
    } catch (const std::exception& error) {
        std::cerr << "loafmark-page-picture: " << error.what() << "\n";
        return 1;
    }
}
