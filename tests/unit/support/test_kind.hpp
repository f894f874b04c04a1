#pragma once

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/meter.hpp>
#include <ohmwright/component/reading.hpp>

// A small kind of our own for tests of the framework, which knows no real kind by name.

namespace ohmwright::testing {

/// Two essential rules ("first", "second"), one that is not ("remark"), one measurand, one condition.
inline const Descriptor& test_descriptor() {
  static const Descriptor descriptor = [] {
    Descriptor d;
    d.id = "test-part";
    d.title = "Test part";
    d.aliases = {"tester"};
    d.text_domain = "ohmwright-test-part";
    d.terminals = {"a", "b"};
    d.measurands = {{"resistance", "Resistance", Dimension::resistance, "ohm", true},
                    {"speed", "Speed", Dimension::rotational_speed, "rpm", false}};
    d.conditions = {
        {"part_temperature", "temperature of the part", "at", Dimension::temperature, "", 2.0, "common practice"},
        {"line_voltage", "line voltage", "line", Dimension::voltage, "V", 1.0, "common practice"}};
    d.rules = {
        {"first", "First rule", true, can_pass | can_condemn | can_be_undecided, "none", {{"ok", "it reads {value}"}}},
        {"second", "Second rule", true, can_pass | can_condemn, "none", {{"ok", "fine"}}},
        {"remark", "Remark", false, can_condemn, "none", {{"ok", "noted"}}}};
    d.advice = {{"again", "read again"}};
    d.procedures = {{"ohms", "Read the ohms", "resistance", 3.0, {{"unplug", "unplug it"}}, {"disconnect-power"}}};
    return d;
  }();
  return descriptor;
}

/// 0.9 % + counts, 6000 counts, ranges 600 Ω … 60 MΩ.
inline Meter basic_meter(std::string_view leads, double counts = 3) {
  const auto ohms = [](double value) { return AnyQuantity(Dimension::resistance, value); };
  MeterFunction resistance;
  for (const double full_scale : {600.0, 6e3, 60e3, 600e3, 6e6, 60e6})
    resistance.ranges.push_back({ohms(full_scale), 0.9, counts, ohms(full_scale / 6000.0)});
  return {.name = "basic",
          .title = "Basic meter",
          .source = "test",
          .functions = {resistance},
          .lead_resistance = parse_stated_value(leads, Dimension::resistance),
          .low_impedance = false};
}

inline Reading resistance_reading(std::string_view text) {
  return {.measurand = "resistance", .observed = parse_observed(text, Dimension::resistance)};
}

}  // namespace ohmwright::testing
