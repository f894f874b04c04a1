#include "descriptor/descriptor.hpp"

#include <ohmwright/component/role.hpp>
#include <ohmwright/quantity/message.hpp>

#include "rules/advice.hpp"
#include "rules/drop_under_load.hpp"
#include "rules/end_to_end.hpp"
#include "rules/in_circuit.hpp"
#include "rules/insulation.hpp"
#include "rules/intermittent.hpp"
#include "rules/load_rating.hpp"
#include "rules/names.hpp"
#include "rules/open_lead.hpp"
#include "wiring_ratings_schema.hpp"

namespace ohmwright::wiring {

namespace {

std::vector<MeasurandDescriptor> measurands() {  // in the order of MeasurandIndex
  return {
      {"resistance", OHMWRIGHT_TEXT("Resistance from end to end"), Dimension::resistance, "ohm", true, true, end_1,
       end_2},
      {"resistance_swapped", OHMWRIGHT_TEXT("The same with the probes swapped"), Dimension::resistance, "ohm", true,
       true, end_2, end_1},
      // A forgotten m would be a believable value.
      {"drop", OHMWRIGHT_TEXT("Volts across it while its load runs"), Dimension::voltage, "V", false, false, end_1,
       end_2},
      {"insulation", OHMWRIGHT_TEXT("Insulation to the frame or to the wire beside it"), Dimension::resistance, "Mohm",
       false, false, end_1, frame},
  };
}

std::vector<ConditionDescriptor> conditions() {  // in the order of ConditionIndex
  constexpr double hand_thermometer_kelvin = 5.0;
  constexpr double clamp_ampere = 0.1;
  constexpr double tape_metre = 0.05;
  return {
      {"load_current", OHMWRIGHT_TEXT("the current of its load"), "load", Dimension::current, "A", clamp_ampere,
       "common practice, no source: a clamp around one wire"},
      {"part_temperature", OHMWRIGHT_TEXT("the temperature of the part"), "at", Dimension::temperature, "",
       hand_thermometer_kelvin, "common practice, no source: the air about a wire"},
      {"test_voltage",
       OHMWRIGHT_TEXT("the volts of the insulation tester"),
       "test",
       Dimension::voltage,
       "V",
       0.0,
       "common practice, no source: the range of the tester",
       {"insulation"}},
      {"lead_length", OHMWRIGHT_TEXT("the length of the lead"), "length", Dimension::length, "", tape_metre,
       "common practice, no source: a tape along it"},
  };
}

std::vector<RuleDescriptor> rules() {  // in the order of RuleIndex
  return {describe_end_to_end(),   describe_open(),       describe_drop_under_load(), describe_insulation(),
          describe_intermittent(), describe_in_circuit(), describe_load_rating()};
}

std::vector<ChartAxis> charts() {
  return {
      {"drop", "load_current", AnyQuantity(Current::from_value(0.5)), AnyQuantity(Current::from_value(16.0))},
      {"resistance", "lead_length", AnyQuantity(Length::from_value(0.25)), AnyQuantity(Length::from_value(10.0))},
  };
}

}  // namespace

Descriptor make_descriptor() {
  Descriptor descriptor;
  descriptor.id = "wiring";
  descriptor.title = OHMWRIGHT_TEXT("Wiring");
  descriptor.aliases = {"wire", "lead", "connector", "splice", "joint", "harness", "crimp"};
  descriptor.text_domain = "ohmwright-wiring";
  descriptor.roles = {role::joins_parts};
  descriptor.terminals = {"end-1", "end-2", "frame"};
  descriptor.measurands = measurands();
  descriptor.conditions = conditions();
  descriptor.states = {{"probes",
                        OHMWRIGHT_TEXT("How the probes were kept on it"),
                        {{"held", OHMWRIGHT_TEXT("held by hand")}, {"clipped", OHMWRIGHT_TEXT("clipped on")}},
                        "probes"}};
  descriptor.rules = rules();
  descriptor.advice = describe_advice();
  descriptor.procedures = describe_procedures();
  descriptor.cautions = describe_cautions();
  descriptor.fault_modes = describe_fault_modes();
  descriptor.charts = charts();
  descriptor.ratings_schema = ohmwright_schemas::wiring_ratings_schema;
  descriptor.error_sources = {{"unstated-temperature", OHMWRIGHT_TEXT("how warm the copper was, which nobody said")}};
  return descriptor;
}

}  // namespace ohmwright::wiring
