// Files as the renderer writes them, of one slice and of several, and those of before.
#include "truth.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <stdexcept>

#include "catch.h"

using namespace loafmark;
using namespace loafmark::accuracy;

namespace {

namespace fs = std::filesystem;

class Folder {
  public:
    Folder() {
        std::string name = (fs::temp_directory_path() / "loafmark-truth-XXXXXX").string();
        if (!mkdtemp(name.data())) throw std::runtime_error("no folder for a test");
        path_ = name;
    }
    ~Folder() { fs::remove_all(path_); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    [[nodiscard]] fs::path write(const std::string& name, const std::string& text) const {
        std::ofstream(path_ / name) << text;
        return path_ / name;
    }
    [[nodiscard]] const fs::path& path() const { return path_; }

  private:
    fs::path path_;
};

std::string refusal(const fs::path& file) {
    try {
        (void)read_truth(file);
    } catch (const std::runtime_error& error) {
        return error.what();
    }
    return "";
}

std::string slice_text(double height) {
    return R"("typed":{"thickness_mm":14.5},"photo_from_slice":[[10,0,5],[0,10,6],[0,0,1]],)"
           R"("measures":{"loaf_height":)" +
           std::to_string(height) +
           R"(,"loaf_width":100,"crust_thickness":{"top":2.5,"base":3},"openness":0.4},)"
           R"("cells_map":{"file":"none.png","slice_from_map":[[0.1,0,0],[0,0.1,0],[0,0,1]]},)"
           R"("outline":[[0,0],[100,0],[100,-80]])";
}

std::string document(int schema, const std::string& slices) {
    return R"({"schema":)" + std::to_string(schema) +
           R"(,"photo":"a.jpg","look":"plate","crumb_is_judged":false,)" + slices + "}";
}

}  // namespace

TEST_CASE("a document without a list of slices describes its only one") {
    const Folder folder;
    const Truth truth = read_truth(folder.write("a.truth.json", document(2, slice_text(80))));
    CHECK(truth.photo == folder.path() / "a.jpg");
    CHECK(truth.look == "plate");
    CHECK(truth.thickness->count() == 14.5);
    REQUIRE(truth.slices.size() == 1);
    CHECK(truth.slices[0].measures.at(Measure::loaf_height) == 80);
    CHECK(truth.slices[0].measures.at(Measure::crust_thickness_base) == 3);
    CHECK(truth.slices[0].outline.size() == 3);
    // Crumb is judged inside what was found, never against this number; and not here.
    CHECK_FALSE(truth.slices[0].measures.contains(Measure::openness));
    CHECK_FALSE(truth.slices[0].cells);
}

TEST_CASE("a list of slices is read in its order") {
    const Folder folder;
    const Truth truth =
        read_truth(folder.write("a.truth.json", document(2, R"("slices":[{)" + slice_text(80) +
                                                                "},{" + slice_text(70) + "}]")));
    REQUIRE(truth.slices.size() == 2);
    CHECK(truth.slices[1].measures.at(Measure::loaf_height) == 70);
}

TEST_CASE("crust thickness of the first schema was a wish and is not judged") {
    const Folder folder;
    const Truth truth = read_truth(folder.write("a.truth.json", document(1, slice_text(80))));
    CHECK_FALSE(truth.slices[0].measures.contains(Measure::crust_thickness_top));
}

TEST_CASE("a file that is no truth is refused by name") {
    const Folder folder;
    const std::string words = refusal(folder.write("b.truth.json", "{}"));
    CHECK(words.find("b.truth.json is no truth file") != std::string::npos);
    CHECK_THROWS_AS(truth_files(folder.path() / "nowhere"), std::runtime_error);
}
