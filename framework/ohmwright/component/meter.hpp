#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include <ohmwright/quantity/any_quantity.hpp>
#include <ohmwright/quantity/core_api.hpp>
#include <ohmwright/quantity/stated_value.hpp>

namespace ohmwright {

/// Accuracy of one range: ± (percent of reading + counts · resolution), the limits that the maker states.
struct MeterRange {
  AnyQuantity full_scale;
  double percent_of_reading = 0.0;
  double counts = 0.0;
  AnyQuantity resolution;
};

/// What a meter measures in one position of its dial.
struct MeterFunction {
  Dimension dimension = Dimension::resistance;
  std::vector<MeterRange> ranges;     ///< ascending full scale
  bool one_means_over_range = false;  ///< old displays show a lone 1 where others show OL
  /// Resistance by hundreds of volts of its own, as an insulation tester reads it: what an ohmmeter with its few volts
  /// cannot.
  bool tests_insulation = false;
};

/// An instrument's accuracy.
struct Meter {
  std::string name;
  std::string title;
  std::string source;  ///< where its figures come from
  std::vector<MeterFunction> functions;
  StatedValue lead_resistance;    ///< of both leads with the probes shorted, subtracted from every resistance
  bool low_impedance = false;     ///< in its low-impedance mode: no ohms
  bool sets_range_itself = true;  ///< else the user turns to a range: OL then says nothing until it is named
};

/// The function of that dimension, or null when the meter has none. Insulation and ohms are two functions.
OHMWRIGHT_CORE_API const MeterFunction* function_for(const Meter& meter, Dimension dimension,
                                                     bool tests_insulation = false);

/// The range a reading was taken on: the one set, else the smallest whose full scale shows `value`; null past the last.
OHMWRIGHT_CORE_API const MeterRange* range_for(const MeterFunction& function, std::optional<AnyQuantity> set_range,
                                               AnyQuantity value);

/// Half-width of the error limits of a reading on that range, percent and counts together [SI unit of the value].
OHMWRIGHT_CORE_API double accuracy_half_width(const MeterRange& range, double value_in_si);

/// The meters of one call; the first is the default.
class OHMWRIGHT_CORE_API MeterSet {
 public:
  /// `meters` must not be empty.
  explicit MeterSet(std::vector<Meter> meters);

  /// The meter of that name, the default for an empty name. Throws InputError naming what there is.
  const Meter& named(const std::string& name) const;
  std::span<const Meter> all() const { return meters_; }

 private:
  std::vector<Meter> meters_;
};

}  // namespace ohmwright
