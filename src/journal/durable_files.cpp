#include "journal/durable_files.h"

#include <fcntl.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <fstream>
#include <span>
#include <system_error>

#include "journal/error.h"
#include "journal/sha256.h"

namespace loafmark::journal {
namespace {

[[noreturn]] void fail(const std::filesystem::path& file, const std::string& what, int code) {
    throw Error(file.string() + " cannot be " + what + ": " +
                std::generic_category().message(code));
}

// A file descriptor that closes itself.
class Descriptor {
  public:
    Descriptor(const std::filesystem::path& file, int flags)
        : file_(file), number_(::open(file.c_str(), flags | O_CLOEXEC, 0666)) {
        if (number_ < 0) fail(file_, "opened", errno);
    }
    ~Descriptor() { ::close(number_); }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;

    // As many bytes as there are, up to the buffer's size; none at the end.
    [[nodiscard]] std::span<const char> read(std::span<char> buffer) const {
        for (;;) {
            const ssize_t count = ::read(number_, buffer.data(), buffer.size());
            if (count >= 0) return buffer.first(static_cast<std::size_t>(count));
            if (errno != EINTR) fail(file_, "read", errno);
        }
    }
    void write(std::span<const char> bytes) const {
        while (!bytes.empty()) {
            const ssize_t count = ::write(number_, bytes.data(), bytes.size());
            if (count < 0 && errno != EINTR) fail(file_, "written", errno);
            if (count > 0) bytes = bytes.subspan(static_cast<std::size_t>(count));
        }
    }
    void flush() const {
        // EINVAL: a file system that cannot flush this kind of file.
        if (::fsync(number_) != 0 && errno != EINVAL) fail(file_, "written", errno);
    }

  private:
    std::filesystem::path file_;
    int number_;
};

void flush_folder(const std::filesystem::path& folder) {
    // The parent of a bare name is no name: the folder one stands in.
    Descriptor(folder.empty() ? "." : folder, O_RDONLY | O_DIRECTORY).flush();
}

CopiedFile copy_and_flush(const Descriptor& source, const std::filesystem::path& to) {
    const Descriptor target(to, O_WRONLY | O_CREAT | O_EXCL);
    Sha256 sha;
    CopiedFile copied;
    std::array<char, 1 << 16> buffer{};
    for (auto bytes = source.read(buffer); !bytes.empty(); bytes = source.read(buffer)) {
        sha.add(bytes);
        target.write(bytes);
        copied.size_bytes += bytes.size();
    }
    target.flush();
    copied.hash = sha.hex_digest();
    return copied;
}

}  // namespace

CopiedFile copy_durably(const std::filesystem::path& from, const std::filesystem::path& to) {
    std::error_code unseen;
    if (std::filesystem::is_directory(from, unseen)) fail(from, "read", EISDIR);
    const Descriptor source(from, O_RDONLY);
    try {
        return copy_and_flush(source, to);
    } catch (...) {
        std::error_code ignored;
        std::filesystem::remove(to, ignored);
        throw;
    }
}

std::string sha256_of(const std::filesystem::path& file) {
    const Descriptor source(file, O_RDONLY);
    Sha256 sha;
    std::array<char, 1 << 16> buffer{};
    for (auto bytes = source.read(buffer); !bytes.empty(); bytes = source.read(buffer))
        sha.add(bytes);
    return sha.hex_digest();
}

void write_note(const std::filesystem::path& note) {
    Descriptor(note, O_WRONLY | O_CREAT).flush();
    flush_folder(note.parent_path());
}

void flush_file(const std::filesystem::path& file) {
    Descriptor(file, O_RDONLY).flush();
}

void move_durably(const std::filesystem::path& from, const std::filesystem::path& to) {
    std::error_code failure;
    std::filesystem::create_directories(to.parent_path(), failure);
    if (!failure) std::filesystem::rename(from, to, failure);
    if (failure) fail(to, "written", failure.value());
    flush_folder(to.parent_path());
    flush_folder(from.parent_path());
}

}  // namespace loafmark::journal
