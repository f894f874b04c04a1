#include "typed_readings.hpp"

#include <optional>
#include <string>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/observed.hpp>

namespace ohmwright::cli {

namespace {

std::optional<Unit> unit_named(std::string_view name, Dimension dimension) {
  return name.empty() ? std::nullopt : Unit::named(name, dimension);
}

/// Turns one group of words into a reading; a value that is no number makes a reading of its own, since it has no mean.
class ReadingMaker {
 public:
  ReadingMaker(const Descriptor& descriptor, const Meter& meter, UnitPreferences& units, std::vector<Reading>& readings)
      : descriptor_(descriptor), meter_(meter), units_(units), readings_(readings) {}

  void make(const ReadingWords& words) {
    const MeasurandDescriptor& measurand = descriptor_.measurands[index_of(descriptor_.measurands, words.measurand)];
    std::optional<std::size_t> numeric;  // not a pointer: the list grows
    for (const std::string& text : words.values) {
      const Observed observed = parse_observed(text, measurand.dimension, options_for(measurand));
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
  ObservedOptions options_for(const MeasurandDescriptor& measurand) const {
    const MeterFunction* function = function_for(meter_, measurand.dimension);
    ObservedOptions options;
    options.lone_one_is_over = function != nullptr && function->one_means_over_range;
    options.contact_words = measurand.takes_contact_state;
    options.continuity_sound = measurand.takes_contact_state;
    if (measurand.takes_bare_number) options.default_unit = unit_named(measurand.default_unit, measurand.dimension);
    return options;
  }

  void add(const ReadingWords& words, const Observed& observed) {
    readings_.push_back({.label = "reading " + std::to_string(readings_.size() + 1),
                         .measurand = words.measurand,
                         .observed = observed});
    Reading& reading = readings_.back();
    for (const CircumstanceWord& circumstance : words.circumstances) apply(circumstance, reading);
  }

  void apply(const CircumstanceWord& circumstance, Reading& reading) {
    const std::string& option = circumstance.option;
    if (option == "lead-off") {
      reading.connection = Connection::lead_off;
    } else if (option == "in-circuit") {
      reading.connection = Connection::in_circuit;
    } else if (option == "wet") {
      reading.moisture = Moisture::wet;
    } else if (option == "dry") {
      reading.moisture = Moisture::dry;
    } else if (option == "unplugged") {
      reading.supply = Supply::unplugged;
    } else if (option == "proved-dead") {
      reading.supply = Supply::proved_dead;
    } else if (option == "live") {
      reading.supply = Supply::live;
    } else if (option == "range") {
      const Dimension dimension = descriptor_.measurands[index_of(descriptor_.measurands, reading.measurand)].dimension;
      reading.range = parse_stated_value(circumstance.value, dimension).value;
    } else {
      add_condition(circumstance, reading);
    }
  }

  /// Readings that one word was said of are wrong together.
  static std::string error_of(const CircumstanceWord& circumstance, const Reading& reading) {
    if (circumstance.of_one_reading) return reading.label;
    if (circumstance.said_for == CircumstanceWord::for_all) return "all readings";
    return "group " + std::to_string(circumstance.said_for + 1);
  }

  void add_condition(const CircumstanceWord& circumstance, Reading& reading) {
    for (const ConditionDescriptor& descriptor : descriptor_.conditions) {
      if (descriptor.option != circumstance.option && descriptor.id != circumstance.option) continue;
      StatedValueOptions options;
      options.default_unit = unit_named(descriptor.default_unit, descriptor.dimension);
      const StatedValue stated = parse_stated_value(circumstance.value, descriptor.dimension, options);
      units_.prefer(stated.unit);
      Condition condition{std::string(descriptor.id), stated, error_of(circumstance, reading), false};
      if (!stated.half_width && descriptor.default_half_width > 0.0) {
        condition.value.half_width = descriptor.default_half_width;
        condition.uncertainty_assumed = true;
      }
      reading.conditions.push_back(std::move(condition));
      return;
    }
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
