// The schema's step that brought trials and tastings.
#pragma once

namespace loafmark::journal {

// Settings, factors and the lines of a tasting are words that records.h knows; they are no CHECK
// here, so that a new one needs no new table. A tasting of a sitting has its code and its turn from
// the start and gets its scores when the taster has it before them: until then `scored_at` is NULL.
// A bake's variant is the position of one of its trial's.
inline constexpr const char* trial_step = R"sql(
CREATE TABLE trial (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    uid TEXT NOT NULL UNIQUE,
    name TEXT NOT NULL CHECK (name <> ''),
    name_folded TEXT NOT NULL UNIQUE,
    question TEXT NOT NULL CHECK (question IN ('same recipe', 'each at its best')),
    factor TEXT NOT NULL CHECK (factor <> ''),
    notes TEXT,
    created_at TEXT NOT NULL
) STRICT;

CREATE TABLE trial_variant (
    trial INTEGER NOT NULL REFERENCES trial,
    position INTEGER NOT NULL CHECK (position >= 1),
    name TEXT NOT NULL CHECK (name <> ''),
    name_folded TEXT NOT NULL,
    PRIMARY KEY (trial, position),
    UNIQUE (trial, name_folded)
) STRICT, WITHOUT ROWID;

CREATE TABLE trial_setting (
    trial INTEGER NOT NULL REFERENCES trial,
    setting TEXT NOT NULL CHECK (setting <> ''),
    state TEXT NOT NULL CHECK (state IN ('held', 'fitted', 'free')),
    rule TEXT CHECK ((rule IS NOT NULL) = (state = 'fitted')),
    PRIMARY KEY (trial, setting)
) STRICT, WITHOUT ROWID;

CREATE TABLE trial_bake (
    trial INTEGER NOT NULL REFERENCES trial,
    bake INTEGER NOT NULL REFERENCES bake,
    variant INTEGER NOT NULL,
    PRIMARY KEY (trial, bake)
) STRICT, WITHOUT ROWID;
CREATE INDEX trial_bake_bake ON trial_bake (bake);

CREATE TABLE sitting (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    uid TEXT NOT NULL UNIQUE,
    held_on TEXT NOT NULL CHECK (held_on IS date(held_on)),
    seed INTEGER NOT NULL,
    created_at TEXT NOT NULL
) STRICT;

CREATE TABLE tasting (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    uid TEXT NOT NULL UNIQUE,
    bake INTEGER NOT NULL REFERENCES bake,
    loaf_number INTEGER NOT NULL CHECK (loaf_number >= 1),
    taster TEXT NOT NULL CHECK (taster <> ''),
    tasted_on TEXT NOT NULL CHECK (tasted_on IS date(tasted_on)),
    since_oven_h REAL CHECK (since_oven_h >= 0),
    kept TEXT,
    liking REAL CHECK (liking BETWEEN 0 AND 10),
    words TEXT,
    sitting INTEGER REFERENCES sitting,
    turn INTEGER CHECK (turn >= 1),
    code INTEGER CHECK (code BETWEEN 100 AND 999),
    scored_at TEXT,
    created_at TEXT NOT NULL,
    CHECK ((sitting IS NULL) = (turn IS NULL) AND (sitting IS NULL) = (code IS NULL)),
    UNIQUE (sitting, taster, turn),
    UNIQUE (sitting, code)
) STRICT;
CREATE INDEX tasting_bake ON tasting (bake);

CREATE TABLE tasting_score (
    tasting INTEGER NOT NULL REFERENCES tasting,
    line TEXT NOT NULL CHECK (line <> ''),
    score REAL NOT NULL CHECK (score BETWEEN 0 AND 10),
    PRIMARY KEY (tasting, line)
) STRICT, WITHOUT ROWID;
)sql";

}  // namespace loafmark::journal
