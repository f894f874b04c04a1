#include <cmath>

#include <ohmwright/cycles/frost.hpp>

namespace ohmwright::cycles {

FrostMass frost_from_plateau(WithUncertainty power, WithUncertainty share, WithUncertainty plateau) {
  const double mass = share.value * power.value * plateau.value / fusion_joule_per_kilogram;
  if (mass <= 0.0) return {};
  const double relative =
      std::hypot(power.uncertainty / power.value, share.uncertainty / share.value, plateau.uncertainty / plateau.value);
  return {mass, mass * relative};
}

double duration_uncertainty(double spacing_second) { return spacing_second / std::sqrt(6.0); }

}  // namespace ohmwright::cycles
