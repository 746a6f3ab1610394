// What must be known of the readings that a statistic rests on.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "journal/records.h"

namespace loafmark::insight {

class ReadingNotes {
  public:
    void add(const journal::BakeEntry& bake);
    void add_version(const std::string& version);
    // "read by different versions of the analysis (1, 2): loafmark slice remeasure brings them to
    // one"; none where one version read all.
    [[nodiscard]] std::vector<std::string> of_versions() const;
    // The same, poor readings, and slices without a scale among others with one.
    [[nodiscard]] std::vector<std::string> all() const;

  private:
    std::set<std::string> versions_;
    int poor_ = 0;
    int without_scale_ = 0;
    int with_scale_ = 0;
};

// "a", "a and b", "a, b and c".
[[nodiscard]] std::string joined(const std::vector<std::string>& parts);

}  // namespace loafmark::insight
