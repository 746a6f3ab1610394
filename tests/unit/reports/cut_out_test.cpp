#include "reports/cut_out.h"

#include "catch.h"
#include "markup.h"

using namespace loafmark;
using namespace loafmark::reports;

namespace {

journal::ReadingPicture slice() {
    journal::ReadingPicture picture{"image/jpeg", {1, 2, 3}, 0.25, 480, 400};
    picture.outline = {{12, 400}, {12, 40.5}, {412, 20}, {412, 410}};
    return picture;
}

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("a slice is seen as far as its outline goes, down to its base line") {
    const Window window = window_of(slice());
    CHECK(window.left == 12);
    CHECK(window.top == 20);
    CHECK(window.width == 400);
    CHECK(window.height == 380);
    CHECK(width_mm(slice()) == 100);
    CHECK(height_mm(slice()) == 95);
}

TEST_CASE("a picture without an outline, or with one that lies elsewhere, is seen whole") {
    journal::ReadingPicture picture = slice();
    picture.outline.clear();
    CHECK(window_of(picture).width == 480);
    picture.outline = {{600, 10}, {700, 10}, {700, 20}};
    CHECK(window_of(picture).width == 480);
    CHECK(window_of(picture).height == 400);
}

TEST_CASE("the page holds a picture once and shows it again") {
    const std::string first = cut_out(slice(), {7}, "Cut face of \"rye\"");
    CHECK(markup_fault(first, Markup::html) == "");
    CHECK(holds(first, "viewBox=\"12 20 400 380\" style=\"--w:100.0\""));
    CHECK(holds(first, "<clipPath id=\"edge-7\"><path d=\"M12 400 12 40.5 412 20 412 410Z\"/>"));
    CHECK(holds(first, "id=\"face-7\" clip-path=\"url(#edge-7)\""));
    CHECK(holds(first, "aria-label=\"Cut face of &quot;rye&quot;\""));
    const std::string again = cut_out_again(slice(), {7}, "again");
    CHECK(holds(again, "<use href=\"#face-7\"/>"));
    CHECK_FALSE(holds(again, "base64"));
}

TEST_CASE("the standing ruler ends at the next ten above the tallest") {
    const std::string ruler = upright_ruler(83.2);
    CHECK(holds(ruler, "--h:90\""));
    CHECK(holds(ruler, "<i style=\"--at:50\">50<b>mm</b></i>"));
    CHECK(holds(upright_ruler(100), "<i style=\"--at:100\">100<b>mm</b></i>"));
}
