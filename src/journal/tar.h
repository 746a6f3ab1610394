// Several files in one, as POSIX.1-1988 (ustar) lays them out: any tar unpacks it.
#pragma once

#include <cstdint>
#include <filesystem>
#include <fstream>
#include <optional>
#include <string>

namespace loafmark::journal {

// Throws Error that names the file that could not be read or written.
class TarWriter {
  public:
    explicit TarWriter(const std::filesystem::path& file);

    // Adds a file's content under `name` (at most 100 bytes); its SHA-256 in hexadecimal.
    std::string add(const std::string& name, const std::filesystem::path& content);
    void add_text(const std::string& name, const std::string& content);
    // The end of the archive, flushed to disk.
    void finish();

  private:
    void header(const std::string& name, std::uintmax_t size);
    void fill_block(std::uintmax_t size);
    void check() const;

    std::filesystem::path file_;
    std::ofstream out_;
};

// Throws Error where the file is no tar, or is cut short or damaged.
class TarReader {
  public:
    explicit TarReader(const std::filesystem::path& file);

    // The next entry's name; nothing at the end. What was not extracted of the one before is passed
    // over.
    [[nodiscard]] std::optional<std::string> next();
    // Its content into a new file; the SHA-256 in hexadecimal.
    std::string extract(const std::filesystem::path& to);
    [[nodiscard]] std::string text();

  private:
    template <class Take>
    void content(Take take);
    [[noreturn]] void cut_short() const;

    std::filesystem::path file_;
    std::ifstream in_;
    std::uintmax_t left_ = 0;  // of the content, and of the blanks behind it
    std::uintmax_t blanks_ = 0;
};

}  // namespace loafmark::journal
