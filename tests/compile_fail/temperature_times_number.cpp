// Twice 25 degC is not 50 degC.
#include <ohmwright/quantity/temperature.hpp>

namespace ohmwright {

#ifdef OHMWRIGHT_POSITIVE_CONTROL
TemperatureDifference twice(TemperatureDifference d) { return d * 2.0; }
#else
Temperature twice(Temperature t) { return t * 2.0; }
#endif

}  // namespace ohmwright
