#include "targets/targets.h"

#include <regex>
#include <string>

#include "catch.h"

namespace {

using namespace loafmark;
using namespace loafmark::targets;

}  // namespace

TEST_CASE("the PDF is one page of the sheet's size") {
    // 1 mm is 72 / 25.4 points: A4 is 595.28 x 841.89, US Letter 612 x 792.
    const std::string a4 = target_pdf(TargetKind::a4_mat, FieldStyle::blue);
    const std::string letter = target_pdf(TargetKind::letter_mat, FieldStyle::blue);
    const std::string strip = target_pdf(TargetKind::strip, FieldStyle::blue);
    CHECK(a4.starts_with("%PDF-"));
    CHECK(a4.find("/MediaBox [ 0 0 595.2") != std::string::npos);
    CHECK(letter.find("/MediaBox [ 0 0 612 792 ]") != std::string::npos);
    CHECK(strip.find("/MediaBox [ 0 0 595.2") != std::string::npos);
    CHECK(a4.find("/Count 1") != std::string::npos);
}

TEST_CASE("the SVG says its size in millimetres and draws in them") {
    const std::string svg = target_svg(TargetKind::a4_mat, FieldStyle::blue);
    CHECK(svg.find(R"(width="210mm" height="297mm" viewBox="0 0 210 297")") != std::string::npos);
    // The first marker's square, 24 mm about (22, 22).
    const std::regex square(R"(M 10 10 L 34 10 L 34 34 L 10 34 Z)");
    CHECK(std::regex_search(svg, square));
}

TEST_CASE("a PDF made later is the same file, and kinds and styles differ") {
    const std::string blue = target_pdf(TargetKind::a4_mat, FieldStyle::blue);
    CHECK(blue == target_pdf(TargetKind::a4_mat, FieldStyle::blue));
    CHECK(blue.find("/CreationDate") == std::string::npos);
    CHECK(blue != target_pdf(TargetKind::a4_mat, FieldStyle::none));
    CHECK(blue != target_pdf(TargetKind::letter_mat, FieldStyle::blue));
}
