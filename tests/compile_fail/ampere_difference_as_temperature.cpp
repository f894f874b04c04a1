// A point on the scale moves by a difference of temperatures and by nothing else.
#include <ohmwright/quantity/temperature.hpp>

namespace ohmwright {

#ifdef OHMWRIGHT_POSITIVE_CONTROL
Temperature moved(Temperature t, TemperatureDifference d) { return t - d; }
#else
Temperature moved(Temperature t, Current d) { return t - d; }
#endif

}  // namespace ohmwright
