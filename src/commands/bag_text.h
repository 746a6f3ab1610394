// Bags as people read them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "journal/records.h"

namespace loafmark::commands {

struct NamedBag {
    journal::Bag bag;
    std::string flour;
};

// pack_eu, pack_us, mill_14_percent_moisture or dry. Throws std::runtime_error.
[[nodiscard]] journal::ProteinBasis parse_basis(const std::string& text);

// A line a bag: number, flour, lot, what is left, days open, best before and what is to be known.
[[nodiscard]] std::string bags_table(const std::vector<NamedBag>& bags, Date today);
[[nodiscard]] std::string bags_document(const std::vector<NamedBag>& bags, Date today);

// "opened 12 days ago", "best before passed 3 days ago", "below zero: count it"; "" for nothing.
[[nodiscard]] std::string bag_remarks(const journal::Bag& bag, Date today);

// Sentences, a line each, on bags that hold less than nothing; "" where there are none.
[[nodiscard]] std::string overdrawn_text(const std::vector<NamedBag>& bags);

}  // namespace loafmark::commands
