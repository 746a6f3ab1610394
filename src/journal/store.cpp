#include "journal/store.h"

#include <array>
#include <cstdio>
#include <ctime>
#include <random>

namespace loafmark::journal {
namespace {

std::string system_now() {
    const std::time_t now = std::time(nullptr);
    std::tm utc{};
    gmtime_r(&now, &utc);
    std::array<char, 32> text{};
    const std::size_t length = std::strftime(text.data(), text.size(), "%Y-%m-%dT%H:%M:%SZ", &utc);
    return {text.data(), length};
}

std::uint64_t system_random() {
    std::random_device device;
    return (std::uint64_t{device()} << 32) | device();
}

}  // namespace

std::string Store::now() const {
    return environment_.now_utc ? environment_.now_utc() : system_now();
}

std::string Store::new_uid() const {
    const auto draw = [&] {
        return environment_.random_number ? environment_.random_number() : system_random();
    };
    // Version 4 and variant 10 in their places, all other bits random.
    const std::uint64_t high = (draw() & 0xFFFFFFFFFFFF0FFF) | 0x4000;
    const std::uint64_t low = (draw() & 0x3FFFFFFFFFFFFFFF) | 0x8000000000000000;
    std::array<char, 40> text{};
    const int length = std::snprintf(
        text.data(), text.size(), "%08llx-%04llx-%04llx-%04llx-%012llx",
        static_cast<unsigned long long>(high >> 32),
        static_cast<unsigned long long>((high >> 16) & 0xFFFF),
        static_cast<unsigned long long>(high & 0xFFFF), static_cast<unsigned long long>(low >> 48),
        static_cast<unsigned long long>(low & 0xFFFFFFFFFFFF));
    return {text.data(), static_cast<std::size_t>(length)};
}

}  // namespace loafmark::journal
