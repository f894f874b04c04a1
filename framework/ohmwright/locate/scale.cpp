#include <cmath>

#include <ohmwright/locate/scale.hpp>

namespace ohmwright::locate {

double Scale::at(double value_in_si) const { return std::asinh(value_in_si / linear_below); }

double Scale::uncertainty_at(double value_in_si, double uncertainty_in_si) const {
  return uncertainty_in_si / std::hypot(value_in_si, linear_below);
}

double Scale::density_of_anything() const { return 1.0 / at(largest); }

Scale scale_of(Probe probe) {
  switch (probe) {
    case Probe::ohms:
      return {0.5, 60e6};
    case Probe::volts:
      return {1.0, 600.0};
    case Probe::amperes:
      return {0.05, 60.0};
  }
  return {};
}

Dimension dimension_of(Probe probe) {
  switch (probe) {
    case Probe::ohms:
      return Dimension::resistance;
    case Probe::volts:
      return Dimension::voltage;
    case Probe::amperes:
      break;
  }
  return Dimension::current;
}

}  // namespace ohmwright::locate
