#pragma once

#include <algorithm>
#include <deque>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include <ohmwright/component/contact_seen.hpp>
#include <ohmwright/component/electrical.hpp>
#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/quantity/observed.hpp>

#include "model/figure.hpp"
#include "model/texts.hpp"

namespace ohmwright::kind_file {

/// Which other value of a figure does as well as the original's: of what a part has to stand, more; of what it has to
/// fit, none.
enum class StandsIn : std::uint8_t { equal, at_least, at_most };

/// A figure that the kind's ratings may state.
struct RatingRow {
  std::string_view id;
  std::string_view title;
  Dimension dimension = Dimension::ratio;
  bool required = true;
  std::optional<StandsIn> stands_in = std::nullopt;  ///< empty: the file does not say
};

/// How far a good part may be off on one side.
struct Tolerance {
  Figure figure;
  bool is_share = false;  ///< of the nominal value; else in the measurand's own unit
};

/// A nominal value by the law of a resistive load: from its voltage and one other figure.
struct Load {
  Figure voltage;
  Figure other;
  Dimension other_is = Dimension::power;  ///< power, current or resistance
};

/// How limits move with a condition x: by 1 + coefficient·(x − reference), or by (x/reference)^exponent; or as a
/// formula of conditions says, to which the limits are then shares.
struct Movement {
  enum class Form : std::uint8_t { none, linear, power, formula };
  Form form = Form::none;
  boost::container::static_vector<std::uint16_t, most_conditions> conditions;  ///< one, but for a formula
  std::shared_ptr<const Formula> formula;
  Figure coefficient;  ///< [1/K]
  int exponent = 1;
  Figure reference;

  bool moves() const { return form != Form::none; }
  /// The one that is told: of a formula the first that it names.
  std::uint16_t condition() const { return conditions.empty() ? not_found : conditions.front(); }
};

/// What stands for a measurand that was not read: one reading less another, of its dimension.
struct Difference {
  std::uint16_t from = not_found;  ///< measurand; `not_found`: nothing stands for it
  std::uint16_t less = not_found;
  std::uint16_t condition = not_found;  ///< that is `from` then, if any

  bool is_given() const { return from != not_found && less != not_found; }
};

/// A measurand within limits.
struct LimitsForm {
  Figure lower;
  Figure upper;
  Figure nominal;
  Load load;
  Tolerance below;
  Tolerance above;
  Movement movement;
  Difference difference;

  bool has_nominal() const { return nominal.is_given() || load.other.is_given(); }
  bool has_lower() const { return lower.is_given() || below.figure.is_given(); }
  bool has_upper() const { return upper.is_given() || above.figure.is_given(); }
  /// Ohms with a least value alone: of these OL is no proof, since what shows it may as well be broken.
  bool is_least_ohms(Dimension dimension) const {
    return dimension == Dimension::resistance && has_lower() && !has_upper();
  }
};

/// From so many ohms on a least value is a matter of insulation: windings, elements and sensors whose highest value
/// does not matter have less (common practice, no source) [ohm].
inline constexpr double insulation_from_ohms = 1e5;

/// A contact that a state of the part decides: a plunger pressed or free.
struct SetByState {
  std::uint16_t state = not_found;
  std::vector<bool> is_closed;  ///< by the state's values
};

/// What a contact keeps between its ends by where it came from.
struct Hysteresis {
  std::uint16_t state = not_found;   ///< that says from where it came; `not_found`: both are good between the ends
  std::uint16_t rising = not_found;  ///< its value of a condition that rose from below the lower end
  Figure rising_keeps_to;            ///< so far up a good one is as it is below
  std::uint16_t falling = not_found;
  Figure falling_keeps_to;  ///< so far down a good one is as it is above
};

/// A contact that is in one state below one end of a condition and in the other above the other end.
struct ContactForm {
  std::uint16_t condition = not_found;  ///< `not_found`: it is always in the state `below`
  ContactState below = ContactState::closed;
  Figure lower_end;
  Figure upper_end;
  SetByState set_by;
  Hysteresis hysteresis;
  bool passes_on_below = true;  ///< seen where it has to be `below` the lower end …
  bool passes_on_above = true;  ///< … and the other one above the upper end: both where both are true
  bool single_operation = false;
  double closed_up_to_ohms = 1.0;  ///< burnt from there on: two wires measure little but their own contacts …
  double open_from_ohms = 1e6;     ///< … and less leaks: both common practice, no source

