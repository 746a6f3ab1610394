// One page to hand out: a flour, or the flours of a trial, beside their control.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "insight/sheet.h"
#include "journal/records.h"

namespace loafmark::reports {

struct SheetFlour {
    insight::SheetKind kind;
    std::vector<insight::SheetLine> lines;
    std::optional<journal::ReadingPicture> picture;  // of a slice, with a scale
    bool is_control = false;
};

struct SheetInput {
    std::string title;
    std::vector<SheetFlour> flours;  // the control, if there is one, first
    std::string made_at;
    std::string made_with;
};

// One self-contained HTML file that prints on A4 and Letter: no script, nothing fetched, and what
// must be said of its grains.
[[nodiscard]] std::string sheet_page(const SheetInput& input);

}  // namespace loafmark::reports
