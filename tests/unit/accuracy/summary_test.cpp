#include "summary.h"

#include "catch.h"

using namespace loafmark::accuracy;

namespace {

constexpr std::size_t height = 0, iou = 4;

PhotoComparison photo_with(std::vector<Outcome> heights) {
    PhotoComparison photo;
    for (const Outcome& outcome : heights) {
        SliceComparison slice;
        slice.outcomes[height] = outcome;
        photo.slices.push_back(slice);
    }
    return photo;
}

}  // namespace

TEST_CASE("a miss counts as the worst of all in the median and as an interval that fails") {
    const Outcome missed{true, {}, false, 0};
    const Summary summary = summarised({photo_with({{true, 0.01, true, 0.02},
                                                    {true, -0.03, true, 0.04},
                                                    {true, 0.002, false, 0.01},
                                                    missed})});
    const FigureSummary& s = summary[height];
    CHECK(s.asked == 4);
    CHECK(s.missed == 1);
    CHECK(*s.median == Approx(0.02));  // between 0.01 and 0.03
    CHECK(*s.worst == Approx(0.03));
    CHECK(s.intervals == 4);
    CHECK(s.covered == 2);
    CHECK(*s.median_half_width == Approx(0.02));
}

TEST_CASE("where half or more are missed there is no median") {
    const Outcome missed{true, {}, false, 0};
    const Summary summary = summarised({photo_with({{true, 0.01, true, 0.02}, missed})});
    CHECK_FALSE(summary[height].median);
    CHECK(*summary[height].worst == Approx(0.01));
}

TEST_CASE("of a score the lowest is worst") {
    PhotoComparison photo = photo_with({{}, {}, {}});
    photo.slices[0].outcomes[iou] = {true, 0.99, {}, 0};
    photo.slices[1].outcomes[iou] = {true, 0.95, {}, 0};
    photo.slices[2].outcomes[iou] = {true, 0.98, {}, 0};
    const FigureSummary s = summarised({photo})[iou];
    CHECK(*s.median == Approx(0.98));
    CHECK(*s.worst == Approx(0.95));
    CHECK(s.intervals == 0);
    CHECK(summarised({photo})[height].asked == 0);
}
