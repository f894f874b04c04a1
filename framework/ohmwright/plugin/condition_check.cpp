#include <cmath>

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/plugin/descriptor_parts.hpp>
#include <ohmwright/plugin/reserved_options.hpp>
#include <ohmwright/quantity/unit_table.hpp>

namespace ohmwright {

namespace {

class ConditionCheck {
 public:
  ConditionCheck(const Descriptor& descriptor, ProblemList& problems) : descriptor_(descriptor), problems_(problems) {}

  void check_measurands() {
    if (descriptor_.measurands.empty()) problems_.say("it has no measurand");
    problems_.check_ids("measurand", descriptor_.measurands);
    for (const MeasurandDescriptor& measurand : descriptor_.measurands) {
      problems_.needs("measurand", measurand.id, "title", measurand.title);
      problems_.needs("measurand", measurand.id, "unit", measurand.default_unit);
      check_unit("measurand", measurand.id, measurand.default_unit, measurand.dimension);
      check_terminals(measurand);
    }
  }

  void check_conditions() {
    if (descriptor_.conditions.size() > most_conditions) {
      problems_.say("it has " + std::to_string(descriptor_.conditions.size()) +
                    " conditions; a reading carries at most " + std::to_string(most_conditions));
    }
    problems_.check_ids("condition", descriptor_.conditions);
    std::vector<std::string_view> options;
    for (const ConditionDescriptor& condition : descriptor_.conditions) {
      problems_.needs("condition", condition.id, "title", condition.title);
      options.push_back(condition.option);
      check_half_width(condition);
      check_unit("condition", condition.id, condition.default_unit, condition.dimension);
      check_option(condition, condition.option);
      if (condition.id != condition.option) check_option(condition, condition.id);  // it is one too, the long way
    }
    for (const StateDescriptor& state : descriptor_.states) {
      if (state.option.empty()) continue;
      options.push_back(state.option);
      check_own("state " + ohmwright::quoted(state.id), state.option);
    }
    problems_.check_plain_ids("option", options);
  }

  void check_charts() {
    for (const ChartAxis& axis : descriptor_.charts) {
      problems_.refers("a chart", "measurand", descriptor_.measurands, axis.measurand);
      problems_.refers("a chart", "condition", descriptor_.conditions, axis.condition);
      if (!axis.state.empty()) problems_.refers("a chart", "state", descriptor_.states, axis.state);
      check_span(axis);
    }
  }

 private:
  void check_terminals(const MeasurandDescriptor& measurand) {
    if (measurand.from == not_found && measurand.to == not_found) return;
    const std::size_t terminals = descriptor_.terminals.size();
    if (measurand.from >= terminals || measurand.to >= terminals || measurand.from == measurand.to)
      problems_.say("measurand " + ohmwright::quoted(measurand.id) +
                    " is read between terminals that it does not have");
  }

  void check_unit(const std::string& sort, std::string_view id, std::string_view unit, Dimension dimension) {
    if (unit.empty() || Unit::named(unit, dimension)) return;
    problems_.say(sort + " " + ohmwright::quoted(id) + " is " + std::string(phrase_of(dimension)) +
                  ", which has no unit " + ohmwright::quoted(unit));
  }

  void check_half_width(const ConditionDescriptor& condition) {
    const double half_width = condition.default_half_width;
    if (!std::isfinite(half_width) || half_width < 0.0)
      problems_.say("condition " + ohmwright::quoted(condition.id) + " has no possible half-width");
    if (half_width > 0.0) {
      problems_.needs("condition", condition.id, "source of its half-width", condition.default_half_width_source);
    }
  }

  /// One word must mean one thing on the command line, or it would be read in the wrong way without a word.
  void check_option(const ConditionDescriptor& condition, std::string_view option) {
    const std::string whose = "condition " + ohmwright::quoted(condition.id);
    check_own(whose, option);
    const std::uint16_t other = index_of(descriptor_.conditions, option);
    if (other != not_found && descriptor_.conditions[other].id != condition.id)
      clashes(whose, option, "the name of another condition");
  }

  void check_own(const std::string& whose, std::string_view option) {
    if (is_reserved_option(option)) clashes(whose, option, "the program's own");
    if (index_of(descriptor_.measurands, option) != not_found) clashes(whose, option, "the name of a measurand");
  }

  void clashes(const std::string& whose, std::string_view option, const char* with) {
    problems_.say(whose + " takes the option " + ohmwright::quoted("--" + std::string(option)) + ", which is " + with);
  }

  void check_span(const ChartAxis& axis) {
    const std::uint16_t index = index_of(descriptor_.conditions, axis.condition);
    if (index == not_found) return;
    const std::string name = "a chart along " + ohmwright::quoted(axis.condition);
    const Dimension dimension = descriptor_.conditions[index].dimension;
    if (axis.from.dimension() != dimension || axis.to.dimension() != dimension) {
      problems_.say(name + " runs from " + std::string(phrase_of(axis.from.dimension())) + " to " +
                    std::string(phrase_of(axis.to.dimension())) + "; its condition is " +
                    std::string(phrase_of(dimension)));
    } else if (!std::isfinite(axis.to.value_in_si() - axis.from.value_in_si()) ||
               axis.from.value_in_si() >= axis.to.value_in_si()) {
      problems_.say(name + " does not end above its beginning");
    }
  }

  const Descriptor& descriptor_;
  ProblemList& problems_;
};

}  // namespace

void check_measurands_and_conditions(const Descriptor& descriptor, ProblemList& problems) {
  ConditionCheck check(descriptor, problems);
  check.check_measurands();
  check.check_conditions();
  check.check_charts();
}

}  // namespace ohmwright
