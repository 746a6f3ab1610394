#include <nlohmann/json.hpp>

#include "catch.h"
#include "made_photo.h"
#include "process.h"

namespace loafmark::end_to_end {
namespace {

using Json = nlohmann::json;

// The whole message after "loafmark: error: ", where exactly one is expected.
void check_unreadable(const Kitchen& kitchen, const std::string& photo,
                      const std::string& message) {
    const Finished finished = kitchen.run({"measure", photo});
    CHECK(finished.err == "loafmark: error: " + message + "\n");
    CHECK(finished.out.empty());
    CHECK(finished.exit_code == 1);
}

}  // namespace

TEST_CASE("a slice on the mat is measured in millimetres, with intervals that hold its size") {
    const Kitchen kitchen;
    write_mat_photo(kitchen / "slice.jpg");
    const Json document =
        Json::parse(kitchen.done({"measure", "slice.jpg", "--json", "--thickness", "1mm"}));
    CHECK(document["schema"] == 1);
    const Json photo = document["photos"][0];
    CHECK(photo["photo"] == "slice.jpg");
    CHECK(photo["scale"]["source"] == "mat");
    REQUIRE(photo["slices"].size() == 1);
    // Drawn 75 mm tall, flat on the paper.
    const Json height = photo["slices"][0]["loaf_height"];
    CHECK(height["value"].get<double>() == Approx(75).margin(1.5));
    CHECK(height["low"].get<double>() < height["value"].get<double>());
    CHECK(height["value"].get<double>() < height["high"].get<double>());
    for (const Json& warning : photo["warnings"])
        CHECK_FALSE(warning["remedy"].get<std::string>().empty());
}

TEST_CASE("for people, values stand with unit and interval, and the smallest cell is always said") {
    const Kitchen kitchen;
    write_mat_photo(kitchen / "slice.jpg");
    const std::string text = kitchen.done({"measure", "slice.jpg", "--thickness", "15mm"});
    INFO(text);
    CHECK(text.starts_with("slice.jpg (scale: mat, "));
    CHECK(text.find("loaf height") != std::string::npos);
    CHECK(text.find("95 % interval") != std::string::npos);
    CHECK(text.find(" mm and up\n") != std::string::npos);
}

TEST_CASE("without a scale no length is given, in JSON or to people") {
    const Kitchen kitchen;
    write_photo_without_scale(kitchen / "plain.jpg");
    const Json document = Json::parse(kitchen.done({"measure", "plain.jpg", "--json"}));
    const Json photo = document["photos"][0];
    CHECK(photo["scale"]["source"] == "none");
    REQUIRE(photo["slices"].size() == 1);
    CHECK(photo["slices"][0]["loaf_height"].is_null());
    CHECK(photo["slices"][0]["coarseness"].is_null());
    CHECK(photo["slices"][0]["openness"]["value"].is_number());
    const std::string text = kitchen.done({"measure", "plain.jpg"});
    INFO(text);
    CHECK(text.find("\nloaf height") == std::string::npos);
    CHECK(text.find("of cells of four pixels of the photo and up\n") != std::string::npos);
    CHECK(text.find("no scale") != std::string::npos);
}

TEST_CASE("one known length gives the scale where no target is seen") {
    const Kitchen kitchen;
    write_photo_without_scale(kitchen / "plain.jpg");
    const Json document =
        Json::parse(kitchen.done({"measure", "plain.jpg", "--json", "--loaf-width", "100mm"}));
    CHECK(document["photos"][0]["scale"]["source"] == "known length");
    CHECK(document["photos"][0]["slices"][0]["loaf_height"]["value"].get<double>() ==
          Approx(75).margin(5));
}

TEST_CASE("overlay and label maps are written beside, and named in the document") {
    const Kitchen kitchen;
    write_mat_photo(kitchen / "two.jpg", 2);
    const Json document =
        Json::parse(kitchen.done({"measure", "two.jpg", "--json", "--thickness", "15mm",
                                  "--overlay", "seen", "--label-map", "new/maps"}));
    REQUIRE(document["photos"][0]["slices"].size() == 2);
    for (int n = 1; n <= 2; ++n) {
        const std::string stem = "two-" + std::to_string(n);
        CHECK(kitchen.read("seen/" + stem + ".overlay.jpg").starts_with("\xff\xd8"));
        for (const char* map : {".cells.png", ".slice.png", ".crumb.png"})
            CHECK(kitchen.read("new/maps/" + stem + map).starts_with("\x89PNG"));
        const Json frame = Json::parse(kitchen.read("new/maps/" + stem + ".frame.json"));
        CHECK(frame["mm_per_pixel"].is_number());
        CHECK(frame["photo_from_frame"].size() == 3);
        CHECK(document["photos"][0]["slices"][static_cast<std::size_t>(n) - 1]["label_map"]
                  .dump()
                  .find(stem + ".cells.png") != std::string::npos);
    }
}

TEST_CASE("label maps of a photo without a scale are written, with no millimetres") {
    const Kitchen kitchen;
    write_photo_without_scale(kitchen / "plain.jpg");
    kitchen.done({"measure", "plain.jpg", "--label-map", "maps"});
    CHECK(Json::parse(kitchen.read("maps/plain-1.frame.json"))["mm_per_pixel"].is_null());
}

TEST_CASE("two photos of one stem do not overwrite each other's files") {
    const Kitchen kitchen;
    std::filesystem::create_directory(kitchen / "a");
    write_mat_photo(kitchen / "a/slice.jpg");
    const Finished finished =
        kitchen.run({"measure", "a/slice.jpg", "slice.jpg", "--overlay", "seen"});
    CHECK(finished.exit_code == 2);
    CHECK(finished.err ==
          "loafmark: error: the files of a/slice.jpg and slice.jpg would have one name "
          "(slice-1...); measure them in two calls with two folders, or rename one\n");
    CHECK_FALSE(std::filesystem::exists(kitchen / "seen"));
}

TEST_CASE("one photo that fails does not stop the others") {
    const Kitchen kitchen;
    write_mat_photo(kitchen / "good.jpg");
    kitchen.write("bad.jpg", "no picture");
    const Finished finished = kitchen.run({"measure", "bad.jpg", "good.jpg", "--json"});
    CHECK(finished.exit_code == 1);
    CHECK(finished.err ==
          "loafmark: error: bad.jpg is not a photo that can be read; give a photo as JPEG, PNG or "
          "HEIC\n");
    const Json document = Json::parse(finished.out);
    REQUIRE(document["photos"].size() == 1);
    CHECK(document["photos"][0]["photo"] == "good.jpg");
}

TEST_CASE("a file that is no photo is named, with what is wrong and what to do") {
    const Kitchen kitchen;
    kitchen.write("notes.jpg", "bread, mostly");
    check_unreadable(kitchen, "notes.jpg",
                     "notes.jpg is not a photo that can be read; give a photo as JPEG, PNG or "
                     "HEIC");
    kitchen.write("nothing.jpg", "");
    check_unreadable(kitchen, "nothing.jpg",
                     "nothing.jpg is empty (0 bytes); copy it from the phone again");
    check_unreadable(kitchen, "missing.jpg", "missing.jpg does not exist; check the name");
    write_mat_photo(kitchen / "whole.jpg");
    const std::string whole = kitchen.read("whole.jpg");
    kitchen.write("cut.jpg", whole.substr(0, whole.size() / 2));
    check_unreadable(kitchen, "cut.jpg",
                     "cut.jpg is a damaged JPEG (Premature end of JPEG file); copy it from the "
                     "phone again, or take a new photo");
    kitchen.write("huge.png", png_beginning(20000, 20000));
    check_unreadable(kitchen, "huge.png",
                     "huge.png has 20000 x 20000 pixels, more than the 64 megapixels that are "
                     "read; scale it down to about 12 megapixels");
}

TEST_CASE("a photo without a slice is said, and counts as not measured") {
    const Kitchen kitchen;
    write_mat_photo(kitchen / "mat.jpg", 0);
    check_unreadable(kitchen, "mat.jpg",
                     "no slice seen in mat.jpg; photograph the cut face from straight above on a "
                     "plain ground that differs from the bread, the whole slice in the frame");
}

}  // namespace loafmark::end_to_end
