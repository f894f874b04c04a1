#include <algorithm>
#include <cmath>
#include <string_view>

#include <ohmwright/plugin/descriptor_check.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/verdict/caution.hpp>

namespace ohmwright {

namespace {

bool is_id(std::string_view id) {
  return !id.empty() && std::all_of(id.begin(), id.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
  });
}

/// Goes through a descriptor and writes down what is wrong with it.
class DescriptorCheck {
 public:
  explicit DescriptorCheck(const Descriptor& descriptor) : descriptor_(descriptor) {}

  void check_names(const StampedKind& stamped) {
    if (descriptor_.id != stamped.id) {
      say("its descriptor is of " + ohmwright::quoted(descriptor_.id) + ", its stamp of " +
          ohmwright::quoted(stamped.id));
    }
    for (const std::string_view alias : descriptor_.aliases) {
      if (std::find(stamped.aliases.begin(), stamped.aliases.end(), alias) == stamped.aliases.end())
        say("the alias " + ohmwright::quoted(alias) + " is in its descriptor but not in its stamp");
    }
    for (const std::string& alias : stamped.aliases) {
      if (std::find(descriptor_.aliases.begin(), descriptor_.aliases.end(), alias) == descriptor_.aliases.end())
        say("the alias " + ohmwright::quoted(alias) + " is in its stamp but not in its descriptor");
    }
    needs("kind", stamped.id, "title", descriptor_.title);
    needs("kind", stamped.id, "ratings schema", descriptor_.ratings_schema);
    check_plain_ids("role", descriptor_.roles);
    check_plain_ids("terminal", descriptor_.terminals);
  }

  void check_measurands_and_conditions() {
    if (descriptor_.measurands.empty()) say("it has no measurand");
    check_ids("measurand", descriptor_.measurands);
    for (const MeasurandDescriptor& measurand : descriptor_.measurands) {
      needs("measurand", measurand.id, "title", measurand.title);
      needs("measurand", measurand.id, "unit", measurand.default_unit);
    }
    check_ids("condition", descriptor_.conditions);
    std::vector<std::string_view> options;
    for (const ConditionDescriptor& condition : descriptor_.conditions) {
      needs("condition", condition.id, "title", condition.title);
      options.push_back(condition.option);
      if (!is_possible(condition.default_half_width))
        say("condition " + ohmwright::quoted(condition.id) + " has no possible half-width");
      if (condition.default_half_width > 0)
        needs("condition", condition.id, "source of its half-width", condition.default_half_width_source);
    }
    check_plain_ids("option", options);
    check_ids("error source", descriptor_.error_sources);
    for (const ErrorSourceDescriptor& source : descriptor_.error_sources)
      needs("error source", source.id, "title", source.title);
    check_ids("state", descriptor_.states);
    for (const StateDescriptor& state : descriptor_.states) {
      needs("state", state.id, "title", state.title);
      if (state.values.size() < 2) say("state " + ohmwright::quoted(state.id) + " needs two values or more");
      check_plain_ids("value of state " + ohmwright::quoted(state.id), state.values);
    }
  }

  void check_rules() {
    if (descriptor_.rules.empty()) say("it has no rule");
    check_ids("rule", descriptor_.rules);
    for (const RuleDescriptor& rule : descriptor_.rules) {
      needs("rule", rule.id, "title", rule.title);
      needs("rule", rule.id, "source", rule.source);
      if (rule.outcomes == 0 || rule.outcomes > (can_pass | can_condemn | can_be_undecided))
        say("rule " + ohmwright::quoted(rule.id) + " declares no possible outcome");
      if (rule.texts.empty()) say("rule " + ohmwright::quoted(rule.id) + " has no text");
      check_texts("text of rule " + ohmwright::quoted(rule.id), rule.texts);
    }
    check_texts("advice", descriptor_.advice);
  }

