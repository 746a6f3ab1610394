// The report as a browser shows it. Where no Chromium is installed these tests say so and check
// nothing: `./run install` does not bring one.
#include <stdlib.h>

#include <algorithm>
#include <iostream>
#include <nlohmann/json.hpp>
#include <tuple>

#include "browser.h"
#include "catch.h"
#include "process.h"

namespace loafmark::end_to_end {
namespace {

// Three of the sample slices under two flours, one with a name that no phone is wide enough for.
std::string made_report(const Kitchen& kitchen) {
    const std::string emmer = "Emmer wholemeal stone-ground of the mill beyond the hill";
    const std::string samples = LOAFMARK_SOURCE_DIR "/sample-images/";
    kitchen.done({"flour", "add", emmer, "--grain", "emmer"});
    kitchen.done({"flour", "add", "Wheat", "--grain", "wheat"});
    kitchen.done({"formula", "add", "Emmer tin", "--flour", emmer + "=100%", "--water", "68%",
                  "--salt", "2%"});
    kitchen.done(
        {"formula", "add", "Wheat tin", "--flour", "Wheat=100%", "--water", "66%", "--salt", "2%"});
    for (const auto& [formula, date, title, photo] :
         {std::tuple{"Wheat tin", "2026-03-01", "Wheat", "trial-wheat-1.jpg"},
          {"Emmer tin", "2026-03-02",
           "AnExceedinglyLongTitleWithoutAnyBlankThatMustNotMakeThePageWiderThanAPhone",
           "emmer-68.jpg"},
          {"Wheat tin", "2026-03-03", "Wheat, again", "trial-wheat-3.jpg"}}) {
        kitchen.done({"bake", "add", "--formula", formula, "--date", date, "--dough", "700g",
                      "--tin", "small", "--title", title});
        kitchen.done({"slice", "add", "last", samples + photo, "--thickness", "15mm"});
    }
    kitchen.done({"report", "-o", "report.html"});
    return (kitchen / "report.html").string();
}

bool skipped() {
    if (Browser::program()) return false;
    std::cerr << "SKIPPED: no chromium on the PATH, so no page was looked at (apt-get install "
                 "chromium)\n";
    return true;
}

// LOAFMARK_REPORT names another report to look at, such as the demo's.
std::string report_of(const Kitchen& kitchen) {
    const char* named = ::getenv("LOAFMARK_REPORT");
    return "file://" + (named ? std::filesystem::absolute(named).string() : made_report(kitchen));
}

// How many pixels of the element, or of the page, lie beyond the window's right edge.
double overflow(Browser& browser) {
    return browser.evaluate("document.documentElement.scrollWidth - window.innerWidth");
}

bool in_view(Browser& browser, const std::string& selector) {
    return browser.evaluate("(() => { const b = document.querySelector(" +
                            nlohmann::json(selector).dump() +
                            ").getBoundingClientRect(); return b.bottom > 0 && b.top < "
                            "window.innerHeight; })()");
}

std::string hash_of(Browser& browser) {
    return browser.evaluate("location.hash");
}

}  // namespace

TEST_CASE("a browser shows the report: a mark leads to its bake and back, nothing is fetched") {
    if (skipped()) return;
    const Kitchen kitchen;
    Browser browser(*Browser::program());
    const std::string url = report_of(kitchen);
    for (const int width : {360, 800, 1200})
        for (const bool dark : {false, true}) {
            INFO("width " << width << (dark ? ", dark" : ""));
            browser.set_window(width, 800, dark);
            browser.open(url);
            CHECK(overflow(browser) <= 0);
            // Light letters on dark paper or the reverse.
            const double paper = browser.evaluate(
                "Math.max(...getComputedStyle(document.body).backgroundColor.match(/\\d+/g))");
            const double ink = browser.evaluate(
                "Math.max(...getComputedStyle(document.body).color.match(/\\d+/g))");
            CHECK((dark ? ink - paper : paper - ink) > 120);
        }

    const std::string mark = ".map svg a";
    const std::string bake =
        browser.evaluate("document.querySelector('.map svg a').getAttribute('href')");
    const std::string id = browser.evaluate("document.querySelector('.map svg a').id");
    REQUIRE(bake.starts_with("#bake-"));
    browser.click(mark);
    CHECK(hash_of(browser) == bake);
    CHECK(in_view(browser, bake + " h3"));
    browser.click(bake + " .back a");
    CHECK(hash_of(browser) == "#" + id);
    CHECK(in_view(browser, "#" + id));

    // Each slice on the shelf leads to its bake too, and is drawn.
    browser.click(".shelf a.slice");
    CHECK(hash_of(browser).starts_with("#bake-"));
    CHECK(browser.evaluate("[...document.querySelectorAll('.cut use')].every(u => "
                           "document.querySelector(u.getAttribute('href')))") == true);
    CHECK(browser.evaluate("[...document.querySelectorAll('.shelf .cut')].every(c => "
                           "c.getBoundingClientRect().width > 2)") == true);

    CHECK(browser.complaints() == std::vector<std::string>{});
    for (const std::string& request : browser.requests())
        CHECK(request == url);
}

TEST_CASE("slices of the shelf change their order without a script") {
    if (skipped()) return;
    const Kitchen kitchen;
    Browser browser(*Browser::program());
    browser.set_window(1200, 800);
    browser.open(report_of(kitchen));
    // Where each slice stands, in the order in which the page names them.
    const std::string places =
        "[...document.querySelectorAll('.overview .shelf:not(.apart) a.slice')].map(s => { const b "
        "= "
        "s.getBoundingClientRect(); return Math.round(b.bottom) * 10000 + Math.round(b.left); })";
    const auto by_date = browser.evaluate(places).get<std::vector<double>>();
    CHECK(std::is_sorted(by_date.begin(), by_date.end()));
    browser.click("input.by-flour");
    const auto by_flour = browser.evaluate(places).get<std::vector<double>>();
    CHECK_FALSE(std::is_sorted(by_flour.begin(), by_flour.end()));
}

}  // namespace loafmark::end_to_end
