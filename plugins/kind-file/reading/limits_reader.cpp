#include <algorithm>
#include <cmath>
#include <utility>

#include "part/rated_figures.hpp"
#include "reading/figure_reader.hpp"
#include "reading/rule_reader.hpp"
#include "reading/text_reader.hpp"

namespace ohmwright::kind_file {

namespace {

class LimitsReader {
 public:
  LimitsReader(const ValueNode& rule, const Definition& definition, Dimension dimension, Notes& notes)
      : rule_(rule), limits_(*rule.find("limits")), definition_(definition), dimension_(dimension), notes_(notes) {}

  LimitsForm read() {
    LimitsForm form;
    const FormulaOf end_of = has("lower") && has("upper") ? FormulaOf::ratings : FormulaOf::conditions_too;
    form.lower = figure_in(limits_, "lower", dimension_, definition_, notes_, end_of);
    form.upper = figure_in(limits_, "upper", dimension_, definition_, notes_, end_of);
    form.nominal = figure_in(limits_, "nominal", dimension_, definition_, notes_, FormulaOf::conditions_too);
    read_load(form.load);
    read_tolerances(form);
    check_combination();
    read_movement(form.movement);
    read_formula_of_conditions(form);
    read_difference(form.difference);
    return form;
  }

 private:
  bool has(std::string_view field) const { return limits_.find(field) != nullptr; }

  void read_load(Load& load) {
    const ValueNode* node = limits_.find("nominal_of_load");
    if (node == nullptr) return;
    if (dimension_ != Dimension::resistance && dimension_ != Dimension::current && dimension_ != Dimension::power) {
      notes_.say(*node, "a load gives a resistance, a current or a power; the measurand of this rule is " +
                            std::string(phrase_of(dimension_)));
      return;
    }
    load.voltage = figure_in(*node, "voltage", Dimension::voltage, definition_, notes_);
    for (const Dimension other : {Dimension::power, Dimension::current, Dimension::resistance}) {
      if (node->find(name_of(other)) == nullptr) continue;
      load.other = figure_in(*node, name_of(other), other, definition_, notes_);
      load.other_is = other;
    }
  }

  Tolerance tolerance_in(std::string_view field) {
    const Dimension absolute = of_differences(dimension_);
    const bool is_share = dimension_of_figure(limits_, field, absolute, definition_) == Dimension::ratio;
    if (is_share && dimension_ == Dimension::temperature) {
      notes_.say(*limits_.find(field), "a share of a temperature has no meaning; write kelvin, such as \"3 K\"");
      return {};
    }
    Tolerance tolerance{figure_in(limits_, field, is_share ? Dimension::ratio : absolute, definition_, notes_),
                        is_share};
    const auto& ways = tolerance.figure.ways;
    if (is_share && std::any_of(ways.begin(), ways.end(),
                                [](const FigureWay& way) { return way.is_quantity() && way.value > 1.0; }))
      notes_.say(*limits_.find(field), std::string(above_all_of_it));
    return tolerance;
  }

  void read_tolerances(LimitsForm& form) {
    if (has("tolerance")) form.below = form.above = tolerance_in("tolerance");
    if (has("tolerance_below")) form.below = tolerance_in("tolerance_below");
    if (has("tolerance_above")) form.above = tolerance_in("tolerance_above");
  }

  void check_combination() {
    const bool by_ends = has("lower") || has("upper");
    const bool by_nominal = has("nominal") || has("nominal_of_load");
    const bool both_sides = has("tolerance");
    const bool one_side = has("tolerance_below") || has("tolerance_above");
    if (by_ends == by_nominal) {
      notes_.say(limits_, "limits are \"lower\" and \"upper\", one or both, or a nominal value with its tolerance");
    } else if (has("nominal") && has("nominal_of_load")) {
      notes_.say(limits_, "the nominal value is stated twice; leave out \"nominal\" or \"nominal_of_load\"");
    } else if (by_nominal && both_sides == one_side) {
      notes_.say(limits_,
                 "a nominal value needs \"tolerance\", or \"tolerance_below\" and \"tolerance_above\", one or both");
    } else if (by_ends && (both_sides || one_side)) {
      notes_.say(limits_, "a tolerance belongs to a nominal value; \"lower\" and \"upper\" have none");
    }
  }

