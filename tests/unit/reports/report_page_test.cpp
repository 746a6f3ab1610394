#include "reports/report_page.h"

#include "approved.h"
#include "catch.h"
#include "made_up_bakes.h"
#include "markup.h"

using namespace loafmark;
using namespace loafmark::reports;

namespace {

journal::ReadingPicture picture(std::optional<double> mm_per_pixel) {
    journal::ReadingPicture picture;
    picture.media_type = "image/jpeg";
    picture.bytes = {1, 2, 3, 4};
    picture.width_px = 500;
    picture.height_px = 300;
    picture.mm_per_pixel = mm_per_pixel;
    return picture;
}

journal::BakeEntry measured_bake(int id, Date date, const std::string& flour, int flour_id,
                                 double water, double openness) {
    journal::BakeEntry bake = made_up::bake(id, date, flour, flour_id, water, openness);
    journal::Reading& reading = *bake.loaves[0].slices[0].reading;
    reading.values[Measure::resolved_limit] = made_up::about(0.5);
    reading.values[Measure::loaf_height] = made_up::about(60 + water / 5);
    reading.values[Measure::coarseness] = made_up::about(2 + 4 * openness);
    reading.values[Measure::openness].loaf_low = openness - 0.05;
    reading.values[Measure::openness].loaf_high = openness + 0.05;
    reading.cell_diameters = {0.6, 0.8, 1, 1.5, 2, 4};
    return bake;
}

ReportInput small_journal() {
    ReportInput input;
    input.made_at = "4 May 2026, 18:20";
    input.made_with = "Loafmark";
    input.bakes = {measured_bake(3, {2026, 4, 20}, "Spelt", 2, 70, 0.34),
                   measured_bake(1, {2026, 3, 1}, "Dark rye", 1, 62, 0.18),
                   measured_bake(2, {2026, 3, 9}, "Dark rye", 1, 70, 0.24),
                   measured_bake(4, {2026, 4, 27}, "Spelt", 2, 76, 0.37)};
    for (const int id : {1, 2, 3})
        input.pictures[{id}] = {picture(0.25), picture(0.2)};
    return input;
}

std::size_t count(const std::string& text, const std::string& part) {
    std::size_t n = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
        ++n;
    return n;
}

bool holds(const std::string& text, const std::string& part) {
    return count(text, part) > 0;
}

}  // namespace

TEST_CASE("the page of a small journal looks as approved") {
    const std::string html = report_page(small_journal());
    CHECK(markup_fault(html, Markup::html) == "");
    check_approved("reports/small.html", html);
}

TEST_CASE("the page of an empty journal says what to do first") {
    ReportInput input;
    input.made_at = "4 May 2026, 18:20";
    const std::string html = report_page(input);
    CHECK(markup_fault(html, Markup::html) == "");
    CHECK(holds(html, "Print the target"));
    CHECK(holds(html, "loafmark slice add last slice.jpg"));
    CHECK_FALSE(holds(html, "Bake by bake"));
    check_approved("reports/empty.html", html);
}

TEST_CASE("a search that finds nothing says so") {
    ReportInput input;
    input.chosen_by = "flour \"Emmer\"";
    const std::string html = report_page(input);
    CHECK(holds(html, "The journal holds no bake with flour &quot;Emmer&quot;."));
    CHECK_FALSE(holds(html, "Print the target"));
}

TEST_CASE("the page fetches nothing and runs nothing") {
    const std::string html = report_page(small_journal());
    CHECK_FALSE(holds(html, "<script"));
    CHECK_FALSE(holds(html, "<link"));
    CHECK_FALSE(holds(html, "@import"));
    CHECK(count(html, "url(") == count(html, "url(#"));
    // The one address is the name of SVG's vocabulary, which nobody fetches.
    CHECK(count(html, "://") == count(html, "http://www.w3.org/2000/svg"));
    // Each slice and each overlay is in it once, wherever it is shown.
    CHECK(count(html, "data:image/jpeg;base64,AQIDBA==") == 3 + 3);
    CHECK(count(html, "<use ") == 3);
}

TEST_CASE("every picture has an alternative text and its width in mm at one scale") {
    const std::string html = report_page(small_journal());
    CHECK(count(html, " alt=\"Cut face of Bake ") == count(html, "<img "));
    CHECK(count(html, "role=\"img\" aria-label=\"Cut face of Bake ") == 3 + 3);
    CHECK(count(html, "style=\"--w:125.0\"") == 3 + 3);
    CHECK(count(html, "style=\"--w:100.0\"") == 3);
    CHECK(holds(html, "width:calc(var(--w)*var(--mm))"));
    CHECK(holds(html, "calc((100vw - 3rem)/125)"));
}

