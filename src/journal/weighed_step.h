// The schema's step that keeps what a crumb's density and a loaf's volume are worked out from.
#pragma once

namespace loafmark::journal {

// plug_diameter_mm and plug_count NULL: the mass is of the slice's whole crumb. The views are what
// `find` looks through; weighed.cpp works out the same values with their intervals.
inline constexpr const char* weighed_step = R"sql(
ALTER TABLE loaf ADD COLUMN length_mm REAL CHECK (length_mm > 0);
ALTER TABLE slice ADD COLUMN crumb_mass_g REAL CHECK (crumb_mass_g > 0);
ALTER TABLE slice ADD COLUMN plug_diameter_mm REAL CHECK (plug_diameter_mm > 0);
ALTER TABLE slice ADD COLUMN plug_count INTEGER CHECK (plug_count > 0);

CREATE VIEW sound_value AS
SELECT slice, key, value FROM slice_value AS v
WHERE NOT EXISTS (SELECT 1 FROM reading_warning AS w WHERE w.reading =
        (SELECT max(r.id) FROM reading AS r WHERE r.slice = v.slice)
    AND w.code IN ('blurred', 'overexposed', 'underexposed', 'target_conflict'));

CREATE VIEW loaf_weighed AS
SELECT loaf, volume_ml / baked AS specific_volume, baked / volume_ml AS loaf_density,
    100 * (1 - baked / dough) AS bake_loss_percent, proof_height / dough_height AS proof_rise,
    baked_height - proof_height AS oven_spring, dough / tin_ml AS dough_per_tin_volume
FROM (
    SELECT loaf.id AS loaf, nullif(baked_mass_g, 0) AS baked, nullif(dough_mass_g, 0) AS dough,
        proof_height_mm AS proof_height, dough_height_in_tin_mm AS dough_height,
        (SELECT avg(v.value) FROM slice AS s JOIN sound_value AS v ON v.slice = s.id
         WHERE s.loaf = loaf.id AND v.key = 'loaf_height' AND s.place IS NOT 'end') AS baked_height,
        coalesce(loaf.volume_ml, loaf.length_mm / 1000 *
            (SELECT avg(v.value) FROM slice AS s JOIN sound_value AS v ON v.slice = s.id
             WHERE s.loaf = loaf.id AND v.key = 'cross_section_area' AND s.place IS NOT 'end'
                AND s.cut_direction IS NOT 'lengthwise')) AS volume_ml,
        (SELECT tin.volume_ml FROM bake JOIN bake_day ON bake_day.id = bake.bake_day
            JOIN tin ON tin.kitchen = bake_day.kitchen
         WHERE bake.id = loaf.bake AND tin.name_folded = folded(loaf.tin)) AS tin_ml
    FROM loaf);

CREATE VIEW slice_weighed AS
SELECT slice, mass * 1000 / thickness / face AS slice_density,
    crumb_mass * 1000 / thickness / sampled AS crumb_density,
    1 - crumb_mass * 1000 / thickness / sampled / 1.28 - openness AS fine_pore_share
FROM (
    SELECT id AS slice, mass, crumb_mass, thickness, face, openness,
        coalesce(plug_count * 0.7853981633974483 * plug_diameter_mm * plug_diameter_mm,
            CASE WHEN face IS NOT NULL THEN crumb_area END) AS sampled
    FROM (
        SELECT slice.id, nullif(mass_g, 0) AS mass, crumb_mass_g AS crumb_mass, plug_count,
            plug_diameter_mm,
            (SELECT avg(t.thickness_mm) FROM slice_thickness AS t WHERE t.slice = slice.id)
                AS thickness,
            (SELECT v.value FROM sound_value AS v
             WHERE v.slice = slice.id AND v.key = 'cross_section_area') AS face,
            (SELECT v.value FROM sound_value AS v
             WHERE v.slice = slice.id AND v.key = 'crumb_area') AS crumb_area,
            (SELECT v.value FROM sound_value AS v
             WHERE v.slice = slice.id AND v.key = 'openness') AS openness
        FROM slice));
)sql";

}  // namespace loafmark::journal
