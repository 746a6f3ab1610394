#pragma once

#include <memory>
#include <span>
#include <string>

namespace loafmark::journal {

// SHA-256 (FIPS 180-4) of bytes that come in pieces.
class Sha256 {
  public:
    Sha256();
    ~Sha256();
    Sha256(const Sha256&) = delete;
    Sha256& operator=(const Sha256&) = delete;

    void add(std::span<const char> bytes);
    // Of all bytes so far, as 64 lower-case hexadecimal digits; begins anew.
    [[nodiscard]] std::string hex_digest();

  private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace loafmark::journal
