#pragma once

#include <initializer_list>
#include <span>
#include <string>
#include <string_view>

#include <ohmwright/quantity/print.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright {

/// The gettext domain of the framework's own texts.
inline constexpr const char* framework_text_domain = "ohmwright";

/// Makes sentences: looks the English pattern up in the reader's language and fills its named fields.
///
/// Quantities are printed in the units that the reader typed.
class Sentences {
 public:
  explicit Sentences(const UnitPreferences& units) : units_(units) {}

  /// A sentence of the framework.
  std::string operator()(std::string_view pattern, std::span<const FindingArgument> arguments = {}) const;
  std::string operator()(std::string_view pattern, std::initializer_list<FindingArgument> arguments) const {
    return (*this)(pattern, std::span(arguments.begin(), arguments.size()));
  }
  /// A sentence of a plugin, from the catalogue of its domain, else from the framework's (what core says of all kinds).
  std::string in_domain(std::string_view domain, std::string_view pattern,
                        std::span<const FindingArgument> arguments = {}) const;

  /// A quantity as this reader sees it: "11.00 kΩ".
  std::string quantity(AnyQuantity value, int significant_digits = 4) const;
  /// The unit in which this reader sees values about as large as `typical`.
  Unit unit_for(AnyQuantity typical) const { return units_.unit_for(typical); }
  /// A value as stated, with its ±: "23.0 °C ± 1.0 °C".
  std::string stated(const StatedValue& value) const;

 private:
  UnitPreferences units_;
};

/// The language that texts come out in, for a page's `lang`: "en" without a catalogue.
std::string language_of_texts();

/// A probability in words of a percentage that never claims certainty: "99.6 %", "> 99.9 %", "< 0.1 %".
std::string percent_text(double probability);

}  // namespace ohmwright
