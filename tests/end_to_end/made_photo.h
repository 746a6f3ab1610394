// Simple photos drawn by the tests: slices with round cells, seen from straight above. They show
// that the program works from end to end; how well it measures is judged on phantoms.
#pragma once

#include <filesystem>
#include <string>

namespace loafmark::end_to_end {

// On the A4 mat, at 5 pixels a millimetre. `slices` next to each other, 0 to 2. `shade` makes
// photos of different content.
void write_mat_photo(const std::filesystem::path& file, int slices = 1, int shade = 0);

// One slice on a dark board, without a target.
void write_photo_without_scale(const std::filesystem::path& file);

// The beginning of a PNG of that size, without its pixels.
[[nodiscard]] std::string png_beginning(unsigned width, unsigned height);

}  // namespace loafmark::end_to_end
