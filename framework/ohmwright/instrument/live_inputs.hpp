#pragma once

#include <string>

#include <ohmwright/document/document.hpp>
#include <ohmwright/quantity/dimension.hpp>

namespace ohmwright::instrument {

/// Whether the instrument's meter file says that its inputs float and for what they are rated:
/// `"inputs": {"floating": true, "rated": "CAT III 600 V"}`.
bool inputs_float_and_are_rated(const Document& meter);

/// Throws InputError for a reading of a part with power by an instrument that is joined to a computer or to earth: its
/// leads may tie the appliance to earth through it.
void refuse_live_inputs(const std::string& address, const Document& meter);

/// Whether a quantity is read of a part with power: volts and amperes.
bool is_read_with_power(Dimension dimension);

}  // namespace ohmwright::instrument
