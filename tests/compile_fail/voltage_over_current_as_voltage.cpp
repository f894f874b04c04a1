// A voltage over a current is a resistance.
#include <ohmwright/quantity/units.hpp>

namespace ohmwright {

#ifdef OHMWRIGHT_POSITIVE_CONTROL
Resistance quotient(Voltage u, Current i) { return u / i; }
#else
Voltage quotient(Voltage u, Current i) { return u / i; }
#endif

}  // namespace ohmwright
