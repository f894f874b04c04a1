#include "circumstances.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include <ohmwright/document/kind_values.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::cli {

namespace {

constexpr std::array circumstances{
    OptionSpec{"--lead-off", "", OHMWRIGHT_TEXT("Read with at least one lead of the part lifted"), {}},
    OptionSpec{"--in-circuit", "", OHMWRIGHT_TEXT("Read with the part still connected"), {}},
    OptionSpec{"--wet", "", OHMWRIGHT_TEXT("Read as found, wet"), {}},
    OptionSpec{"--dry", "", OHMWRIGHT_TEXT("Read after drying"), {}},
    OptionSpec{"--unplugged", "", OHMWRIGHT_TEXT("The appliance was unplugged"), {}},
    OptionSpec{"--proved-dead", "", OHMWRIGHT_TEXT("The points read near zero volts before"), {}},
    OptionSpec{"--live", "", OHMWRIGHT_TEXT("The appliance was plugged in"), {}},
    OptionSpec{"--range", "VALUE", OHMWRIGHT_TEXT("The range that was set, such as 60k"), {}},
    OptionSpec{"--leads",
               "OHMS",
               OHMWRIGHT_TEXT("What the shorted probes showed, such as 0.3ohm; 0 where the meter was zeroed with them"),
               {}},
};

constexpr std::array<std::pair<std::string_view, std::string_view>, 4> contradictions{
    {{"lead-off", "in-circuit"}, {"wet", "dry"}, {"live", "unplugged"}, {"live", "proved-dead"}}};

const ConditionDescriptor* condition_of(const CircumstanceWord& circumstance, const Descriptor& descriptor) {
  for (const ConditionDescriptor& condition : descriptor.conditions)
    if (condition.option == circumstance.option) return &condition;
  return nullptr;
}

const MeasurandDescriptor* measurand_of(const Reading& reading, const Descriptor& descriptor) {
  const std::uint16_t index = index_of(descriptor.measurands, reading.measurand);
  return index == not_found ? nullptr : &descriptor.measurands[index];
}

bool is_ohms(const Reading& reading, const Descriptor& descriptor) {
  const MeasurandDescriptor* measurand = measurand_of(reading, descriptor);
  return measurand != nullptr && measurand->dimension == Dimension::resistance;
}

/// Of the dimension of what was read; a bare number has the unit that completes its readings.
AnyQuantity range_in(const std::string& text, const Descriptor& descriptor, const Reading& reading) {
  const MeasurandDescriptor* measurand = measurand_of(reading, descriptor);
  StatedValueOptions options;
  if (measurand != nullptr) {
    options.default_unit = default_unit_of(*measurand);
    options.usual_unit = Unit::named(measurand->default_unit, measurand->dimension);
  }
  return parse_stated_value(text, measurand != nullptr ? measurand->dimension : Dimension::resistance, options).value;
}

/// What the probes showed when they were held together; a bare number is ohms.
StatedValue leads_in(const std::string& text) {
  StatedValueOptions options;
  options.default_unit = Unit::si(Dimension::resistance);
  const StatedValue leads = parse_stated_value(text, Dimension::resistance, options);
  if (const std::string slip = slip_in_leads(leads); !slip.empty()) throw InputError("--leads: " + slip);
  return leads;
}

const StateDescriptor* state_of(const CircumstanceWord& circumstance, const Descriptor& descriptor) {
  for (const StateDescriptor& state : descriptor.states)
    if (!state.option.empty() && state.option == circumstance.option) return &state;
  return nullptr;
}

NamedState named_state(const StateDescriptor& state, const std::string& value) {
  std::vector<std::string> known;
  for (const TextEntry& row : state.values) known.emplace_back(row.id);
  if (std::find(known.begin(), known.end(), value) == known.end())
    throw InputError("--" + std::string(state.option) + " takes " + listed(known) + ", got " +
                     ohmwright::quoted(value) + did_you_mean(value, known));
  return {std::string(state.id), value};
}

bool is_said(const CircumstanceWord& circumstance, const Descriptor& descriptor, const Reading& reading) {
  const std::string& option = circumstance.option;
  if (option == "lead-off" || option == "in-circuit") return reading.connection != Connection::unstated;
  if (option == "wet" || option == "dry") return reading.moisture != Moisture::unstated;
  if (option == "range") return reading.range.has_value();
  if (option == "leads") return reading.leads.has_value();
  if (const StateDescriptor* state = state_of(circumstance, descriptor))
    return std::any_of(reading.states.begin(), reading.states.end(),
                       [state](const NamedState& said) { return said.state == state->id; });
  const ConditionDescriptor* condition = condition_of(circumstance, descriptor);
  if (condition == nullptr) return reading.supply != Supply::unstated;
  return std::any_of(reading.conditions.begin(), reading.conditions.end(),
                     [condition](const Condition& said) { return said.id == condition->id; });
}

}  // namespace

std::span<const OptionSpec> circumstance_options() { return circumstances; }

const OptionSpec* circumstance_named(std::string_view option) {
  for (const OptionSpec& circumstance : circumstances)
    if (circumstance.name.substr(2) == option) return &circumstance;
  return nullptr;
}

bool contradict(std::string_view option, std::string_view other) {
  return std::any_of(contradictions.begin(), contradictions.end(), [&](const auto& pair) {
    return (pair.first == option && pair.second == other) || (pair.first == other && pair.second == option);
  });
}

void apply(const CircumstanceWord& circumstance, const Descriptor& descriptor, UnitPreferences& units,
           Reading& reading) {
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
    reading.range = range_in(circumstance.value, descriptor, reading);
  } else if (option == "leads") {
    if (is_ohms(reading, descriptor)) reading.leads = leads_in(circumstance.value);
  } else if (const StateDescriptor* state = state_of(circumstance, descriptor)) {
    reading.states.push_back(named_state(*state, circumstance.value));
  } else if (const ConditionDescriptor* condition = condition_of(circumstance, descriptor)) {
    if (!says_something_of(*condition, reading.measurand)) return;
    StatedValueOptions options;
    options.default_unit = default_unit_of(*condition);
    const StatedValue stated = parse_stated_value(circumstance.value, condition->dimension, options);
    if (const std::string slip = slip_in(stated); !slip.empty()) throw InputError("--" + option + ": " + slip);
    units.prefer(stated.unit);
    reading.conditions.push_back(stated_condition(*condition, stated, {}));
  }
}

void apply_to_all(std::span<const CircumstanceWord> said_for_all, const Descriptor& descriptor, UnitPreferences& units,
                  std::span<Reading> readings) {
  for (Reading& reading : readings) {
    for (const CircumstanceWord& circumstance : said_for_all)
      if (is_said(circumstance, descriptor, reading))
        throw InputError("--" + printable(circumstance.option) + " is said for all readings, and " +
                         printable(reading.label) + " of the file says it too; leave one out");
    for (const CircumstanceWord& circumstance : said_for_all) apply(circumstance, descriptor, units, reading);
  }
}

}  // namespace ohmwright::cli
