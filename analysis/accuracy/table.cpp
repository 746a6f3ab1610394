#include "table.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <functional>

namespace loafmark::accuracy {
namespace {

struct Column {
    const char* title;
    double Comparison::*member;
    double shown_as;  // 100 for percent
    int decimals;
    bool worst_is_lowest;  // IoU and F1; else the greatest absolute value is worst
};

constexpr Column columns[] = {
    {"height %", &Comparison::height, 100, 2, false},
    {"width %", &Comparison::width, 100, 2, false},
    {"area %", &Comparison::area, 100, 2, false},
    {"outline IoU", &Comparison::outline_iou, 1, 4, true},
    {"openness", &Comparison::openness, 1, 3, false},
    {"cells per cm2 %", &Comparison::cells_per_cm2, 100, 0, false},
    {"coarseness %", &Comparison::coarseness, 100, 0, false},
    {"cell F1", &Comparison::cell_f1, 1, 2, true},
    {"size distance", &Comparison::size_distance, 1, 2, false},
};

std::string number(double value, int decimals, bool sign) {
    char text[64];
    std::snprintf(text, sizeof text, sign ? "%+.*f" : "%.*f", decimals, value);
    return text;
}

bool is_signed(const Column& c) {
    return !c.worst_is_lowest && c.member != &Comparison::size_distance;
}

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const std::size_t n = values.size();
    return n % 2 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2;
}

// Median and worst of the errors' sizes.
void summary_rows(std::string& text, const std::vector<const Comparison*>& judged) {
    for (const bool worst : {false, true}) {
        text += worst ? "| **worst** | |" : "| **median** | |";
        for (const Column& c : columns) {
            std::vector<double> sizes;
            for (const Comparison* one : judged)
                sizes.push_back(c.worst_is_lowest ? one->*c.member : std::abs(one->*c.member));
            const double value = !worst ? median(sizes)
                                 : c.worst_is_lowest
                                     ? *std::min_element(sizes.begin(), sizes.end())
                                     : *std::max_element(sizes.begin(), sizes.end());
            text += " **" + number(value * c.shown_as, c.decimals, false) + "** |";
        }
        text += '\n';
    }
}

void coverage_row(std::string& text, const std::vector<const Comparison*>& judged) {
    constexpr const char* names[] = {"height",   "width",         "area",
                                     "openness", "cells per cm2", "coarseness"};
    text += "\n95 % intervals that hold the truth:";
    for (std::size_t k = 0; k < std::size(names); ++k) {
        const auto held = std::count_if(judged.begin(), judged.end(),
                                        [&](const Comparison* c) { return c->covered[k]; });
        text += std::string(k ? ", " : " ") + names[k] + " " + std::to_string(held) + " of " +
                std::to_string(judged.size());
    }
    text += ".\n";
}

}  // namespace

std::string markdown_table(const std::string& heading, const std::vector<Comparison>& comparisons) {
    std::string text = "### " + heading + "\n\n| photo | true openness; coarseness mm |";
    for (const Column& c : columns)
        text += std::string(" ") + c.title + " |";
    text += "\n|---|---|";
    for (std::size_t i = 0; i < std::size(columns); ++i)
        text += "---:|";
    text += '\n';
    std::vector<const Comparison*> judged;
    for (const Comparison& one : comparisons) {
        text += "| " + one.photo + " |";
        if (one.failure) {
            text += " **" + *one.failure + "** |\n";
            continue;
        }
        text += " " + number(one.true_openness, 2, false) + "; " +
                number(one.true_coarseness_mm, 1, false) + " |";
        for (const Column& c : columns)
            text += " " + number(one.*c.member * c.shown_as, c.decimals, is_signed(c)) + " |";
        text += '\n';
        judged.push_back(&one);
    }
    if (judged.empty()) return text;
    summary_rows(text, judged);
    coverage_row(text, judged);
    return text;
}

}  // namespace loafmark::accuracy
