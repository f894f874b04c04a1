#pragma once

#include <vector>

namespace ohmwright::cycles {

/// The middle one of the values, which come in another order; the upper one of two; 0 of none.
double median_of(std::vector<double> values);

}  // namespace ohmwright::cycles
