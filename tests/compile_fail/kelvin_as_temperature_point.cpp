// A difference in kelvin is no point on the scale.
#include <ohmwright/quantity/temperature.hpp>

namespace ohmwright {

#ifdef OHMWRIGHT_POSITIVE_CONTROL
Temperature warmer(Temperature t, TemperatureDifference d) { return t + d; }
#else
Temperature warmer(Temperature, TemperatureDifference d) { return d; }
#endif

}  // namespace ohmwright
