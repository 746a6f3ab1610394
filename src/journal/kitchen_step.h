// The schema's step that brought the kitchen's lasting facts, stock, and what is noted of a bake.
#pragma once

namespace loafmark::journal {

// What a bag holds is never stored: it is its stock less what bakes drew on it, so that a bake that
// is taken back or merged from another journal needs no second bookkeeping. Until here
// `left_mass_g` was what was left, and no bake changed it.
inline constexpr const char* kitchen_step = R"sql(
ALTER TABLE kitchen ADD COLUMN scale_step_g REAL CHECK (scale_step_g > 0);
ALTER TABLE kitchen ADD COLUMN slice_thickness_mm REAL CHECK (slice_thickness_mm > 0);
ALTER TABLE kitchen ADD COLUMN cut_after_h REAL CHECK (cut_after_h >= 0);
ALTER TABLE kitchen ADD COLUMN leaven TEXT
    CHECK (leaven IN ('fresh yeast', 'active dry yeast', 'instant yeast', 'starter'));
ALTER TABLE kitchen ADD COLUMN units TEXT CHECK (units IN ('metric', 'us'));

CREATE TABLE tin (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    uid TEXT NOT NULL UNIQUE,
    kitchen INTEGER NOT NULL REFERENCES kitchen,
    name TEXT NOT NULL CHECK (name <> ''),
    name_folded TEXT NOT NULL,
    volume_ml REAL CHECK (volume_ml > 0),
    created_at TEXT NOT NULL,
    UNIQUE (kitchen, name_folded)
) STRICT;

CREATE TABLE taster (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    uid TEXT NOT NULL UNIQUE,
    kitchen INTEGER NOT NULL REFERENCES kitchen,
    name TEXT NOT NULL CHECK (name <> ''),
    name_folded TEXT NOT NULL,
    created_at TEXT NOT NULL,
    UNIQUE (kitchen, name_folded)
) STRICT;

ALTER TABLE flour ADD COLUMN protein_typical_of TEXT;
ALTER TABLE flour ADD COLUMN moisture_fraction REAL CHECK (moisture_fraction BETWEEN 0 AND 1);
ALTER TABLE flour ADD COLUMN ash_fraction REAL CHECK (ash_fraction BETWEEN 0 AND 1);
ALTER TABLE flour ADD COLUMN fibre_fraction REAL CHECK (fibre_fraction BETWEEN 0 AND 1);

ALTER TABLE bag RENAME COLUMN left_mass_g TO stock_mass_g;
ALTER TABLE bag ADD COLUMN milled_on TEXT CHECK (milled_on IS date(milled_on));
ALTER TABLE bag ADD COLUMN price TEXT;
ALTER TABLE bag ADD COLUMN notes TEXT;
UPDATE bag SET stock_mass_g = stock_mass_g +
    (SELECT total(mass_g * flour_fraction) FROM mixed_amount WHERE mixed_amount.bag = bag.id);

ALTER TABLE bake ADD COLUMN leaven TEXT
    CHECK (leaven IN ('fresh yeast', 'active dry yeast', 'instant yeast', 'starter'));
ALTER TABLE bake ADD COLUMN leaven_fed_before_h REAL CHECK (leaven_fed_before_h >= 0);
ALTER TABLE bake ADD COLUMN mixed_by TEXT CHECK (mixed_by IN ('hand', 'machine'));
ALTER TABLE bake ADD COLUMN folds INTEGER CHECK (folds >= 0);
ALTER TABLE bake ADD COLUMN handling_shaped TEXT
    CHECK (handling_shaped IN ('stiff', 'firm', 'supple', 'tacky', 'slack', 'pours'));
ALTER TABLE bake ADD COLUMN held_shape TEXT CHECK (held_shape IN ('yes', 'partly', 'no'));
ALTER TABLE bake ADD COLUMN flour_temperature_c REAL;
ALTER TABLE bake ADD COLUMN water_temperature_c REAL;
ALTER TABLE bake ADD COLUMN starter_temperature_c REAL;

CREATE TABLE bake_step (
    bake INTEGER NOT NULL REFERENCES bake,
    position INTEGER NOT NULL CHECK (position >= 1),
    step TEXT NOT NULL CHECK (step IN ('mix', 'rest', 'knead', 'fold', 'bulk fermentation',
        'divide', 'shape', 'final proof', 'score', 'bake', 'cool', 'cut')),
    began_local TEXT,
    lasted_min REAL CHECK (lasted_min >= 0),
    temperature_c REAL,
    PRIMARY KEY (bake, position)
) STRICT, WITHOUT ROWID;

ALTER TABLE loaf ADD COLUMN dough_height_in_tin_mm REAL CHECK (dough_height_in_tin_mm > 0);
ALTER TABLE loaf ADD COLUMN proof_height_mm REAL CHECK (proof_height_mm > 0);
ALTER TABLE loaf ADD COLUMN dent TEXT
    CHECK (dent IN ('springs back', 'slowly', 'stays', 'collapsing'));
ALTER TABLE loaf ADD COLUMN scoring TEXT;
ALTER TABLE loaf ADD COLUMN oven_place TEXT;
ALTER TABLE loaf ADD COLUMN steam TEXT;
ALTER TABLE loaf ADD COLUMN core_temperature_c REAL CHECK (core_temperature_c <= 100);
ALTER TABLE loaf ADD COLUMN weighed_after_h REAL CHECK (weighed_after_h >= 0);
ALTER TABLE loaf ADD COLUMN volume_ml REAL CHECK (volume_ml > 0);
)sql";

}  // namespace loafmark::journal
