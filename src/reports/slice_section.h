#pragma once

#include <kainjow/mustache.hpp>

#include "journal/records.h"
#include "reports/questions_section.h"
#include "reports/report_page.h"

namespace loafmark::reports {

// One slice of a bake, for {{#bake_slices}} of bake.mustache.
[[nodiscard]] kainjow::mustache::data slice_data(const journal::BakeEntry& bake,
                                                 const journal::Loaf& loaf,
                                                 const journal::SliceEntry& slice,
                                                 const SlicePictures& pictures,
                                                 const Usuals& usuals);

}  // namespace loafmark::reports
