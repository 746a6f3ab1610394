// The schema's step that lets loaves of one dough be proved for different times.
#pragma once

namespace loafmark::journal {

// NULL: as the bake's step "final proof" says.
inline constexpr const char* loaf_proof_step = R"sql(
ALTER TABLE loaf ADD COLUMN proof_min REAL CHECK (proof_min > 0);
ALTER TABLE loaf ADD COLUMN proof_temperature_c REAL;
)sql";

}  // namespace loafmark::journal
