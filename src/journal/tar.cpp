#include "journal/tar.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdio>
#include <numeric>
#include <span>
#include <string_view>

#include "journal/durable_files.h"
#include "journal/error.h"
#include "journal/sha256.h"

namespace loafmark::journal {
namespace {

constexpr std::size_t block = 512;
constexpr std::size_t at_once = 1 << 16;
using Block = std::array<char, block>;

// Places in a header block: IEEE Std 1003.1, pax, "ustar Interchange Format".
struct Field {
    std::size_t at;
    std::size_t size;
};
constexpr Field name_field{0, 100}, mode_field{100, 8}, owner_field{108, 8}, group_field{116, 8},
    size_field{124, 12}, time_field{136, 12}, sum_field{148, 8}, kind_field{156, 1},
    magic_field{257, 6}, version_field{263, 2};

void put(Block& header, Field field, std::string_view text) {
    std::copy_n(text.begin(), std::min(text.size(), field.size),
                header.begin() + static_cast<std::ptrdiff_t>(field.at));
}

void put_octal(Block& header, Field field, std::uintmax_t number) {
    std::array<char, 24> text{};
    std::snprintf(text.data(), text.size(), "%0*jo", static_cast<int>(field.size) - 1, number);
    put(header, field, text.data());
}

std::uintmax_t sum_of(Block header) {
    std::fill_n(header.begin() + static_cast<std::ptrdiff_t>(sum_field.at), sum_field.size, ' ');
    return std::accumulate(
        header.begin(), header.end(), std::uintmax_t{0},
        [](std::uintmax_t sum, char c) { return sum + static_cast<unsigned char>(c); });
}

std::optional<std::uintmax_t> octal(const Block& header, Field field) {
    const char* begin = header.data() + field.at;
    const char* const end = begin + field.size;
    while (begin != end && *begin == ' ')
        ++begin;
    std::uintmax_t number = 0;
    const auto [stop, error] = std::from_chars(begin, end, number, 8);
    if (error != std::errc()) return std::nullopt;
    return number;
}

std::uintmax_t blanks_behind(std::uintmax_t size) {
    return (block - size % block) % block;
}

}  // namespace

TarWriter::TarWriter(const std::filesystem::path& file)
    : file_(file), out_(file, std::ios::binary | std::ios::trunc) {
    check();
}

void TarWriter::check() const {
    if (!out_) throw Error(file_.string() + " cannot be written; is there room on the disk?");
}

void TarWriter::header(const std::string& name, std::uintmax_t size) {
    if (name.size() > name_field.size) throw Error("the name " + name + " is too long for a tar");
    if (size > 077777777777) throw Error(name + " is larger than a tar can hold (8 GB)");
    Block header{};
    put(header, name_field, name);
    put_octal(header, mode_field, 0644);
    put_octal(header, owner_field, 0);
    put_octal(header, group_field, 0);
    put_octal(header, size_field, size);
    put_octal(header, time_field, 0);
    put(header, kind_field, "0");
    put(header, magic_field, std::string_view("ustar\0", 6));
    put(header, version_field, "00");
    std::array<char, 8> sum{};
    std::snprintf(sum.data(), sum.size(), "%06jo", sum_of(header));
    put(header, sum_field, std::string_view(sum.data(), 7));
    header[sum_field.at + 7] = ' ';
    out_.write(header.data(), block);
}

void TarWriter::fill_block(std::uintmax_t size) {
    const Block zeros{};
    out_.write(zeros.data(), static_cast<std::streamsize>(blanks_behind(size)));
    check();
}

std::string TarWriter::add(const std::string& name, const std::filesystem::path& content) {
    std::ifstream in(content, std::ios::binary);
    std::error_code failure;
    const std::uintmax_t size = std::filesystem::file_size(content, failure);
    if (!in || failure) throw Error(content.string() + " cannot be read");
    header(name, size);
    Sha256 sha;
    std::array<char, at_once> buffer{};
    std::uintmax_t copied = 0;
    while (in.read(buffer.data(), buffer.size()), in.gcount() > 0) {
        const auto count = static_cast<std::size_t>(in.gcount());
        sha.add(std::span<const char>(buffer.data(), count));
        out_.write(buffer.data(), in.gcount());
        copied += count;
        check();
    }
    if (copied != size) throw Error(content.string() + " changed while it was read");
    fill_block(size);
    return sha.hex_digest();
}

void TarWriter::add_text(const std::string& name, const std::string& content) {
    header(name, content.size());
    out_.write(content.data(), static_cast<std::streamsize>(content.size()));
    fill_block(content.size());
}

void TarWriter::finish() {
    const Block zeros{};
    out_.write(zeros.data(), block);
    out_.write(zeros.data(), block);
    out_.close();
    check();
    flush_file(file_);
}

TarReader::TarReader(const std::filesystem::path& file) : file_(file), in_(file, std::ios::binary) {
    if (!in_ || std::filesystem::is_directory(file)) throw Error(file.string() + " cannot be read");
}

void TarReader::cut_short() const {
    throw Error(file_.string() + " is cut short or damaged");
}

std::optional<std::string> TarReader::next() {
    content([](std::span<const char>) {});
    Block header{};
    if (!in_.read(header.data(), block)) cut_short();
    if (std::ranges::all_of(header, [](char c) { return c == 0; })) return std::nullopt;
    const auto size = octal(header, size_field);
    if (octal(header, sum_field) != sum_of(header) || !size) cut_short();
    left_ = *size;
    blanks_ = blanks_behind(*size);
    const char* const name = header.data() + name_field.at;
    return std::string(name, std::find(name, name + name_field.size, '\0'));
}

template <class Take>
void TarReader::content(Take take) {
    std::array<char, at_once> buffer{};
    while (left_ > 0) {
        const std::size_t wanted = std::min<std::uintmax_t>(left_, buffer.size());
        if (!in_.read(buffer.data(), static_cast<std::streamsize>(wanted))) cut_short();
        take(std::span<const char>(buffer.data(), wanted));
        left_ -= wanted;
    }
    if (blanks_ > 0 && !in_.read(buffer.data(), static_cast<std::streamsize>(blanks_))) cut_short();
    blanks_ = 0;
}

std::string TarReader::extract(const std::filesystem::path& to) {
    std::filesystem::create_directories(to.parent_path());
    std::ofstream out(to, std::ios::binary | std::ios::trunc);
    Sha256 sha;
    content([&](std::span<const char> bytes) {
        sha.add(bytes);
        out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    });
    out.close();
    if (!out) throw Error(to.string() + " cannot be written; is there room on the disk?");
    flush_file(to);
    return sha.hex_digest();
}

std::string TarReader::text() {
    std::string all;
    content([&](std::span<const char> bytes) { all.append(bytes.data(), bytes.size()); });
    return all;
}

}  // namespace loafmark::journal
