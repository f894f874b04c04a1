// A bare number does not become a quantity at run time either.
#include <ohmwright/quantity/any_quantity.hpp>

namespace ohmwright {

#ifdef OHMWRIGHT_POSITIVE_CONTROL
AnyQuantity value() { return Resistance::from_value(11e3); }
#else
AnyQuantity value() { return 11e3; }
#endif

}  // namespace ohmwright
