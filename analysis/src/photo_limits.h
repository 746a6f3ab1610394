// When a photo is told to disappoint, and when its numbers would mislead and are left out. Each
// limit stands beside what the measures need. Where no source is named, the value is a judgement
// from made photos and common practice, no source.
#pragma once

namespace loafmark::analysis::limits {

// ---- Scale ----

// Corners are found to a quarter of a pixel at best. On a marker of 24 mm and 40 pixels that is
// 0.15 mm a corner, and 0.6 % of a length where one marker is all there is.
inline constexpr double fewest_marker_pixels = 40;

// The corners fit the printed layout to this, root mean square; beyond it the paper is bent, and a
// bend of 1 mm over a marker's distance moves lengths by about half a percent, the goal for them.
inline constexpr double most_misfit_mm = 0.8;

// Markers that miss one flat sheet by more do not lie on one: another sheet's, or one turned over.
inline constexpr double most_sheet_misfit_mm = 3;

// Beyond this, the slice's side and its torn edge hide part of the outline. Views of up to 20
// degrees are held to the goals; a hand-held phone seldom exceeds 15 (common practice, no source).
inline constexpr double most_tilt_deg = 28;
// Beyond this a length along the view is seen at under 0.64 of itself, and the slice's far edge
// behind its near one: no length can be told, and none is.
inline constexpr double hopeless_tilt_deg = 50;

// ---- Light ----

// Ink over paper, linear. Matt print has 0.03 to 0.1; a third of the paper's light from black ink
// is the lamp's mirror image, which washes out outline and colour just the same.
inline constexpr double most_ink_over_paper = 0.35;

// Brightest paper over darkest, linear: one and a half stops from one marker to another. Colours
// are balanced on the paper and the crust ends half-way to the crumb's lightness; both take the
// light for even over the slice, which spans about half of the markers' distance.
inline constexpr double most_light_ratio = 2.8;

// Share of the slice that is white without detail, all channels at 252 or more of 255: cells there
// are lost. The goal for openness is a few hundredths, so that a hundredth already counts.
inline constexpr int clipped_value = 252;
inline constexpr double most_clipped_share = 0.01;

// The slice's brightest twentieth, 0 to 255. Below, crumb and cell are parted by so few steps of
// the camera that noise draws cells.
inline constexpr int least_bright_value = 64;

// ---- Sharpness ----

// Edge spread (10 to 90 % of a step) over the resolved limit. A step that takes longer than the
// smallest counted cell leaves that cell without a floor. At twice that, a Gaussian blur leaves a
// disc of that size a fifth of its contrast at its middle: cells vanish or run together.
inline constexpr double most_spread = 1;
inline constexpr double hopeless_spread = 2;

// ---- The cut ----

// The crumb sets as it cools; within the hour the blade smears it. Common practice, no source.
inline constexpr double warm_cut_hours = 1;

}  // namespace loafmark::analysis::limits
