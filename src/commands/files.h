#pragma once

#include <cstdint>
#include <filesystem>
#include <span>
#include <string>
#include <string_view>

namespace loafmark::commands {

// Writes the whole file or leaves what stood there: a temporary file beside it, flushed to disk,
// then renamed. Throws Failure that names the file.
void write_file(const std::filesystem::path& file, std::string_view text);
void write_file(const std::filesystem::path& file, std::span<const std::uint8_t> bytes);

// Makes the folder and those above it. Throws Failure that names it.
void make_folder(const std::filesystem::path& folder);

// The whole file as bytes. Throws Failure that names it.
[[nodiscard]] std::string read_file(const std::filesystem::path& file);

}  // namespace loafmark::commands
