#pragma once

#include <cstdint>
#include <limits>
#include <optional>
#include <string_view>
#include <vector>

#include <ohmwright/quantity/any_quantity.hpp>
#include <ohmwright/quantity/message.hpp>  // IWYU pragma: export: a descriptor is where texts are marked
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright {

// What a kind says of itself: plain rows, built once. Their texts are constants of the plugin (never unloaded) or, of a
// kind made from a file, live as long as the kind. The host prints help, finds parts, checks files and makes sentences
// from them, and so knows no kind by name.

/// In place of an index: there is none.
inline constexpr std::uint16_t not_found = std::numeric_limits<std::uint16_t>::max();

/// A sentence pattern with its stable name: `{id, "the part reads {measured}"}`.
struct TextEntry {
  std::string_view id;
  std::string_view english;
};

/// A quantity that a technician can read off the part.
struct MeasurandDescriptor {
  std::string_view id;     ///< "resistance"
  std::string_view title;  ///< "Resistance across the two leads"
  Dimension dimension = Dimension::resistance;
  std::string_view default_unit;     ///< unit of a bare number: "ohm"
  bool takes_contact_state = false;  ///< "open" and "closed" are readings too
  /// Whether a number without a unit is taken in `default_unit`. Not where a forgotten k would be a believable value.
  bool takes_bare_number = true;
  /// Indices into `Descriptor::terminals` of the two points it is read between, or `not_found`: what a reading at
  /// other points of a circuit is compared with.
  std::uint16_t from = not_found;
  std::uint16_t to = not_found;
};

/// A circumstance that the kind's rules use.
struct ConditionDescriptor {
  std::string_view id;      ///< "part_temperature"
  std::string_view title;   ///< "Temperature of the part"
  std::string_view option;  ///< the command line's short name: "at" gives --at
  Dimension dimension = Dimension::temperature;
  std::string_view default_unit;  ///< unit of a bare number; empty: a unit must be typed
  /// Half-width [SI] taken when none is stated, with its source.
  double default_half_width = 0.0;
  std::string_view default_half_width_source;
  /// Ids of the measurands that it says something of: the volts of a tester of insulation alone. Empty: of all.
  std::vector<std::string_view> of = {};
};

/// Id that a kind gives the condition "volts of the insulation tester": what is read with it was read by a tester.
inline constexpr std::string_view test_voltage_condition = "test_voltage";

/// Bits for the outcomes that a rule can have; the conformance kit asks one vector for each.
enum : std::uint8_t { can_pass = 1, can_condemn = 2, can_be_undecided = 4 };

/// The bit of an outcome; 0 for silent.
constexpr std::uint8_t outcome_bit(Outcome outcome) {
  switch (outcome) {
    case Outcome::within_limits:
      return can_pass;
    case Outcome::out_of_limits:
      return can_condemn;
    case Outcome::undecided:
      return can_be_undecided;
    case Outcome::silent:
      return 0;
  }
  return 0;
}

/// A check rule.
struct RuleDescriptor {
  std::string_view id;     ///< "resistance-at-temperature"
  std::string_view title;  ///< "Resistance at its temperature"
  bool essential = false;  ///< must have passed before the part is within limits
  std::uint8_t outcomes = 0;
  std::string_view source;  ///< standard, handbook or "common practice, no source"
  std::vector<TextEntry> texts;
  /// Whether what it condemns opened once and for good, as a thermal link does: nothing but a new part is a repair
  /// then, and what reads closed again was bridged. `job` asks it.
  bool condemns_for_good = false;
};

/// How a measurand is read safely.
struct ProcedureDescriptor {
  std::string_view id;
  std::string_view title;
  std::string_view measurand;
  double minutes = 0.0;
  std::vector<TextEntry> steps;
  std::vector<std::string_view> cautions;  ///< ids, of the framework or of this kind; shown before the first step
};

/// A hazard that a step carries.
struct CautionDescriptor {
  std::string_view id;
  std::string_view brief;  ///< in a few words, without a full stop: what stands above every verdict
  std::string_view english;
  std::string_view source;
};

/// What a technician can do next.
struct AdviceDescriptor {
  std::string_view id;
  std::string_view english;
  /// Id of the procedure by which it is done: its cautions are shown with the advice. Empty: no other hazard than that
  /// of the readings at hand.
  std::string_view procedure = {};
};

/// What a fault does to something a person can see without a meter.
struct SymptomEffect {
  std::string_view symptom;  ///< "frost-whole-coil", "warm-cabinet": the appliance's words
  double probability = 0.0;  ///< that it shows when the fault is there
};

/// One way in which the part fails.
struct FaultModeDescriptor {
  std::string_view id;
  std::string_view title;
  double prior_weight = 0.0;  ///< relative to the other modes of all parts; stated as assumed
  std::string_view prior_source;
  std::vector<SymptomEffect> symptoms;
  std::vector<std::string_view> looks_upstream;  ///< roles whose fault may be the cause of this one
};

/// The identifier of a mode that breaks and closes again: its contacts are another way at every reading, where those of
/// all others stay as they are until something moves them.
inline constexpr std::string_view comes_and_goes_mode = "intermittent";

/// A state that changes how the part conducts and that can be set or seen: a cam position, a history of temperature.
struct StateDescriptor {
  std::string_view id;
  std::string_view title;
  std::vector<TextEntry> values;  ///< `{"defrost", "timer in defrost"}`: how files call it, how it is shown
  std::string_view option = {};   ///< the command line's name of it: "position" gives --position; empty: none
};

/// An error that the kind's own rules bring in, beside those of meters, conditions and curve: where between two
/// readings a contact opened. Of unit standard uncertainty, as every source; a rule adds a term of it to what it
/// judges.
struct ErrorSourceDescriptor {
  std::string_view id;
  std::string_view title;  ///< in "where the doubt comes from"
  Shape shape = Shape::rectangular;
};

/// An axis along which expected readings can be drawn.
struct ChartAxis {
  std::string_view measurand;
  std::string_view condition;
  AnyQuantity from{Dimension::ratio, 0.0};
  AnyQuantity to{Dimension::ratio, 0.0};
  bool logarithmic = false;
  std::string_view state = {};  ///< id of a state for whose every value a line is drawn; empty: one line
};

/// Everything a kind says of itself.
struct Descriptor {
  std::string_view id;
  std::string_view title;
  std::vector<std::string_view> aliases;  ///< what people say
  std::string_view text_domain;           ///< gettext domain of its texts
  std::vector<std::string_view> roles;    ///< by these logs and appliances find it: role.hpp
  std::vector<std::string_view> terminals;
  std::vector<MeasurandDescriptor> measurands;  ///< the first takes a reading typed without a name
  std::vector<ConditionDescriptor> conditions;
  std::vector<StateDescriptor> states;
  std::vector<RuleDescriptor> rules;
  std::vector<AdviceDescriptor> advice;
  std::vector<ProcedureDescriptor> procedures;
  std::vector<CautionDescriptor> cautions;  ///< beside the framework's; they add, they never replace
  std::vector<FaultModeDescriptor> fault_modes;
  std::vector<ChartAxis> charts;
  /// Member of the ratings that describes the control which reads or drives the part: it may come from a file of its
  /// own, since one control serves many parts. Empty: the kind has none.
  std::string_view control_member = {};
  std::string_view ratings_schema;                        ///< JSON Schema (draft 7) of its ratings, as text
  std::vector<ErrorSourceDescriptor> error_sources = {};  ///< `Evidence::own_source` finds them among the evidence's
};

/// Index of the row with that id in one of the descriptor's lists, or `not_found`.
template <class Row>
std::uint16_t index_of(const std::vector<Row>& rows, std::string_view id) {
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (rows[i].id == id) return static_cast<std::uint16_t>(i);
  return not_found;
}

}  // namespace ohmwright
