// The chance that a comparison sees a difference that is there, by the noncentral t distribution
// (e.g. Cohen, Statistical Power Analysis for the Behavioral Sciences, 2nd ed. 1988, ch. 2).
#pragma once

namespace loafmark::statistics {

// P(|T| > critical_value) for T = difference / its standard error when the true ratio is
// `true_ratio`, with the error variance estimated on `degrees_of_freedom`. At a true ratio of 0 it
// is the size of the test. Throws std::invalid_argument for degrees_of_freedom < 1, a critical
// value that is not above 0 or a ratio that is not finite.
[[nodiscard]] double power(double true_ratio, int degrees_of_freedom, double critical_value);

// The smallest true ratio that is seen with this chance, between the size of the test and 1
// (excluded). Throws likewise, and for a chance outside.
[[nodiscard]] double ratio_seen(double chance, int degrees_of_freedom, double critical_value);

}  // namespace loafmark::statistics
