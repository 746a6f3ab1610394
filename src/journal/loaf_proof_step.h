// The schema's step that lets loaves of one dough be proved for different times, and by which
// trends over a whole journal are quick.
#pragma once

namespace loafmark::journal {

// NULL: as the bake's step "final proof" says. A reading's document is long, so that what is asked
// of all readings is kept in an index.
inline constexpr const char* loaf_proof_step = R"sql(
ALTER TABLE loaf ADD COLUMN proof_min REAL CHECK (proof_min > 0);
ALTER TABLE loaf ADD COLUMN proof_temperature_c REAL;

DROP INDEX reading_slice;
CREATE INDEX reading_slice ON reading (slice, analysis_version);
CREATE INDEX reading_warning_code ON reading_warning (code, reading);
)sql";

}  // namespace loafmark::journal
