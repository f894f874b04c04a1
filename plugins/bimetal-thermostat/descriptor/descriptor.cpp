#include "descriptor/descriptor.hpp"

#include <ohmwright/component/role.hpp>
#include <ohmwright/quantity/message.hpp>

#include "bimetal_thermostat_ratings_schema.hpp"
#include "rules/advice.hpp"
#include "rules/closing_point.hpp"
#include "rules/contact_resistance.hpp"
#include "rules/differential.hpp"
#include "rules/drop_under_load.hpp"
#include "rules/in_circuit.hpp"
#include "rules/matching_class.hpp"
#include "rules/names.hpp"
#include "rules/opening_point.hpp"
#include "rules/pair_suspected.hpp"
#include "rules/state_at_temperature.hpp"
#include "rules/stuck.hpp"
#include "rules/thermal_link.hpp"

namespace ohmwright::bimetal_thermostat {

namespace {

std::vector<MeasurandDescriptor> measurands() {  // in the order of MeasurandIndex
  return {
      {"state", OHMWRIGHT_TEXT("The contact"), Dimension::resistance, "ohm", true},
      {"state_swapped", OHMWRIGHT_TEXT("The contact with the probes swapped"), Dimension::resistance, "ohm", true},
      {"link", OHMWRIGHT_TEXT("The thermal link across its own leads"), Dimension::resistance, "ohm", true, true,
       link_1, link_2},
      {"drop", OHMWRIGHT_TEXT("Voltage across the contact under load"), Dimension::voltage, "V", false},
  };
}

std::vector<ConditionDescriptor> conditions() {  // in the order of ConditionIndex
  constexpr double room_thermometer_kelvin = 1.0;
  constexpr double clamp_ampere = 0.1;
  constexpr double ramp_kelvin = 0.1;
  constexpr double lag_seconds = 30.0;
  return {
      {"part_temperature", OHMWRIGHT_TEXT("the temperature of the part"), "at", Dimension::temperature, "",
       room_thermometer_kelvin, "common practice, no source: a room thermometer beside the part"},
      {"load_current", OHMWRIGHT_TEXT("the current of its load"), "load", Dimension::current, "A", clamp_ampere,
       "common practice, no source: a clamp around one wire"},
      {"ramp", OHMWRIGHT_TEXT("how far the temperature moved in a minute"), "ramp", Dimension::temperature_difference,
       "K", ramp_kelvin, "common practice, no source: read off two minutes of a thermometer of 0.1 K"},
      {"lag", OHMWRIGHT_TEXT("how long the part lags behind its thermometer"), "lag", Dimension::duration, "",
       lag_seconds, "common practice, no source: a guess of a time constant"},
  };
}

std::vector<RuleDescriptor> rules() {  // in the order of RuleIndex
  return {
      describe_state_at_temperature(), describe_opening_point(),  describe_closing_point(),
      describe_differential(),         describe_stuck(),          describe_contact_resistance(),
      describe_drop_under_load(),      describe_in_circuit(),     describe_thermal_link(),
      describe_pair_suspected(),       describe_matching_class(),
  };
}

std::vector<ChartAxis> charts() {
  const AnyQuantity coldest(Temperature::from_celsius(-30.0));
  const AnyQuantity warmest(Temperature::from_celsius(30.0));
  const AnyQuantity hottest(Temperature::from_celsius(90.0));
  return {
      {"state", "part_temperature", coldest, warmest, false, "history"},
      {"drop", "load_current", AnyQuantity(Current::from_value(0.5)), AnyQuantity(Current::from_value(10.0)), false},
      {"link", "part_temperature", warmest, hottest, false},
  };
}

}  // namespace

Descriptor make_descriptor() {
  Descriptor descriptor;
  descriptor.id = "bimetal-thermostat";
  descriptor.title = OHMWRIGHT_TEXT("Bimetal thermostat");
  descriptor.aliases = {"bimetal",       "defrost thermostat",    "terminator", "defrost terminator", "bi-metal",
                        "defrost limit", "termination thermostat"};
  descriptor.text_domain = "ohmwright-bimetal-thermostat";
  descriptor.roles = {role::ends_defrost, role::limits_heat};
  descriptor.terminals = {"contact-1", "contact-2", "link-1", "link-2"};
  descriptor.measurands = measurands();
  descriptor.conditions = conditions();
  descriptor.states = {{"history",
                        OHMWRIGHT_TEXT("Which way its temperature went"),
                        {{"unknown", OHMWRIGHT_TEXT("not known")},
                         {"warming", OHMWRIGHT_TEXT("it warmed up to there from where it closes")},
                         {"cooling", OHMWRIGHT_TEXT("it cooled down to there from where it opens")}},
                        "history"},
                       {"terminals",
                        OHMWRIGHT_TEXT("What was done to its terminals"),
                        {{"unknown", OHMWRIGHT_TEXT("not said")},
                         {"cleaned", OHMWRIGHT_TEXT("cleaned to bare metal, the probes pressed on them")}},
                        "terminals"}};
  descriptor.rules = rules();
  descriptor.advice = describe_advice();
  descriptor.procedures = describe_procedures();
  descriptor.cautions = describe_cautions();
  descriptor.fault_modes = describe_fault_modes();
  descriptor.charts = charts();
  descriptor.ratings_schema = ohmwright_schemas::bimetal_thermostat_ratings_schema;
  descriptor.error_sources = {
      {"opening-gap", OHMWRIGHT_TEXT("the gap between the last closed and the first open reading")},
      {"closing-gap", OHMWRIGHT_TEXT("the gap between the last open and the first closed reading")},
  };
  return descriptor;
}

}  // namespace ohmwright::bimetal_thermostat
