#include "commands/files.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <fstream>
#include <iterator>
#include <system_error>

#include "commands/failure.h"

namespace loafmark::commands {
namespace {

std::string reason(int error) {
    return std::generic_category().message(error);
}

// A file being written; removed again unless it was put in place.
class TemporaryFile {
  public:
    explicit TemporaryFile(const std::filesystem::path& target)
        : target_(target), path_(target.string() + "." + std::to_string(::getpid()) + ".part") {
        descriptor_ = ::open(path_.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
        if (descriptor_ < 0) fail();
    }
    TemporaryFile(const TemporaryFile&) = delete;
    TemporaryFile& operator=(const TemporaryFile&) = delete;
    ~TemporaryFile() {
        if (descriptor_ >= 0) ::close(descriptor_);
        if (!in_place_) ::unlink(path_.c_str());
    }

    void write(std::string_view text) {
        while (!text.empty()) {
            const ::ssize_t written = ::write(descriptor_, text.data(), text.size());
            if (written < 0 && errno == EINTR) continue;
            if (written < 0) fail();
            text.remove_prefix(static_cast<std::size_t>(written));
        }
    }

    void put_in_place() {
        if (::fsync(descriptor_) != 0 && errno != EINVAL) fail();
        if (::rename(path_.c_str(), target_.c_str()) != 0) fail();
        in_place_ = true;
    }

  private:
    [[noreturn]] void fail() const {
        throw Failure("cannot write " + target_.string() + " (" + reason(errno) + ")",
                      "choose a folder that exists and may be written to");
    }

    std::filesystem::path target_;
    std::string path_;
    int descriptor_ = -1;
    bool in_place_ = false;
};

// Pipes and devices, /dev/stdout above all, are written to, never replaced.
bool is_special(const std::filesystem::path& file) {
    std::error_code ignored;
    const auto status = std::filesystem::status(file, ignored);
    return std::filesystem::exists(status) && !std::filesystem::is_regular_file(status) &&
           !std::filesystem::is_directory(status);
}

}  // namespace

void write_file(const std::filesystem::path& file, std::string_view text) {
    if (is_special(file)) {
        std::ofstream stream(file, std::ios::binary);
        if (!(stream << text << std::flush))
            throw Failure("cannot write " + file.string(), "choose another file");
        return;
    }
    TemporaryFile temporary(file);
    temporary.write(text);
    temporary.put_in_place();
}

void write_file(const std::filesystem::path& file, std::span<const std::uint8_t> bytes) {
    write_file(file, std::string_view(reinterpret_cast<const char*>(bytes.data()), bytes.size()));
}

void make_folder(const std::filesystem::path& folder) {
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (!error && !std::filesystem::is_directory(folder))
        error = std::make_error_code(std::errc::not_a_directory);
    if (error)
        throw Failure("cannot make the folder " + folder.string() + " (" + error.message() + ")",
                      "choose a folder that may be written to");
}

std::string read_file(const std::filesystem::path& file) {
    std::ifstream stream(file, std::ios::binary);
    std::string text(std::istreambuf_iterator<char>(stream), {});
    if (!stream)
        throw Failure("cannot read " + file.string() + " (" + reason(errno) + ")",
                      "check the file's name and whether you may read it");
    return text;
}

}  // namespace loafmark::commands
