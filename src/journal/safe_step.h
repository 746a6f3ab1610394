// The schema's step that brought the bin, the changes that can be taken back, and what makes
// finding quick.
#pragma once

namespace loafmark::journal {

// Three tables follow from others and are kept true by triggers, so that no writer can forget them:
// `bake_figures` from mixed_amount, `slice_value` from the newest readings of slices that are not
// in the bin, `bake_text` (an index, no second copy) from bake. They refer to nothing, since they
// are neither exported nor taken back: whoever writes the rows that they follow from writes them.
inline constexpr const char* safe_step = R"sql(
ALTER TABLE flour ADD COLUMN dropped_at TEXT;
ALTER TABLE bag ADD COLUMN dropped_at TEXT;
ALTER TABLE formula ADD COLUMN dropped_at TEXT;
ALTER TABLE bake ADD COLUMN dropped_at TEXT;
ALTER TABLE slice ADD COLUMN dropped_at TEXT;

CREATE TABLE change (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    made_at TEXT NOT NULL,
    words TEXT NOT NULL CHECK (words <> ''),
    undone INTEGER NOT NULL DEFAULT 0 CHECK (undone IN (0, 1)),
    changeset BLOB
) STRICT;

CREATE TABLE bake_figures (
    bake INTEGER PRIMARY KEY,
    flour_g REAL,
    hydration_percent REAL,
    prefermented_flour_percent REAL,
    salt_percent REAL
) STRICT;
CREATE INDEX bake_figures_hydration ON bake_figures (hydration_percent);
CREATE INDEX bake_figures_salt ON bake_figures (salt_percent);

CREATE VIEW figures_of_bake AS
    SELECT bake, sum(mass_g * flour_fraction),
        100 * sum(mass_g * water_fraction) / sum(mass_g * flour_fraction),
        100 * sum(mass_g * flour_fraction * (kind = 'leaven')) / sum(mass_g * flour_fraction),
        100 * sum(mass_g * (kind = 'salt')) / sum(mass_g * flour_fraction)
    FROM mixed_amount GROUP BY bake;
CREATE TRIGGER mixed_amount_added AFTER INSERT ON mixed_amount BEGIN
    DELETE FROM bake_figures WHERE bake = NEW.bake;
    INSERT INTO bake_figures SELECT * FROM figures_of_bake WHERE bake = NEW.bake;
END;
CREATE TRIGGER mixed_amount_changed AFTER UPDATE ON mixed_amount BEGIN
    DELETE FROM bake_figures WHERE bake IN (OLD.bake, NEW.bake);
    INSERT INTO bake_figures SELECT * FROM figures_of_bake WHERE bake IN (OLD.bake, NEW.bake);
END;
CREATE TRIGGER mixed_amount_gone AFTER DELETE ON mixed_amount BEGIN
    DELETE FROM bake_figures WHERE bake = OLD.bake;
    INSERT INTO bake_figures SELECT * FROM figures_of_bake WHERE bake = OLD.bake;
END;
INSERT INTO bake_figures SELECT * FROM figures_of_bake;

-- Shares of a flour are worked out from the index alone.
DROP INDEX mixed_amount_flour;
CREATE INDEX mixed_amount_flour ON mixed_amount (flour, bake, mass_g, flour_fraction);

CREATE TABLE slice_value (
    slice INTEGER NOT NULL,
    key TEXT NOT NULL,
    value REAL NOT NULL,
    bake INTEGER NOT NULL,
    PRIMARY KEY (slice, key)
) STRICT, WITHOUT ROWID;
CREATE INDEX slice_value_key ON slice_value (key, value, slice, bake);
DROP INDEX reading_value_key;

CREATE VIEW value_of_slice AS
    SELECT slice.id AS slice, v.key, v.value, loaf.bake, v.reading
    FROM slice JOIN loaf ON loaf.id = slice.loaf
    JOIN reading_value AS v ON v.reading = (SELECT max(id) FROM reading WHERE slice = slice.id)
    WHERE slice.dropped_at IS NULL;
CREATE TRIGGER reading_added AFTER INSERT ON reading BEGIN
    DELETE FROM slice_value WHERE slice = NEW.slice;
    INSERT INTO slice_value
        SELECT slice, key, value, bake FROM value_of_slice WHERE slice = NEW.slice;
END;
CREATE TRIGGER reading_gone AFTER DELETE ON reading BEGIN
    DELETE FROM slice_value WHERE slice = OLD.slice;
    INSERT INTO slice_value
        SELECT slice, key, value, bake FROM value_of_slice WHERE slice = OLD.slice;
END;
CREATE TRIGGER reading_value_added AFTER INSERT ON reading_value BEGIN
    INSERT INTO slice_value SELECT v.slice, v.key, v.value, v.bake FROM value_of_slice AS v
        WHERE v.slice = (SELECT slice FROM reading WHERE id = NEW.reading)
        AND v.reading = NEW.reading AND v.key = NEW.key;
END;
CREATE TRIGGER reading_value_gone AFTER DELETE ON reading_value BEGIN
    DELETE FROM slice_value WHERE key = OLD.key AND slice =
        (SELECT r.slice FROM reading AS r WHERE r.id = OLD.reading
         AND r.id = (SELECT max(id) FROM reading WHERE slice = r.slice));
END;
CREATE TRIGGER slice_dropped AFTER UPDATE OF dropped_at ON slice BEGIN
    DELETE FROM slice_value WHERE slice = NEW.id;
    INSERT INTO slice_value
        SELECT slice, key, value, bake FROM value_of_slice WHERE slice = NEW.id;
END;
CREATE TRIGGER slice_gone AFTER DELETE ON slice BEGIN
    DELETE FROM slice_value WHERE slice = OLD.id;
END;
INSERT INTO slice_value SELECT slice, key, value, bake FROM value_of_slice;

CREATE VIRTUAL TABLE bake_text USING fts5(
    title, notes, handling, content = 'bake', content_rowid = 'id', tokenize = 'trigram');
CREATE TRIGGER bake_text_added AFTER INSERT ON bake BEGIN
    INSERT INTO bake_text (rowid, title, notes, handling)
        VALUES (NEW.id, NEW.title, NEW.notes, NEW.handling);
END;
CREATE TRIGGER bake_text_changed AFTER UPDATE OF title, notes, handling ON bake BEGIN
    INSERT INTO bake_text (bake_text, rowid, title, notes, handling)
        VALUES ('delete', OLD.id, OLD.title, OLD.notes, OLD.handling);
    INSERT INTO bake_text (rowid, title, notes, handling)
        VALUES (NEW.id, NEW.title, NEW.notes, NEW.handling);
END;
CREATE TRIGGER bake_text_gone AFTER DELETE ON bake BEGIN
    INSERT INTO bake_text (bake_text, rowid, title, notes, handling)
        VALUES ('delete', OLD.id, OLD.title, OLD.notes, OLD.handling);
END;
INSERT INTO bake_text (bake_text) VALUES ('rebuild');
)sql";

}  // namespace loafmark::journal