  /// A nominal value, or a lone limit, that is a formula of conditions: the limits are shares of what it gives.
  void read_formula_of_conditions(LimitsForm& form) {
    using Named = std::pair<const char*, const Figure*>;
    for (const auto& [name, figure] :
         {Named{"nominal", &form.nominal}, Named{"lower", &form.lower}, Named{"upper", &form.upper}}) {
      if (figure->of_conditions() == nullptr) continue;
      const ValueNode& place = *limits_.find(name)->find("formula");
      if (form.movement.moves())
        notes_.say(place, "the formula moves with its conditions already; leave out what moves the limits beside it");
      else if (dimension_ == Dimension::temperature)
        notes_.say(place, "limits of a temperature do not move with a condition");
      else if ((form.below.figure.is_given() && !form.below.is_share) ||
               (form.above.figure.is_given() && !form.above.is_share))
        notes_.say(place, "a nominal value that moves with a condition has its tolerance in percent");
      else
        move_by(*figure, form.movement);
    }
  }

  static void move_by(const Figure& figure, Movement& movement) {
    movement.form = Movement::Form::formula;
    movement.formula = figure.ways.front().formula;
    for (const std::uint16_t condition : movement.formula->conditions)
      if (movement.conditions.size() < movement.conditions.capacity()) movement.conditions.push_back(condition);
  }

  std::uint16_t condition_in(const ValueNode& node) {
    return place_of(node.find("condition"), "condition", definition_.descriptor.conditions, notes_);
  }

  void read_movement(Movement& movement) {
    const ValueNode* linear = rule_.find("temperature_coefficient");
    const ValueNode* power = rule_.find("proportional_to");
    if (linear == nullptr && power == nullptr) return;
    if (linear != nullptr && power != nullptr) {
      notes_.say(*power, "limits move with one condition; leave out \"temperature_coefficient\" or this");
    } else if (dimension_ == Dimension::temperature) {
      notes_.say(linear != nullptr ? *linear : *power, "limits of a temperature do not move with a condition");
    } else if (linear != nullptr) {
      read_linear(*linear, movement);
    } else {
      read_power(*power, movement);
    }
  }

  /// The measurand of that field, of the rule's own dimension.
  std::uint16_t measurand_in(const ValueNode& node, const char* field) {
    const ValueNode* named = node.find(field);
    const std::uint16_t measurand = place_of(named, "measurand", definition_.descriptor.measurands, notes_);
    if (measurand != not_found && definition_.descriptor.measurands[measurand].dimension != dimension_)
      notes_.say(*named, "a difference is of two measurands of the rule's own dimension");
    return measurand;
  }

  void read_difference(Difference& difference) {
    const ValueNode* node = rule_.find("difference");
    if (node == nullptr) return;
    if (is_passive(dimension_))
      notes_.say(*node, "ohms, farads and henries are read by themselves, not as a difference");
    difference.from = measurand_in(*node, "from");
    difference.less = measurand_in(*node, "less");
    if (node->find("condition") == nullptr) return;
    difference.condition = condition_in(*node);
    if (difference.condition != not_found &&
        definition_.descriptor.conditions[difference.condition].dimension != dimension_)
      notes_.say(*node->find("condition"), "that condition is what \"from\" reads, so it has its dimension");
  }

