// A voltage and a current have no sum.
#include <ohmwright/quantity/units.hpp>

namespace ohmwright {

#ifdef OHMWRIGHT_POSITIVE_CONTROL
Voltage sum(Voltage a, Voltage b) { return a + b; }
#else
Voltage sum(Voltage a, Current b) { return a + b; }
#endif

}  // namespace ohmwright
