#include "exif.h"

#include "catch.h"
#include "photo_bytes.h"

namespace loafmark::analysis {
namespace {

ExifFacts facts(const made::ExifPlan& plan) {
    return read_exif(made::exif_block(plan));
}

ExifFacts taken(const std::string& text) {
    made::ExifPlan plan;
    plan.taken = text;
    return facts(plan);
}

TEST_CASE("EXIF tells orientation, time and focal length") {
    made::ExifPlan plan;
    plan.orientation = 6;
    plan.taken = "2026:03:01 18:20:05";
    plan.focal_length_35mm = 27;
    const ExifFacts found = facts(plan);
    CHECK(found.orientation == 6);
    CHECK(found.taken == "2026-03-01T18:20:05");
    CHECK(found.focal_length_35mm == 27.0);
}

TEST_CASE("a block without its Exif header reads the same") {
    made::ExifPlan plan;
    plan.orientation = 3;
    const made::ByteString block = made::exif_block(plan);
    CHECK(read_exif(std::span(block).subspan(6)).orientation == 3);
}

TEST_CASE("what EXIF does not say stays unknown") {
    const ExifFacts found = facts({});
    CHECK(found.orientation == 1);
    CHECK_FALSE(found.taken);
    CHECK_FALSE(found.focal_length_35mm);
}

TEST_CASE("a camera without a clock gives no time") {
    CHECK_FALSE(taken("0000:00:00 00:00:00").taken);
    CHECK_FALSE(taken("    :  :     :  :  ").taken);
    CHECK_FALSE(taken("1 March 2026, 18:20").taken);
    CHECK_FALSE(taken("2026:03").taken);
}

TEST_CASE("a focal length of 0 means that the camera does not know it") {
    made::ExifPlan plan;
    plan.focal_length_35mm = 0;
    CHECK_FALSE(facts(plan).focal_length_35mm);
}

TEST_CASE("a damaged EXIF block tells nothing and harms nothing") {
    made::ExifPlan plan;
    plan.orientation = 6;
    plan.taken = "2026:03:01 18:20:05";
    plan.focal_length_35mm = 27;
    const made::ByteString whole = made::exif_block(plan);
    for (std::size_t size = 0; size < whole.size(); ++size) {
        const ExifFacts found = read_exif(std::span(whole).first(size));
        CHECK((found.orientation == 1 || found.orientation == 6));
    }
    CHECK(read_exif(made::ByteString(40, 0xFF)).orientation == 1);
}

}  // namespace
}  // namespace loafmark::analysis
