#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/quantity/any_quantity.hpp>
#include <ohmwright/quantity/core_api.hpp>

namespace ohmwright {

/// Reads the figures of a ratings object, `"120 V"` or `{"value": "120 V", "source": "rating plate"}`, and collects
/// what is wrong with its place. For the authors of kinds.
class OHMWRIGHT_CORE_API RatedFigures {
 public:
  explicit RatedFigures(std::vector<Problem>& problems) : problems_(problems) {}

  /// The figure called `name` in `object`, in the SI unit of `dimension`; nothing when it is missing or was refused: of
  /// another dimension, or with a ± (how far good parts may be off is a rating of its own).
  std::optional<double> in_si(const ValueNode& object, std::string_view name, Dimension dimension);

  /// The same as a quantity: `figure<Voltage>(ratings, "voltage")`.
  template <StaticQuantity Quantity>
  std::optional<Quantity> figure(const ValueNode& object, std::string_view name) {
    const std::optional<double> value = in_si(object, name, dimension_of<Quantity>);
    return value ? std::optional(AnyQuantity(dimension_of<Quantity>, *value).as<Quantity>()) : std::nullopt;
  }
  /// The same, refused unless it is above zero.
  template <StaticQuantity Quantity>
  std::optional<Quantity> positive(const ValueNode& object, std::string_view name) {
    std::optional<Quantity> value = figure<Quantity>(object, name);
    if (!value || value->value() > 0.0) return value;
    refuse(object, name, "this figure must be above 0");
    return std::nullopt;
  }

  /// A share written as "5 %" [0…1], both ends left out.
  std::optional<double> tolerance(const ValueNode& object, std::string_view name);

  static std::optional<int> whole_number(const ValueNode& object, std::string_view name);
  /// The text of that member; empty when it is missing.
  static std::string word(const ValueNode& object, std::string_view name);

  void refuse(const ValueNode& where, std::string text) { problems_.push_back(where.problem(std::move(text))); }
  /// Refuses the figure `name` of `object`.
  void refuse(const ValueNode& object, std::string_view name, std::string text);

 private:
  std::vector<Problem>& problems_;
};

}  // namespace ohmwright
