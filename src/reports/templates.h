// The texts of templates/*.mustache, put here when the program is built.
#pragma once

#include <string_view>

namespace loafmark::reports {

extern const std::string_view page_template;
extern const std::string_view bake_template;         // one bake, within page
extern const std::string_view trial_template;        // one trial, within page
extern const std::string_view tasted_template;       // what tasters said, within trial and bake
extern const std::string_view shelf_slice_template;  // one slice of the shelf, within page
extern const std::string_view sheet_template;        // a page to hand out
extern const std::string_view first_steps_template;  // an empty journal's page, within page
extern const std::string_view style_template;        // the page's CSS, within page

}  // namespace loafmark::reports
