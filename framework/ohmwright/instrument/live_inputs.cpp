#include <ohmwright/document/fields.hpp>
#include <ohmwright/instrument/live_inputs.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::instrument {

bool inputs_float_and_are_rated(const Document& meter) {
  const ValueNode* inputs = meter.root.find("inputs");
  return inputs != nullptr && flag_of(*inputs, "floating") && !text_of(*inputs, "rated").empty();
}

void refuse_live_inputs(const std::string& address, const Document& meter) {
  if (inputs_float_and_are_rated(meter)) return;
  throw InputError(
      "the instrument " + ohmwright::quoted(address) +
      " is for parts without power: joined to a computer or to earth it may tie a live appliance to earth. "
      "Read live parts with a hand-held meter; or, where the maker says that its inputs float and are "
      R"(rated for it, say so in its meter file: "inputs": {"floating": true, "rated": "CAT III 600 V"})");
}

bool is_read_with_power(Dimension dimension) {
  return dimension == Dimension::voltage || dimension == Dimension::current || dimension == Dimension::power;
}

}  // namespace ohmwright::instrument