TEST_CASE("slices without a scale stand apart and say so") {
    ReportInput input = small_journal();
    input.pictures[{2}] = {picture(std::nullopt), std::nullopt};
    input.bakes[2].loaves[0].slices[0].reading->scale_source = "none";
    const std::string html = report_page(input);
    CHECK(holds(html, "Nothing in these photos tells how large the slices are"));
    CHECK(holds(html, "No scale: the size of these pictures says nothing of the slice."));
    CHECK(count(html, "class=\"cut unscaled\"") == 2);
    CHECK(holds(html, "cell diameter, of the loaf&#39;s height"));
    CHECK_FALSE(holds(report_page(small_journal()), "Nothing in these photos"));
}

TEST_CASE("bakes stand in order of date") {
    const std::string html = report_page(small_journal());
    std::size_t last = html.find("<h2 id=\"bakes\"");
    for (const int id : {1, 2, 3, 4}) {
        const std::size_t at = html.find("id=\"bake-" + std::to_string(id) + "\"");
        CHECK(at > last);
        last = at;
    }
}

TEST_CASE("each link within the page has its end") {
    const std::string html = report_page(small_journal());
    for (std::size_t at = html.find("href=\"#"); at != std::string::npos;
         at = html.find("href=\"#", at + 1)) {
        const std::string id = html.substr(at + 7, html.find('"', at + 7) - at - 7);
        CHECK(count(html, " id=\"" + id + "\"") == 1);
    }
}

TEST_CASE("names are shown, never obeyed") {
    const std::string bad = "<script>alert('x')</script>{{title}}\"&\x1b";
    ReportInput input = small_journal();
    input.title = bad;
    input.chosen_by = bad;
    input.made_with = bad;
    for (journal::BakeEntry& bake : input.bakes) {
        bake.bake.title = bad;
        bake.bake.notes = bad;
        bake.bake.handling = bad;
        bake.bake.set_aside = bad;
        bake.formula_name = bad;
        bake.flours[0].name = bad;
        bake.loaves[0].loaf.tin = bad;
        bake.loaves[0].slices[0].slice.place = bad;
        bake.loaves[0].slices[0].reading->warnings = {bad};
    }
    input.bakes[0].bake.set_aside.reset();
    const std::string html = report_page(input);
    CHECK_FALSE(holds(html, "<script"));
    CHECK(holds(html, "&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt;{{title}}&quot;&amp;\uFFFD"));
    CHECK(markup_fault(html, Markup::html) == "");
}

TEST_CASE("the caution is given once") {
    for (const std::string& html : {report_page(small_journal()), report_page({})}) {
        CHECK(count(html, "Flour and dough are raw: do not eat or taste them") == 1);
        CHECK(count(html, "gluten") == 1);
        CHECK(count(html, "A photo or a journal cannot show that bread is safe to eat.") == 1);
    }
}

TEST_CASE("trends of openness, coarseness and loaf height say their finding in words") {
    const std::string html = report_page(small_journal());
    // Three trends, a histogram a slice, the crumb map, and three questions that were measured.
    CHECK(count(html, "class=\"chart\"") == 3 + 4 + 1 + 3);
    CHECK(holds(html, "<p>Openness changes by "));
    CHECK(holds(html, "<p>Coarseness changes by "));
    CHECK(holds(html, "<p>Loaf height changes by "));
    CHECK(count(html, "no interval: 4 bakes less 3 fitted numbers") == 3 * 2);  // text and desc
}

TEST_CASE("each mark of the crumb map leads to its bake, and the numbers stand behind it") {
    const std::string html = report_page(small_journal());
    CHECK(holds(html, "<h2 id=\"crumb-map\">Crumb map</h2>"));
    for (const char* bake : {"1", "2", "3", "4"}) {
        const std::string mark = std::string("mark-") + bake;
        CHECK(count(html, std::string("<a href=\"#bake-") + bake + "\" id=\"" + mark + "\">") == 1);
        CHECK(count(html, std::string("id=\"bake-") + bake + "\"") == 1);
        // And back.
        CHECK(count(html, "<a href=\"#" + mark + "\">") == 1);
    }
}