  /// From there on it is surely not closed, though it may leak: that of every kind, where the file's ends allow.
  double not_closed_from_ohms() const { return std::clamp(poor_up_to_ohms, closed_up_to_ohms, open_from_ohms); }
  bool depends() const { return condition != not_found; }
  bool is_set_by_state() const { return set_by.state != not_found; }
};

/// Insulation of a part from what people touch: judged as that of every kind (component/insulation.hpp).
struct InsulationForm {
  Figure least;
  std::uint16_t test_voltage = not_found;  ///< the condition that holds the volts of the tester
};

/// A rule of the file.
struct RuleForm {
  std::uint16_t measurand = 0;
  bool may_condemn = true;
  std::variant<LimitsForm, ContactForm, InsulationForm> form;
  RuleTexts texts;
  const ValueNode* place = nullptr;
  bool whole = false;  ///< read without a note; else what follows from it is not noted again

  const LimitsForm* limits() const { return std::get_if<LimitsForm>(&form); }
  const ContactForm* contact() const { return std::get_if<ContactForm>(&form); }
  const InsulationForm* insulation() const { return std::get_if<InsulationForm>(&form); }
};

/// An advice that follows from what a rule said, or from its not deciding.
struct AdviceTrigger {
  std::uint16_t rule = 0;
  std::optional<TextIndex> text;  ///< empty: whatever it said
  TextIndex advice = 0;
  bool only_undecided = false;
};

/// A surer way to know a condition.
struct BetterCondition {
  double half_width = 0.0;  ///< [SI]; 0: the file names none
  TextIndex advice = 0;
};

/// Something between two terminals, in a good part or in a faulty one.
struct ElementRow {
  std::uint16_t from = 0;
  std::uint16_t to = 0;
  std::optional<ElementType> type;    ///< empty: a contact, closed or open as the rule `of_rule` says
  Figure value;                       ///< of a contact its ohms while it is closed
  std::uint16_t of_rule = not_found;  ///< nominal value or contact of that rule
  double times = 1.0;
  double tolerance = 0.0;              ///< relative half-width
  std::uint16_t if_rated = not_found;  ///< figure without which a part of these ratings has no such element
};

/// A protector in a winding, which a good part opens while it is hot and closes by itself. Up to the first temperature
/// it is closed, from the second on open; of good parts in between some are open.
struct OwnProtector {
  std::uint16_t from = 0;  ///< ends of the winding
  std::uint16_t to = 0;
  std::uint16_t condition = not_found;  ///< its temperature
  double closed_to_kelvin = 0.0;
  double open_from_kelvin = 0.0;
};

/// Everything that a kind file says. Its descriptor and rows point into the document and into `texts_of_ours`.
struct Definition {
  Descriptor descriptor;
  std::vector<RatingRow> ratings;
  std::vector<RuleForm> rules;  ///< in the order of the descriptor's
  std::vector<AdviceTrigger> triggers;
  std::vector<BetterCondition> better;   ///< in the order of the descriptor's conditions
  std::vector<std::string_view> points;  ///< within the part, counted on from the terminals
  std::vector<ElementRow> elements;      ///< of a good part
  std::vector<std::vector<ElementRow>> faulty_elements;
  std::vector<std::uint16_t>
      faults_if_rated;  ///< by fault: figure without which a part of these ratings has no such fault
  std::vector<OwnProtector> own_protectors;  ///< each in every resistance between its ends, of a good part or a faulty
  std::deque<std::string> texts_of_ours;     ///< a deque, since its texts must not move

  /// Keeps a text that does not stand in the document.
  std::string_view keep(std::string text) { return texts_of_ours.emplace_back(std::move(text)); }
};

}  // namespace ohmwright::kind_file
