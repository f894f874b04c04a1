#include "typed_readings.hpp"

#include <optional>
#include <string>

#include <ohmwright/document/kind_values.hpp>
#include <ohmwright/quantity/observed.hpp>

namespace ohmwright::cli {

namespace {

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
      const Observed observed = parse_observed(text, measurand.dimension, options);
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
