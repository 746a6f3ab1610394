#include "statistics/interval.h"

#include <boost/math/distributions/students_t.hpp>
#include <stdexcept>

namespace loafmark::statistics {

double t_critical(int degrees_of_freedom, double confidence) {
    if (degrees_of_freedom < 1)
        throw std::invalid_argument("t_critical: degrees_of_freedom must be at least 1");
    if (!(confidence > 0 && confidence < 1))
        throw std::invalid_argument("t_critical: confidence must lie between 0 and 1");
    const boost::math::students_t distribution(degrees_of_freedom);
    return boost::math::quantile(complement(distribution, (1 - confidence) / 2));
}

}  // namespace loafmark::statistics
