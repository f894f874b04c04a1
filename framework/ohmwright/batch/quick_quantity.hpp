#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/quantity/stated_value.hpp>

namespace ohmwright::batch {

/// Reads the plain ways to write a quantity, "11.45 kohm", "23C", "0 degC +- 0.2 K", without taking memory, and gives
/// what `parse_stated_value` gives. Remembers units by the text they were given as. One a thread.
class QuickQuantities {
 public:
  /// The value, or nothing where `parse_stated_value` must decide.
  std::optional<StatedValue> read(std::string_view text, Dimension dimension);

 private:
  struct KnownUnit {
    std::string text;
    Dimension dimension;
    Unit unit;
    Unit of_differences;
    int shift;
  };

  const KnownUnit* unit_named(std::string_view text, Dimension dimension);

  std::vector<KnownUnit> units_;
};

}  // namespace ohmwright::batch