TEST_CASE("the shelf stands in order of date and knows its places by flour and by water") {
    const std::string html = report_page(small_journal());
    CHECK(holds(html, "<h2 id=\"shelf\">The shelf</h2>"));
    // Bakes 1 and 2 of dark rye with 62 and 70 % of water, bake 3 of spelt with 70 %.
    CHECK(holds(html, "href=\"#bake-1\" style=\"--f:0;--w8:0\""));
    CHECK(holds(html, "href=\"#bake-2\" style=\"--f:1;--w8:1\""));
    CHECK(holds(html, "href=\"#bake-3\" style=\"--f:2;--w8:2\""));
    CHECK(html.find("class=\"slice\" href=\"#bake-1\"") <
          html.find("class=\"slice\" href=\"#bake-2\""));
    CHECK(holds(html, "70 % water, 74 mm"));
    CHECK(holds(html, "class=\"upright\""));
    CHECK(holds(html, "1 slice has no picture."));
    CHECK(holds(html, "Colours are the camera&#39;s own. 3 slices stand in a rectangle"));
}

TEST_CASE("colours that are balanced are told, and those that are not") {
    ReportInput input = small_journal();
    for (const int id : {1, 2, 3})
        input.pictures[{id}].slice->balanced = true;
    CHECK(holds(report_page(input), "Colours are balanced on the target&#39;s white paper."));
    for (const int id : {1, 2, 3})
        input.pictures[{id}].slice->outline = {{10, 300}, {10, 10}, {490, 10}, {490, 300}};
    CHECK_FALSE(holds(report_page(input), "in a rectangle"));
    input.pictures[{2}].slice->balanced = false;
    CHECK(holds(report_page(input), "but for 1 slice whose photo shows none."));
}

TEST_CASE("a shelf of many stands smaller, one of a crowd without words") {
    ReportInput input;
    for (int i = 1; i <= 300; ++i) {
        input.bakes.push_back(measured_bake(i, {2026, 3, 1}, "Spelt", 2, 70, 0.3));
        input.pictures[{i}] = {picture(0.25), std::nullopt};
    }
    CHECK(holds(report_page(input), "<div class=\"shelf crowd\">"));
    input.bakes.resize(60);
    CHECK(holds(report_page(input), "<div class=\"shelf many\">"));
    input.bakes.resize(10);
    CHECK(holds(report_page(input), "<div class=\"shelf\">"));
}

TEST_CASE("five questions are asked of the journal and of each slice") {
    ReportInput input = small_journal();
    for (int i = 5; i <= 8; ++i)
        input.bakes.push_back(measured_bake(i, {2026, 5, i}, "Spelt", 2, 60 + i, 0.2 + 0.02 * i));
    const std::string html = report_page(input);
    for (const char* question :
         {"How tall?", "How open?", "How coarse?", "How even?", "Where is it different?"})
        CHECK(count(html, std::string("<h3>") + question + "</h3>") == 1);
    CHECK(holds(html, "8 bakes lie between "));
    CHECK(count(html, "<dt>How open?</dt>") == 8);
    CHECK(holds(html, "Close among this journal&#39;s 8 bakes: 0.180"));
}

TEST_CASE("a page of chosen bakes holds them against the whole journal") {
    ReportInput input = small_journal();
    for (int i = 5; i <= 12; ++i)
        input.bakes.push_back(measured_bake(i, {2026, 5, i}, "Spelt", 2, 60 + i, 0.4 + 0.02 * i));
    input.all_bakes = input.bakes;
    input.bakes.resize(4);  // the closest
    const std::string html = report_page(input);
    CHECK(holds(html,
                "4 bakes lie between 0.180 and 0.370. The newest, Bake 4, is close with "
                "0.370, held against the journal&#39;s 12 bakes."));
    CHECK(holds(html, "Close among this journal&#39;s 12 bakes: 0.370"));
}

TEST_CASE("ends of loaves are in no chart of the questions") {
    ReportInput input = small_journal();
    const auto mark = "1 March 2026, Bake 1: 0.180</title>";
    const std::size_t with = count(report_page(input), mark);
    input.bakes[1].loaves[0].slices[0].slice.place = std::string(journal::end_of_loaf);
    const std::size_t without = count(report_page(input), mark);
    CHECK(without < with);
    CHECK(without == 0);
}

TEST_CASE("of a control of nought a trial gives no percents") {
    ReportInput input = small_journal();
    journal::Trial trial;
    trial.name = "Which";
    trial.question = "same recipe";
    trial.factor = "flour";
    trial.variants = {"Dark rye", "Spelt"};
    trial.bakes = {{{2}, 0}, {{3}, 1}};
    input.trials = {trial};
    input.bakes[2].loaves[0].slices[0].reading->values[Measure::openness] = made_up::about(0);
    const std::string html = report_page(input);
    CHECK(holds(html, "<h3>Which</h3>"));
    CHECK_FALSE(holds(html, "inf %"));
    CHECK(holds(html, "<td class=\"n\">-</td>"));
}

