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

// An empty file, flushed with the folder it lies in.
void write_note(const std::filesystem::path& note);

// Renames, in place of what may lie there, and flushes both folders.
void move_durably(const std::filesystem::path& from, const std::filesystem::path& to);

}  // namespace loafmark::journal