  void read_linear(const ValueNode& node, Movement& movement) {
    movement.form = Movement::Form::linear;
    const std::uint16_t condition = condition_in(node);
    if (condition != not_found) movement.conditions.push_back(condition);
    if (condition != not_found && definition_.descriptor.conditions[condition].dimension != Dimension::temperature)
      notes_.say(*node.find("condition"), "a temperature coefficient goes with a temperature");
    movement.coefficient = figure_in(node, "per_kelvin", Dimension::ratio, definition_, notes_);
    movement.reference = figure_in(node, "reference", Dimension::temperature, definition_, notes_);
  }

  void read_power(const ValueNode& node, Movement& movement) {
    movement.form = Movement::Form::power;
    const std::uint16_t condition = condition_in(node);
    movement.exponent = static_cast<int>(std::lround(number_in(node, "exponent").value_or(1.0)));
    if (condition == not_found) return;
    movement.conditions.push_back(condition);
    const Dimension along = definition_.descriptor.conditions[condition].dimension;
    if (along == Dimension::temperature) {
      notes_.say(*node.find("condition"), "nothing is proportional to a temperature; use \"temperature_coefficient\"");
      return;
    }
    movement.reference = figure_in(node, "reference", along, definition_, notes_);
  }

  const ValueNode& rule_;
  const ValueNode& limits_;
  const Definition& definition_;
  Dimension dimension_;
  Notes& notes_;
};

FieldSet fields_of(const LimitsForm& form) {
  FieldSet fields = only(Field::measured) | only(Field::count) | only(Field::range);
  if (form.has_lower()) fields |= only(Field::lower);
  if (form.has_upper()) fields |= only(Field::upper);
  if (form.has_nominal()) fields |= only(Field::nominal) | only(Field::off_percent);
  if (form.movement.form != Movement::Form::none) fields |= only(Field::at);
  return fields;
}

std::array<TextUse, limits_text_count> uses_of(const RuleForm& rule, const MeasurandDescriptor& measurand) {
  const LimitsForm& form = *rule.limits();
  const bool passive = is_passive(measurand.dimension);
  const bool moves = form.movement.form != Movement::Form::none;
  const bool over_range = !measurand.takes_contact_state;  // of a contact, OL is open, which another rule judges
  const bool beside_condemns =
      rule.may_condemn && (measurand.dimension == Dimension::capacitance ? form.has_upper() : form.has_lower());
  std::array<TextUse, limits_text_count> uses{};
  for (TextUse& use : uses) use = {true, fields_of(form)};
  const auto never = [&uses](LimitsText text, bool sayable) { uses[static_cast<std::size_t>(text)].sayable = sayable; };
  never(LimitsText::high, form.has_upper());
  never(LimitsText::low, form.has_lower());
  never(LimitsText::within_connection_unstated, passive);
  never(LimitsText::connection_unstated, passive && beside_condemns);
  never(LimitsText::over_range, over_range && form.has_upper());
  never(LimitsText::over_range_within, over_range && !form.has_upper());
  never(LimitsText::range_too_low, over_range);
  never(LimitsText::range_unknown, over_range);
  never(LimitsText::no_condition, moves);
  never(LimitsText::out_of_reach, moves);
  never(LimitsText::needs_tester, form.is_least_ohms(measurand.dimension));
  never(LimitsText::wet, measurand.dimension == Dimension::resistance);
  never(LimitsText::live, passive);
  return uses;
}

}  // namespace

void read_limits(const ValueNode& rule, const Definition& definition, RuleForm& form, RuleDescriptor& descriptor,
                 Notes& notes) {
  const Dimension dimension = definition.descriptor.measurands[form.measurand].dimension;
  const std::size_t before = notes.count();
  form.form = LimitsReader(rule, definition, dimension, notes).read();
  form.whole = notes.count() == before;
  descriptor.outcomes = can_pass | can_be_undecided;
  if (form.may_condemn) descriptor.outcomes |= can_condemn;
  const auto uses = uses_of(form, definition.descriptor.measurands[form.measurand]);
  read_texts(limits_texts(), uses, form, descriptor, notes);
}

}  // namespace ohmwright::kind_file
