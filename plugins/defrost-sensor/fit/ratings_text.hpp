#pragma once

#include <string>
#include <utility>

#include <ohmwright/component/value_tree.hpp>

#include "curves/curve.hpp"
#include "fit/fit_row.hpp"

namespace ohmwright::defrost_sensor {

// Ratings as people write them, made from figures. Ten digits: a millionth of a kelvin, and none that nobody needs.

/// Rounded to ten significant digits.
double ten_digits(double value);

ValueNode number_node(double value);
ValueNode text_node(std::string text);
ValueNode object_node(ValueNode::Members members);

/// "9939.208276 ohm", "3790.32233 K", "-40 degC".
ValueNode resistance_node(Resistance r);
ValueNode kelvin_node(double kelvin);
ValueNode celsius_node(Temperature t);
/// {"from": "-40 degC", "to": "50 degC"}
ValueNode span_node(TemperatureSpan span);

/// Whole ratings of a curve. Rows of one part do not tell how far good parts may be off: the tolerance is a stand-in
/// that says so in its source.
ValueNode ratings_node(ValueNode curve);

}  // namespace ohmwright::defrost_sensor
