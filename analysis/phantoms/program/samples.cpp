#include "samples.h"

#include <cmath>
#include <numbers>
#include <string>

namespace loafmark::phantoms {

namespace {

constexpr double pi = std::numbers::pi;

enum class Flour { tritordeum, emmer, triticale, wheat, spelt, khorasan };

// What tells one sample from another; the rest follows from flour and scene.
struct Sample {
    const char* name;
    const char* look;
    const char* taken;
    std::uint32_t seed;
    Flour flour;
    LoafForm form;
    double width_mm, height_mm;
    double openness, cell_mm, cavern_share;
    double thickness_mm;
    TargetKind target;
    MatField field;
    Surface surface;
    double lamp_azimuth, lamp_elevation, lamp_share, lamp_strength;  // share: radius / distance
};

constexpr Sample samples[] = {
    {"tritordeum-66", "free-form, blue A4 mat on wood, soft window from the left",
     "2026-10-04T10:12:00", 6601, Flour::tritordeum, LoafForm::free_form, 126, 76, 0.42, 1.7, 0.05,
     15, TargetKind::a4_mat, MatField::blue, Surface::wood, pi, 0.75, 0.3, 1.8},
    {"tritordeum-72", "free-form, strip on a board, low window from the upper right",
     "2026-10-11T09:47:00", 7201, Flour::tritordeum, LoafForm::free_form, 134, 69, 0.52, 2.9, 0.1,
     14, TargetKind::strip, MatField::white, Surface::wood, -0.7, 0.55, 0.2, 2.2},
    {"tritordeum-72-again", "free-form, blue A4 mat on dark cloth, overcast", "2026-10-25T16:30:00",
     7202, Flour::tritordeum, LoafForm::free_form, 137, 70, 0.5, 2.7, 0.12, 16, TargetKind::a4_mat,
     MatField::blue, Surface::dark_cloth, 2.2, 1.0, 0.4, 0.9},
    {"tritordeum-78", "free-form, blue Letter mat on linen, hard light", "2026-10-18T11:05:00",
     7801, Flour::tritordeum, LoafForm::free_form, 148, 58, 0.58, 4.4, 0.1, 17,
     TargetKind::letter_mat, MatField::blue, Surface::linen, 2.7, 0.6, 0.04, 1.4},
    {"emmer-68", "tin, white A4 mat on slate, soft window from below", "2026-10-31T10:20:00", 6801,
     Flour::emmer, LoafForm::tin, 99, 83, 0.27, 1.15, 0, 13, TargetKind::a4_mat, MatField::white,
     Surface::slate, 1.6, 0.8, 0.3, 1.5},
    {"emmer-76", "tin, strip on pale linen, soft window from the left", "2026-11-07T10:02:00", 7601,
     Flour::emmer, LoafForm::tin, 101, 91, 0.35, 1.7, 0.05, 12, TargetKind::strip, MatField::white,
     Surface::linen, 3.4, 0.7, 0.3, 1.7},
    {"triticale-62", "tin, blue A4 mat on wood, warm kitchen lamp", "2026-11-14T18:40:00", 6201,
     Flour::triticale, LoafForm::tin, 104, 79, 0.3, 1.2, 0, 15, TargetKind::a4_mat, MatField::blue,
     Surface::wood, -2.3, 0.9, 0.08, 1.5},
    {"triticale-70", "tin, strip on slate, soft window from the right", "2026-11-21T09:55:00", 7001,
     Flour::triticale, LoafForm::tin, 105, 74, 0.36, 1.9, 0.12, 14, TargetKind::strip,
     MatField::white, Surface::slate, 0.3, 0.65, 0.25, 1.9},
};

// Eight loaves of one trial: a control twice on each of two days and two variants once, all in one
// tin, photographed alike. Smaller photos of fewer rays than the others: they are there for their
// numbers. What differs between loaves of one flour is chosen once, by hand: 1 to 2 mm of height
// within a day, a little more from day to day.
Sample trial_sample(const char* name, const char* taken, std::uint32_t seed, Flour flour,
                    double height_mm, double openness, double cell_mm) {
    return {name,
            "tin, white A4 mat on wood, soft window from the left",
            taken,
            seed,
            flour,
            LoafForm::tin,
            102.0 + seed % 3,
            height_mm,
            openness,
            cell_mm,
            0.04,
            15,
            TargetKind::a4_mat,
            MatField::white,
            Surface::wood,
            pi,
            0.8,
            0.3,
            1.7};
}

std::vector<Sample> trial_samples() {
    const char* const first = "2026-09-12T15:30:00";
    const char* const second = "2026-09-19T15:40:00";
    return {trial_sample("trial-wheat-1", first, 3101, Flour::wheat, 92.4, 0.38, 1.7),
            trial_sample("trial-spelt-1", first, 3102, Flour::spelt, 83.6, 0.33, 1.5),
            trial_sample("trial-khorasan-1", first, 3103, Flour::khorasan, 78.1, 0.30, 1.3),
            trial_sample("trial-wheat-2", first, 3104, Flour::wheat, 91.0, 0.37, 1.65),
            trial_sample("trial-khorasan-2", second, 3205, Flour::khorasan, 81.2, 0.32, 1.35),
            trial_sample("trial-wheat-3", second, 3206, Flour::wheat, 94.2, 0.40, 1.75),
            trial_sample("trial-wheat-4", second, 3207, Flour::wheat, 93.1, 0.385, 1.7),
            trial_sample("trial-spelt-2", second, 3208, Flour::spelt, 86.0, 0.345, 1.55)};
}

BreadLook look_of(Flour flour) {
    BreadLook look;
    look.knife = 0.03f;
    look.mottle = 0.08f;
    look.bump = 0.5f;
    look.face_bump = 0.3f;
    switch (flour) {
        case Flour::tritordeum:  // pale yellow, few specks
            look.crumb = {0.74f, 0.61f, 0.37f};
            look.film = {0.72f, 0.58f, 0.34f};
            look.crust_top = {0.26f, 0.11f, 0.04f};
            look.bran = {0.42f, 0.24f, 0.09f};
            look.bran_share = 0.03f;
            look.flour_dust = 0.35f;
            break;
        case Flour::emmer:  // wholemeal, brown, much bran
            look.crumb = {0.45f, 0.31f, 0.185f};
            look.film = {0.43f, 0.29f, 0.17f};
            look.crust_top = {0.17f, 0.075f, 0.03f};
            look.bran = {0.19f, 0.085f, 0.035f};
            look.bran_share = 0.25f;
            look.smear = 0.15f;
            break;
        case Flour::triticale:  // greyish, some bran
            look.crumb = {0.55f, 0.44f, 0.29f};
            look.film = {0.52f, 0.41f, 0.26f};
            look.crust_top = {0.24f, 0.11f, 0.045f};
            look.bran = {0.24f, 0.13f, 0.06f};
            look.bran_share = 0.1f;
            look.smear = 0.1f;
            break;
        case Flour::wheat:  // white, cream crumb
            look.crumb = {0.76f, 0.66f, 0.48f};
            look.film = {0.74f, 0.64f, 0.46f};
            look.crust_top = {0.28f, 0.13f, 0.05f};
            look.bran_share = 0.01f;
            break;
        case Flour::spelt:  // white, a little greyer
            look.crumb = {0.68f, 0.57f, 0.40f};
            look.film = {0.66f, 0.55f, 0.38f};
            look.crust_top = {0.25f, 0.12f, 0.05f};
            look.bran = {0.36f, 0.22f, 0.11f};
            look.bran_share = 0.04f;
            break;
        case Flour::khorasan:  // yellow
            look.crumb = {0.75f, 0.60f, 0.33f};
            look.film = {0.73f, 0.58f, 0.31f};
            look.crust_top = {0.27f, 0.13f, 0.05f};
            look.bran_share = 0.02f;
            break;
    }
    return look;
}

LoafShape shape_of(const Sample& s) {
    LoafShape loaf;
    loaf.form = s.form;
    loaf.width_mm = s.width_mm;
    loaf.height_mm = s.height_mm;
    loaf.base_share = s.form == LoafForm::tin ? 0.87 : 0.84;
    loaf.side_share = 0.72;
    loaf.dome_power = s.form == LoafForm::tin ? 2.3 : 2.15;
    loaf.lean = (s.seed % 7) / 10.0 - 0.3;
    loaf.ear_mm = s.form == LoafForm::free_form && s.seed % 2 == 1 ? 3.5 : 0;
    loaf.roughness_mm = s.form == LoafForm::tin ? 0.35 : 0.6;
    loaf.seed = s.seed + 1;
    return loaf;
}

FoamRecipe foam_of(const Sample& s) {
    FoamRecipe foam;
    foam.openness = s.openness;
    foam.diameter_mm = s.cell_mm;
    foam.spread = 0.5;
    foam.matrix_share = 0.2;
    foam.cavern_share = s.cavern_share;
    foam.cavern_mm = 4 + 2.2 * s.cell_mm;
    foam.fines_per_mm3 = 5;
    // Where cells touch everywhere, a few missing walls join them all.
    foam.open_pairs = 0.16 * (1 - 1.3 * s.openness);
    foam.torn_pairs = 0.24 * (1 - 1.3 * s.openness);
    foam.irregularity = 0.8;
    foam.patchiness = 0.15;
    foam.seed = s.seed + 2;
    return foam;
}

LightRecipe light_of(const Sample& s) {
    LightRecipe light;
    light.lamp_azimuth = s.lamp_azimuth;
    light.lamp_elevation = s.lamp_elevation;
    light.lamp_distance_mm = 1200;
    light.lamp_radius_mm = 1200 * s.lamp_share;
    light.lamp_strength = s.lamp_strength;
    const bool lamp_lit = std::string(s.look).find("warm") != std::string::npos;
    if (lamp_lit) light.lamp_tint = {1.0f, 0.84f, 0.64f};
    light.zenith = lamp_lit ? Colour{0.85f, 0.78f, 0.68f} : Colour{0.93f, 0.96f, 1.0f};
    light.horizon = light.zenith * 0.6f;
    return light;
}

// A slice on a mat lies in its middle; beside a strip it lies above it.
void place(const Sample& s, PhantomRecipe& recipe) {
    const bool strip = s.target == TargetKind::strip;
    const double sheet_middle = s.target == TargetKind::letter_mat ? 115.5 : 126.5;
    const double turn = (static_cast<int>(s.seed / 100) % 5 - 2) * 0.035;
    SlicePose& pose = recipe.slices[0].pose;
    pose.angle = turn;
    pose.origin_mm =
        strip ? PlanePoint{70 + turn * 40, -36} : PlanePoint{83, sheet_middle + s.height_mm / 2};
    const double tilt = (3 + s.seed % 5 * 3) * pi / 180;
    // Half-way between the strip's lower edge and the loaf's crown, from far enough for both.
    const PlanePoint gaze =
        strip ? PlanePoint{70, -(16 + s.height_mm) / 2} : PlanePoint{83, sheet_middle};
    recipe.camera = look_at(gaze, 0, strip ? 345 : 290, tilt, s.lamp_azimuth + 2, turn / 2);
    recipe.camera.focal_35mm = strip ? 48 : 28;  // the phone's second lens for the small target
    recipe.camera.width = strip ? 2592 : 2448;
    recipe.camera.height = strip ? 1944 : 3264;
}

PhantomRecipe recipe_of(const Sample& s) {
    PhantomRecipe recipe;
    recipe.name = s.name;
    recipe.look = s.look;
    recipe.taken = s.taken;
    recipe.seed = s.seed;
    SliceRecipe& slice = recipe.slices[0];
    slice.loaf = shape_of(s);
    slice.crust.seed = s.seed + 3;
    slice.crust.top_mm = s.form == LoafForm::tin ? 1.9 : 2.6;
    slice.crust.base_mm = s.form == LoafForm::tin ? 1.8 : 3.0;
    slice.foam = foam_of(s);
    slice.bread = look_of(s.flour);
    slice.thickness_mm = s.thickness_mm;
    slice.ruled_mm = s.thickness_mm;
    recipe.target = s.target;
    recipe.field = s.field;
    recipe.surface = s.surface;
    const bool on_cloth = s.surface == Surface::linen && s.target == TargetKind::strip;
    slice.gap_mm = on_cloth ? 1.1 : 0.15;
    recipe.morsels = 9;
    recipe.light = light_of(s);
    place(s, recipe);
    recipe.samples = {6, 20};
    recipe.development.exposure_stops = 0.25;
    recipe.development.shot_noise = 0.007;
    recipe.development.saturation = 1.1;
    recipe.development.seed = s.seed + 4;
    recipe.jpeg_quality = 82;
    return recipe;
}

}  // namespace

std::vector<PhantomRecipe> sample_recipes() {
    std::vector<PhantomRecipe> recipes;
    for (const Sample& s : samples)
        recipes.push_back(recipe_of(s));
    for (const Sample& s : trial_samples()) {
        PhantomRecipe recipe = recipe_of(s);
        recipe.camera.width = 1632;
        recipe.camera.height = 2176;
        recipe.samples = {4, 10};
        recipe.jpeg_quality = 80;
        recipes.push_back(recipe);
    }
    return recipes;
}

}  // namespace loafmark::phantoms
