#pragma once

#include <kainjow/mustache.hpp>
#include <map>

#include "journal/records.h"
#include "reports/questions_section.h"
#include "reports/report_page.h"

namespace loafmark::reports {

// One bake with its slices, for bake.mustache.
[[nodiscard]] kainjow::mustache::data bake_data(
    const journal::BakeEntry& bake, const std::map<journal::SliceId, SlicePictures>& pictures,
    const Usuals& usuals);

}  // namespace loafmark::reports
