#include "fit/ratings_text.hpp"

#include <array>
#include <cstdio>
#include <cstdlib>

namespace ohmwright::defrost_sensor {

namespace {

std::string ten_digit_text(double value) {
  std::array<char, 32> text{};
  std::snprintf(text.data(), text.size(), "%.10g", value);
  return text.data();
}

}  // namespace

double ten_digits(double value) { return std::strtod(ten_digit_text(value).c_str(), nullptr); }

ValueNode number_node(double value) { return {value, "", 0}; }
ValueNode text_node(std::string text) { return {std::move(text), "", 0}; }
ValueNode object_node(ValueNode::Members members) { return {std::move(members), "", 0}; }

ValueNode resistance_node(Resistance r) { return text_node(ten_digit_text(r.value()) + " ohm"); }
ValueNode kelvin_node(double kelvin) { return text_node(ten_digit_text(kelvin) + " K"); }
ValueNode celsius_node(Temperature t) { return text_node(ten_digit_text(t.celsius()) + " degC"); }

ValueNode span_node(TemperatureSpan span) {
  return object_node({{"from", celsius_node(span.from)}, {"to", celsius_node(span.to)}});
}

ValueNode ratings_node(ValueNode curve) {
  ValueNode tolerance = object_node(
      {{"value", text_node("5 %")},
       {"source", text_node("common practice, no source: rows do not tell how far good parts may be off; write what "
                            "the sheet says")}});
  return object_node({{"curve", std::move(curve)}, {"tolerance", object_node({{"resistance", std::move(tolerance)}})}});
}

}  // namespace ohmwright::defrost_sensor
