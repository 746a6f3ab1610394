#include "plane.h"

#include <algorithm>

namespace loafmark::accuracy {

Homography product(const Homography& a, const Homography& b) {
    Homography c{};
    for (std::size_t i = 0; i < 3; ++i)
        for (std::size_t j = 0; j < 3; ++j)
            for (std::size_t k = 0; k < 3; ++k)
                c[i][j] += a[i][k] * b[k][j];
    return c;
}

// The adjugate.
Homography inverse(const Homography& m) {
    Homography r{};
    for (std::size_t i = 0; i < 3; ++i)
        for (std::size_t j = 0; j < 3; ++j) {
            const std::size_t a = (j + 1) % 3, b = (j + 2) % 3, c = (i + 1) % 3, d = (i + 2) % 3;
            r[i][j] = m[a][c] * m[b][d] - m[a][d] * m[b][c];
        }
    return r;
}

PlanePoint mapped(const Homography& m, double x, double y) {
    const double w = m[2][0] * x + m[2][1] * y + m[2][2];
    return {(m[0][0] * x + m[0][1] * y + m[0][2]) / w, (m[1][0] * x + m[1][1] * y + m[1][2]) / w};
}

std::vector<double> crossings(const std::vector<PlanePoint>& polygon, double y) {
    std::vector<double> xs;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const PlanePoint& a = polygon[i];
        const PlanePoint& b = polygon[(i + 1) % polygon.size()];
        if ((a.y <= y) != (b.y <= y)) xs.push_back(a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x));
    }
    std::sort(xs.begin(), xs.end());
    return xs;
}

namespace {

double total(const std::vector<double>& xs) {
    double sum = 0;
    for (std::size_t i = 0; i + 1 < xs.size(); i += 2)
        sum += xs[i + 1] - xs[i];
    return sum;
}

double shared(const std::vector<double>& a, const std::vector<double>& b) {
    double sum = 0;
    for (std::size_t i = 0; i + 1 < a.size(); i += 2)
        for (std::size_t j = 0; j + 1 < b.size(); j += 2)
            sum += std::max(0.0, std::min(a[i + 1], b[j + 1]) - std::max(a[i], b[j]));
    return sum;
}

}  // namespace

double overlap(const std::vector<PlanePoint>& a, const std::vector<PlanePoint>& b, double step) {
    double low = 1e300, high = -1e300;
    for (const std::vector<PlanePoint>* polygon : {&a, &b})
        for (const PlanePoint& p : *polygon) {
            low = std::min(low, p.y);
            high = std::max(high, p.y);
        }
    double both = 0, one = 0;
    for (double y = low + step / 2; y < high; y += step) {
        const std::vector<double> in_a = crossings(a, y), in_b = crossings(b, y);
        both += shared(in_a, in_b);
        one += total(in_a) + total(in_b);
    }
    return one > 0 ? both / (one - both) : 0;
}

}  // namespace loafmark::accuracy
