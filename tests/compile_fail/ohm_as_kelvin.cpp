// A resistance is no temperature.
#include <ohmwright/quantity/temperature.hpp>

namespace ohmwright {

inline double kelvin_of(Temperature t) { return t.kelvin(); }

#ifdef OHMWRIGHT_POSITIVE_CONTROL
double reading() { return kelvin_of(Temperature::from_kelvin(296.15)); }
#else
double reading() { return kelvin_of(Resistance::from_value(296.15)); }
#endif

}  // namespace ohmwright
