#include <algorithm>
#include <string>
#include <string_view>

#include <ohmwright/batch/line_readings.hpp>
#include <ohmwright/document/kind_values.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::batch {

namespace {

bool set_connection(std::string_view text, Reading& reading) {
  reading.connection = text.empty()           ? Connection::unstated
                       : text == "lead-off"   ? Connection::lead_off
                       : text == "in-circuit" ? Connection::in_circuit
                                              : Connection::unstated;
  return text.empty() || reading.connection != Connection::unstated;
}

bool set_moisture(std::string_view text, Reading& reading) {
  reading.moisture = text == "dry" ? Moisture::dry : text == "wet" ? Moisture::wet : Moisture::unstated;
  return text.empty() || reading.moisture != Moisture::unstated;
}

bool set_supply(std::string_view text, Reading& reading) {
  reading.supply = text == "unplugged"     ? Supply::unplugged
                   : text == "proved-dead" ? Supply::proved_dead
                   : text == "live"        ? Supply::live
                                           : Supply::unstated;
  return text.empty() || reading.supply != Supply::unstated;
}

/// A reading is written over the one of the line before, which mostly had the same names: to see that costs less than
/// to write them again.
void put(std::string_view text, std::string& into) {
  if (into != text) into.assign(text);
}

const Meter* meter_named(const MeterSet& meters, std::string_view name) {
  if (name.empty()) return &meters.all().front();
  for (const Meter& meter : meters.all())
    if (meter.name == name) return &meter;
  return nullptr;
}

/// "OL", "open", and numbers that are rarely written so: what a person may type, read as the strict parser reads it.
bool observe_slowly(std::string_view text, const MeasurandDescriptor& measurand, const Meter& meter, Reading& reading) {
  try {
    reading.observed = parse_observed(text, measurand.dimension, observed_options(measurand, &meter));
    return true;
  } catch (const InputError&) {
    return false;
  }
}

bool take_condition(std::string_view name, std::string_view text, const Descriptor& descriptor,
                    QuickQuantities& quantities, Condition& condition) {
  const std::uint16_t index = index_of(descriptor.conditions, name);
  if (index == not_found) return false;
  const ConditionDescriptor& row = descriptor.conditions[index];
  const std::optional<StatedValue> stated = quantities.read(text, row.dimension);
  if (!stated || !slip_in(*stated).empty()) return false;
  put(row.id, condition.id);
  condition.error_source.clear();
  condition.value = *stated;
  condition.uncertainty_assumed = false;
  if (!stated->half_width && row.default_half_width > 0.0) {
    condition.value.half_width = row.default_half_width;
    condition.uncertainty_assumed = true;
  }
  return true;
}

const Condition& any_condition() {
  static const Condition condition{
      {}, StatedValue{AnyQuantity(Dimension::ratio, 0.0), std::nullopt, Unit::si(Dimension::ratio)}};
  return condition;
}

bool make_reading(const ReadingFields& fields, const Descriptor& descriptor, const MeterSet& meters,
                  QuickQuantities& quantities, Reading& reading) {
  const std::uint16_t index =
      fields.measurand.empty() ? std::uint16_t{0} : index_of(descriptor.measurands, fields.measurand);
  const Meter* meter = meter_named(meters, fields.meter);
  if (index >= descriptor.measurands.size() || meter == nullptr) return false;
  const MeasurandDescriptor& measurand = descriptor.measurands[index];
  put(measurand.id, reading.measurand);
  put(fields.meter, reading.meter);
  if (const std::optional<StatedValue> stated = quantities.read(fields.value, measurand.dimension))
    reading.observed = *stated;
  else if (!observe_slowly(fields.value, measurand, *meter, reading))
    return false;
  if (!set_connection(fields.connection, reading) || !set_moisture(fields.moisture, reading) ||
      !set_supply(fields.supply, reading))
    return false;
  reading.conditions.resize(fields.conditions.size(), any_condition());
  for (std::size_t i = 0; i < fields.conditions.size(); ++i)
    if (!take_condition(fields.conditions[i].first, fields.conditions[i].second, descriptor, quantities,
                        reading.conditions[i]))
      return false;
  return true;
}

}  // namespace

bool make_line_readings(const LineFields& fields, const Descriptor& descriptor, const MeterSet& meters,
                        QuickQuantities& quantities, std::vector<Reading>& readings) {
  readings.resize(fields.reading_count(),
                  Reading{{}, {}, ContactState::open});  // every field that is read here is set anew
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (readings[i].label.empty()) readings[i].label = "reading " + std::to_string(i + 1);
    if (!make_reading(fields.reading(i), descriptor, meters, quantities, readings[i])) return false;
  }
  return true;
}

}  // namespace ohmwright::batch
