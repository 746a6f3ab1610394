#include "journal/sha256.h"

#include <string>

#include "catch.h"

using loafmark::journal::Sha256;

// NIST, SHA-256 examples to FIPS 180-2 (appendix B.1 to B.3); the empty message from NIST's
// SHA256ShortMsg.rsp.
TEST_CASE("SHA-256 gives the published digests") {
    const auto digest = [](const std::string& message) {
        Sha256 sha;
        sha.add(message);
        return sha.hex_digest();
    };
    CHECK(digest("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    CHECK(digest("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    CHECK(digest("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
          "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    CHECK(digest(std::string(1'000'000, 'a')) ==
          "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST_CASE("SHA-256 of pieces is that of the whole, and begins anew after a digest") {
    Sha256 sha;
    sha.add(std::string("a"));
    sha.add(std::string("bc"));
    const std::string once = sha.hex_digest();
    sha.add(std::string("abc"));
    CHECK(sha.hex_digest() == once);
    CHECK(once == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}
