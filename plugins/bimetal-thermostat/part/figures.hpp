#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/quantity/any_quantity.hpp>

namespace ohmwright::bimetal_thermostat {

/// Reads the figures of a ratings object, "13 degC" or {"value": "13 degC", "source": "…"}, and collects what is wrong.
class Figures {
 public:
  explicit Figures(std::vector<Problem>& problems) : problems_(problems) {}

  /// The figure called `name` in `object`; nothing when it is missing or was refused.
  std::optional<Temperature> temperature(const ValueNode& object, std::string_view name);
  std::optional<TemperatureDifference> difference(const ValueNode& object, std::string_view name);
  std::optional<Resistance> resistance(const ValueNode& object, std::string_view name);
  std::optional<Current> current(const ValueNode& object, std::string_view name);
  std::optional<Voltage> voltage(const ValueNode& object, std::string_view name);
  static std::optional<int> whole_number(const ValueNode& object, std::string_view name);
  static std::string word(const ValueNode& object, std::string_view name);

  void refuse(const ValueNode& where, std::string text) { problems_.push_back(where.problem(std::move(text))); }
  /// Refuses the figure `name` of `object`.
  void refuse(const ValueNode& object, std::string_view name, std::string text);

 private:
  std::optional<double> number_in_si(const ValueNode& object, std::string_view name, Dimension dimension);

  std::vector<Problem>& problems_;
};

}  // namespace ohmwright::bimetal_thermostat