TEST_CASE("a bake shows what went into the bowl and what was done, each as far as it is known") {
    ReportInput input = small_journal();
    journal::Bake& bake = input.bakes[0].bake;
    bake.mixed = {{IngredientKind::flour, "Spelt", {}, {}, Grams(500), Fraction(0), Fraction(1)},
                  {IngredientKind::water, "water", {}, {}, Grams(350), Fraction(1), Fraction(0)}};
    bake.steps = {{"bulk fermentation", "2026-04-20 09:30", Minutes(130), Celsius(25)},
                  {"bake", {}, {}, {}}};
    bake.facts.folds = 3;
    const std::string html = report_page(input);
    CHECK(
        holds(html, "<tr><th>water</th><td class=\"n\">350 g</td><td class=\"n\">70 %</td></tr>"));
    CHECK(
        holds(html, "<tr><th>dough</th><td class=\"n\">850 g</td><td class=\"n\">170 %</td></tr>"));
    CHECK(holds(html, "<td class=\"n\">2 h 10 min</td><td class=\"n\">25.0 \u00b0C</td>"));
    CHECK(holds(html, "<dt>folds</dt><dd>3</dd>"));
}

TEST_CASE("the page says how far repeats go, or what to bake to find out") {
    CHECK(count(report_page(small_journal()), "No one can tell yet how far two bakes") == 3);
}

TEST_CASE("a recipe baked eight times is drawn in order of date with its limits") {
    ReportInput input;
    for (int i = 0; i < 8; ++i)
        input.bakes.push_back(
            made_up::bake(i + 1, {2026, 3, i + 1}, "wheat", 1, 70, 0.4 + (i % 2 ? 0.01 : 0)));
    const std::string html = report_page(input);
    CHECK(holds(html, "openness of one recipe, by date"));
    CHECK(holds(html, "no drift shows."));
    CHECK(holds(html, "Two single bakes of one recipe differ in openness by up to "));
}

TEST_CASE("a bake set aside is shown with its reason and left out of trends") {
    ReportInput input = small_journal();
    input.bakes[0].bake.set_aside = "forgot the salt";
    const std::string html = report_page(input);
    CHECK(holds(html, "Set aside: forgot the salt. It is left out of every trend."));
    CHECK(holds(html, "70 % water, 74 mm, set aside"));
    CHECK(holds(html, "id=\"bake-3\""));
    CHECK(holds(html, "from 3 bakes of 2 flours"));
}

TEST_CASE("readings show values with intervals, the limit and what was not had") {
    const std::string html = report_page(small_journal());
    CHECK(holds(html, "of cells of 0.5 mm and up"));
    CHECK(holds(html,
                "<td class=\"n\">0.180</td><td class=\"n\">0.171\u20130.189<small>another cut "
                "0.130\u20130.230</small></td>"));
    CHECK(holds(html, "<td class=\"n\">not had</td>"));
}

TEST_CASE("warnings are in plain words") {
    ReportInput input = small_journal();
    input.bakes[0].loaves[0].slices[0].reading->warnings = {"thickness_assumed", "not_yet"};
    const std::string html = report_page(input);
    CHECK(holds(html, "thickness was not noted; a usual one was assumed"));
    CHECK_FALSE(holds(html, "thickness_assumed"));
    CHECK_FALSE(holds(html, "not_yet"));
}

TEST_CASE("flours are indexed by name with their bakes and shares") {
    ReportInput input = small_journal();
    input.bakes[1].flours = {made_up::flour(1, "Dark rye", 0.7), made_up::flour(2, "Spelt", 0.3)};
    const std::string html = report_page(input);
    const std::size_t index = html.find("<h2 id=\"flours\"");
    const std::size_t rye = html.find("<h4>Dark rye</h4>", index);
    const std::size_t spelt = html.find("<h4>Spelt</h4>", index);
    CHECK(rye < spelt);
    CHECK(holds(html.substr(spelt), "1 March 2026, Bake 1</a>, 30 %"));
}

TEST_CASE("a bake of which little is known makes a page") {
    ReportInput input;
    journal::BakeEntry bare;
    bare.bake.id = {1};
    bare.bake.date = {2026, 3, 1};
    bare.bake.title = "Bare";
    input.bakes = {bare};
    const std::string html = report_page(input);
    CHECK(markup_fault(html, Markup::html) == "");
    CHECK(holds(html, "flour not noted"));
    CHECK(holds(html, "No slice is filed under this bake."));
    CHECK(holds(html, "No bake names its flour."));
}

TEST_CASE("equal values make equal pages") {
    CHECK((report_page(small_journal()) == report_page(small_journal())));
}
