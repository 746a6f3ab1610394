#include "commands/progress.h"

#include <ostream>

namespace loafmark::commands {
namespace {
constexpr std::size_t bar_width = 24;
}

Progress::Progress(std::ostream& err, bool is_terminal, std::string what, std::size_t total)
    : err_(err), shown_(is_terminal && total > 0), what_(std::move(what)), total_(total) {
    draw();
}

Progress::~Progress() {
    wipe();
}

void Progress::step() {
    ++done_;
    draw();
}

void Progress::wipe() {
    if (shown_) err_ << "\r\033[K" << std::flush;
}

void Progress::draw() {
    if (!shown_) return;
    const std::size_t filled = bar_width * done_ / total_;
    err_ << "\r\033[K" << what_ << " [" << std::string(filled, '#')
         << std::string(bar_width - filled, '.') << "] " << done_ << " of " << total_ << std::flush;
}

}  // namespace loafmark::commands
