#include "typed_readings.hpp"

#include <optional>
#include <string>

#include <ohmwright/document/kind_values.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/observed.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::cli {

namespace {

/// Whether the text is a value of that dimension, its unit with it.
bool is_value_of(const std::string& text, Dimension dimension) {
  try {
    parse_stated_value(text, dimension, {});
    return true;
  } catch (const InputError&) {
    return false;
  }
}

/// How to say a value that is none of the measurand but one of another: 1550rpm among ohms is speed=1550rpm. The first
/// three of them, since a unit may belong to several. Empty for others.
std::string measurand_meant_by(const std::string& text, const Descriptor& descriptor) {
  constexpr std::size_t most = 3;
  std::vector<std::string> ways;
  for (const MeasurandDescriptor& measurand : descriptor.measurands)
    if (ways.size() < most && is_value_of(text, measurand.dimension))
      ways.push_back(std::string(measurand.id) + "=" + printable(text));
  return ways.empty() ? "" : "; name what was read: " + listed(ways);
}

/// How to say a value that is none of a measurand but one of a condition: 23C among ohms is --at 23C, and so is "at".
/// Empty for others.
std::string condition_meant_by(const std::string& text, const Descriptor& descriptor) {
  for (const ConditionDescriptor& condition : descriptor.conditions) {
    if (text == condition.option) return "; did you mean --" + text + "?";
    if (is_value_of(text, condition.dimension))
      return "; " + std::string(phrase_of(condition.dimension)) + " is said with --" + std::string(condition.option) +
             ": --" + std::string(condition.option) + " " + printable(text);
  }
  return "";
}

Observed observed_in(const std::string& text, const MeasurandDescriptor& measurand, const ObservedOptions& options,
                     const Descriptor& descriptor) {
  try {
    return parse_observed(text, measurand.dimension, options);
  } catch (const InputError& error) {
    std::string meant = measurand_meant_by(text, descriptor);
    if (meant.empty()) meant = condition_meant_by(text, descriptor);
    if (meant.empty()) throw;
    throw InputError(error.what() + meant);
  }
}

/// Turns one group of words into a reading; a value that is no number makes a reading of its own, since it has no mean.
class ReadingMaker {
 public:
  ReadingMaker(const Descriptor& descriptor, const Meter& meter, UnitPreferences& units, std::vector<Reading>& readings)
      : descriptor_(descriptor), meter_(meter), units_(units), readings_(readings) {}

  void make(const ReadingWords& words) {
    const MeasurandDescriptor& measurand = descriptor_.measurands[index_of(descriptor_.measurands, words.measurand)];
    ObservedOptions options = observed_options(measurand, &meter_);
    options.default_unit = default_unit_of(measurand);
    std::optional<std::size_t> numeric;  // not a pointer: the list grows
    for (const std::string& text : words.values) {
      const Observed observed = observed_in(text, measurand, options, descriptor_);
      const auto* stated = std::get_if<StatedValue>(&observed);
      if (stated != nullptr) units_.prefer(stated->unit);
      if (stated != nullptr && numeric && !stated->half_width) {
        readings_[*numeric].repeats.push_back(stated->value.value_in_si());
        continue;
      }
      add(words, observed);
      if (stated != nullptr && !stated->half_width) numeric = readings_.size() - 1;
    }
  }

 private:
  void add(const ReadingWords& words, const Observed& observed) {
    readings_.push_back({.label = "reading " + std::to_string(readings_.size() + 1),
                         .measurand = words.measurand,
                         .observed = observed});
    for (const CircumstanceWord& circumstance : words.circumstances)
      apply(circumstance, descriptor_, units_, readings_.back());
  }

  const Descriptor& descriptor_;
  const Meter& meter_;
  UnitPreferences& units_;
  std::vector<Reading>& readings_;
};

}  // namespace

std::vector<Reading> make_readings(std::span<const ReadingWords> words, const Descriptor& descriptor,
                                   const Meter& meter, UnitPreferences& units) {
  std::vector<Reading> readings;
  ReadingMaker maker(descriptor, meter, units, readings);
  for (const ReadingWords& word : words) maker.make(word);
  return readings;
}

}  // namespace ohmwright::cli
