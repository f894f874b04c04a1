// Two points on the temperature scale have no sum.
#include <ohmwright/quantity/temperature.hpp>

namespace ohmwright {

#ifdef OHMWRIGHT_POSITIVE_CONTROL
TemperatureDifference change(Temperature a, Temperature b) { return a - b; }
#else
Temperature change(Temperature a, Temperature b) { return a + b; }
#endif

}  // namespace ohmwright
