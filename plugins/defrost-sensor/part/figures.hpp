#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/quantity/any_quantity.hpp>

#include "curves/curve.hpp"

namespace ohmwright::defrost_sensor {

/// Reads the figures of a ratings object, "10 kohm" or {"value": "10 kohm", "source": "…"}, and collects what is wrong.
class Figures {
 public:
  explicit Figures(std::vector<Problem>& problems) : problems_(problems) {}

  /// The figure called `name` in `object`; nothing when it is missing or was refused.
  std::optional<Resistance> resistance(const ValueNode& object, std::string_view name);
  std::optional<Voltage> voltage(const ValueNode& object, std::string_view name);
  std::optional<Power> power(const ValueNode& object, std::string_view name);
  std::optional<Temperature> temperature(const ValueNode& object, std::string_view name);
  std::optional<TemperatureDifference> difference(const ValueNode& object, std::string_view name);
  /// A tolerance written as "5 %", as a share [0…1).
  std::optional<double> tolerance(const ValueNode& object, std::string_view name);
  /// A plain number or {"value": number, "source": "…"}.
  std::optional<double> number(const ValueNode& object, std::string_view name);
  std::optional<std::string> word(const ValueNode& object, std::string_view name);
  /// {"from": …, "to": …}
  std::optional<TemperatureSpan> span(const ValueNode& object, std::string_view name);

  void refuse(const ValueNode& where, std::string text) { problems_.push_back(where.problem(std::move(text))); }
  /// Runs `make`; what it refuses is told at `where`.
  bool guarded(const ValueNode& where, const std::function<void()>& make);

 private:
  std::optional<double> number_in_si(const ValueNode& object, std::string_view name, Dimension dimension);

  std::vector<Problem>& problems_;
};

/// The node that holds a figure's value: the member itself, or its member "value".
const ValueNode* value_node(const ValueNode& object, std::string_view name);

}  // namespace ohmwright::defrost_sensor
