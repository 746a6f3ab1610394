// Files that are on disk when a function returns: the photos' half of a durable journal.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

namespace loafmark::journal {

struct CopiedFile {
    std::string hash;  // SHA-256 of the content, lower-case hexadecimal
    std::uintmax_t size_bytes = 0;
};

// Copies the content and flushes it to disk; `to` must not exist. Throws Error that names the file;
// then `to` does not stay behind.
CopiedFile copy_durably(const std::filesystem::path& from, const std::filesystem::path& to);

// The SHA-256 of a file's content, as CopiedFile's. Throws Error.
[[nodiscard]] std::string sha256_of(const std::filesystem::path& file);

// An empty file, flushed with the folder it lies in.
void write_note(const std::filesystem::path& note);

// Flushes a file that was written by other means.
void flush_file(const std::filesystem::path& file);

// Renames, in place of what may lie there, and flushes both folders.
void move_durably(const std::filesystem::path& from, const std::filesystem::path& to);

}  // namespace loafmark::journal
