// What stands behind WHERE, put together piece by piece.
#pragma once

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "journal/rows.h"

namespace loafmark::journal {

// Conditions of one WHERE, with their parameters in order.
class Conditions {
  public:
    template <class... Values>
    void add(const std::string& condition, const Values&... values) {
        sql_ += (sql_.empty() ? "" : " AND ") + condition;
        (values_.emplace_back(values), ...);
    }
    // `before`, the others, `after`.
    void add_enclosed(const std::string& before, const Conditions& others,
                      const std::string& after) {
        add(before + others.sql_ + after);
        values_.insert(values_.end(), others.values_.begin(), others.values_.end());
    }
    // The others behind these words.
    void add_behind(const std::string& words, const Conditions& others) {
        sql_ += words + others.sql_;
        values_.insert(values_.end(), others.values_.begin(), others.values_.end());
    }
    // The expression within the range. Its ends give way a hair, so that a hydration worked out as
    // 65.99999999999999 is one of 66 % and up.
    void add_range(const std::string& expression, std::optional<double> low,
                   std::optional<double> high) {
        constexpr double hair = 1e-9;
        if (low) add(expression + " >= ?", *low - hair * std::max(1.0, std::abs(*low)));
        if (high) add(expression + " <= ?", *high + hair * std::max(1.0, std::abs(*high)));
        if (!low && !high) add(expression + " IS NOT NULL");
    }

    [[nodiscard]] bool empty() const { return sql_.empty(); }
    [[nodiscard]] const std::string& sql() const { return sql_; }
    // From parameter `index` on; the next free one.
    int bind(SQLite::Statement& statement, int index = 1) const {
        for (const auto& value : values_)
            std::visit([&](const auto& v) { bind_value(statement, index++, v); }, value);
        return index;
    }

  private:
    std::string sql_;
    std::vector<std::variant<std::int64_t, double, std::string>> values_;
};

}  // namespace loafmark::journal