  void check_procedures() {
    check_ids("caution", descriptor_.cautions);
    for (const CautionDescriptor& caution : descriptor_.cautions) {
      needs("caution", caution.id, "text", caution.english);
      needs("caution", caution.id, "brief text", caution.brief);
      needs("caution", caution.id, "source", caution.source);
      if (caution_named(caution.id) != nullptr)
        say("caution " + ohmwright::quoted(caution.id) + " is the framework's own and cannot be replaced");
    }
    check_ids("procedure", descriptor_.procedures);
    for (const ProcedureDescriptor& procedure : descriptor_.procedures) {
      const std::string name = "procedure " + ohmwright::quoted(procedure.id);
      needs("procedure", procedure.id, "title", procedure.title);
      refers(name, "measurand", descriptor_.measurands, procedure.measurand);
      if (!is_possible(procedure.minutes)) say(name + " takes no possible time");
      if (procedure.steps.empty()) say(name + " has no step");
      check_texts("step of " + name, procedure.steps);
      if (procedure.cautions.empty()) say(name + " has no caution");
      for (const std::string_view caution : procedure.cautions)
        if (caution_named(caution) == nullptr) refers(name, "caution", descriptor_.cautions, caution);
    }
  }

  void check_fault_modes_and_charts() {
    check_ids("fault mode", descriptor_.fault_modes);
    for (const FaultModeDescriptor& mode : descriptor_.fault_modes) {
      needs("fault mode", mode.id, "title", mode.title);
      needs("fault mode", mode.id, "source of its weight", mode.prior_source);
      if (!is_possible(mode.prior_weight)) say("fault mode " + ohmwright::quoted(mode.id) + " has no possible weight");
      for (const SymptomEffect& effect : mode.symptoms) {
        if (!(effect.probability >= 0.0 && effect.probability <= 1.0) || !is_id(effect.symptom)) {
          say("fault mode " + ohmwright::quoted(mode.id) + " has no possible symptom " +
              ohmwright::quoted(effect.symptom));
        }
      }
    }
    for (const ChartAxis& axis : descriptor_.charts) {
      refers("a chart", "measurand", descriptor_.measurands, axis.measurand);
      refers("a chart", "condition", descriptor_.conditions, axis.condition);
    }
  }

  std::vector<std::string> problems;

 private:
  static bool is_possible(double amount) { return std::isfinite(amount) && amount >= 0.0; }

  void say(std::string problem) { problems.push_back(std::move(problem)); }

  void needs(std::string_view sort, std::string_view id, std::string_view what, std::string_view text) {
    if (text.empty()) say(std::string(sort) + " " + ohmwright::quoted(id) + " has no " + std::string(what));
  }

  template <class Row>
  void refers(const std::string& from, const std::string& sort, const std::vector<Row>& rows, std::string_view id) {
    if (index_of(rows, id) == not_found)
      say(from + " names the " + sort + " " + ohmwright::quoted(id) + ", which is not there");
  }

  void check_plain_ids(const std::string& sort, const std::vector<std::string_view>& ids) {
    for (auto id = ids.begin(); id != ids.end(); ++id) {
      if (!is_id(*id)) say(sort + " " + ohmwright::quoted(*id) + " must be named with a-z, 0-9, - and _");
      if (std::find(ids.begin(), id, *id) != id) say(sort + " " + ohmwright::quoted(*id) + " stands twice");
    }
  }

  template <class Row>
  void check_ids(const std::string& sort, const std::vector<Row>& rows) {
    std::vector<std::string_view> ids;
    ids.reserve(rows.size());
    for (const Row& row : rows) ids.push_back(row.id);
    check_plain_ids(sort, ids);
  }

  void check_texts(const std::string& sort, const std::vector<TextEntry>& texts) {
    check_ids(sort, texts);
    for (const TextEntry& text : texts) needs(sort, text.id, "text", text.english);
  }

  const Descriptor& descriptor_;
};

}  // namespace

std::vector<std::string> descriptor_problems(const Descriptor& descriptor, const StampedKind& stamped) {
  DescriptorCheck check(descriptor);
  check.check_names(stamped);
  check.check_measurands_and_conditions();
  check.check_rules();
  check.check_procedures();
  check.check_fault_modes_and_charts();
  return std::move(check.problems);
}

}  // namespace ohmwright
