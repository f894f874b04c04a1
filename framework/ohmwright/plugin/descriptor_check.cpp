#include <algorithm>
#include <cmath>
#include <string_view>

#include <ohmwright/component/electrical.hpp>
#include <ohmwright/plugin/descriptor_check.hpp>
#include <ohmwright/plugin/descriptor_parts.hpp>
#include <ohmwright/verdict/refused_work.hpp>

namespace ohmwright {

namespace {

void check_names(const Descriptor& descriptor, const StampedKind& stamped, ProblemList& problems) {
  if (descriptor.id != stamped.id) {
    problems.say("its descriptor is of " + ohmwright::quoted(descriptor.id) + ", its stamp of " +
                 ohmwright::quoted(stamped.id));
  }
  for (const std::string_view alias : descriptor.aliases) {
    if (std::find(stamped.aliases.begin(), stamped.aliases.end(), alias) == stamped.aliases.end())
      problems.say("the alias " + ohmwright::quoted(alias) + " is in its descriptor but not in its stamp");
  }
  for (const std::string& alias : stamped.aliases) {
    if (std::find(descriptor.aliases.begin(), descriptor.aliases.end(), alias) == descriptor.aliases.end())
      problems.say("the alias " + ohmwright::quoted(alias) + " is in its stamp but not in its descriptor");
  }
  const std::string name = "kind " + ohmwright::quoted(stamped.id);
  problems.needs("kind", stamped.id, "title", descriptor.title);
  if (descriptor.ratings_schema.empty()) problems.say(name + " has no ratings schema");
  if (!is_descriptor_id(descriptor.text_domain)) {  // a catalogue is looked up under that file name
    problems.say(name +
                 " has no text domain named with a-z, 0-9, - and _: " + ohmwright::quoted(descriptor.text_domain));
  }
  problems.check_plain_ids("role", descriptor.roles);
  problems.check_plain_ids("terminal", descriptor.terminals);
}

/// What no kind is for, whoever wrote it: told by its names and by what it says, as of kind files and appliances.
/// Cautions alone may speak of it.
class RefusedWork {
 public:
  explicit RefusedWork(ProblemList& problems) : problems_(problems) {}

  void name(std::string_view name) { say(name, refused_work(name), ""); }
  void text(std::string_view text) {
    say(text, refused_work_in_text(text), "; where it only warns, say it in a caution");
  }
  template <class Rows>
  void names(const Rows& rows) {
    for (const auto& row : rows) {
      name(row.id);
      name(row.title);
    }
  }
  template <class Rows>
  void titles(const Rows& rows) {
    for (const auto& row : rows) text(row.title);
  }
  void texts(const std::vector<TextEntry>& entries) {
    for (const TextEntry& entry : entries) text(entry.english);
  }

 private:
  void say(std::string_view what, std::string_view reason, std::string_view way_on) {
    if (!reason.empty()) problems_.say(ohmwright::quoted(what) + ": " + std::string(reason) + std::string(way_on));
  }

  ProblemList& problems_;
};

void check_refused_work(const Descriptor& descriptor, ProblemList& problems) {
  RefusedWork check(problems);
  check.name(descriptor.id);
  check.name(descriptor.title);
  for (const std::string_view alias : descriptor.aliases) check.name(alias);
  for (const std::string_view role : descriptor.roles) check.name(role);
  for (const std::string_view terminal : descriptor.terminals) check.name(terminal);
  check.names(descriptor.measurands);
  check.names(descriptor.procedures);
  check.titles(descriptor.conditions);
  check.titles(descriptor.states);
  check.titles(descriptor.rules);
  check.titles(descriptor.error_sources);
  check.titles(descriptor.fault_modes);
  for (const StateDescriptor& state : descriptor.states) check.texts(state.values);
  for (const RuleDescriptor& rule : descriptor.rules) check.texts(rule.texts);
  for (const ProcedureDescriptor& procedure : descriptor.procedures) check.texts(procedure.steps);
  for (const AdviceDescriptor& advice : descriptor.advice) check.text(advice.english);
  if (!refused_work_in_text(descriptor.ratings_schema).empty())
    problems.say("its ratings schema: " + std::string(refused_work_in_text(descriptor.ratings_schema)));
}

void check_states(const Descriptor& descriptor, ProblemList& problems) {
  problems.check_ids("state", descriptor.states);
  if (descriptor.states.size() > most_states)
    problems.say("it has " + std::to_string(descriptor.states.size()) + " states; a reading carries at most " +
                 std::to_string(most_states));
  for (const StateDescriptor& state : descriptor.states) {
    problems.needs("state", state.id, "title", state.title);
    if (state.values.size() < 2) problems.say("state " + ohmwright::quoted(state.id) + " needs two values or more");
    problems.check_texts("value of state " + ohmwright::quoted(state.id), state.values);
  }
}

void check_error_sources(const Descriptor& descriptor, ProblemList& problems) {
  problems.check_ids("error source", descriptor.error_sources);
  for (const ErrorSourceDescriptor& source : descriptor.error_sources)
    problems.needs("error source", source.id, "title", source.title);
}

void check_fault_modes(const Descriptor& descriptor, ProblemList& problems) {
  problems.check_ids("fault mode", descriptor.fault_modes);
  for (const FaultModeDescriptor& mode : descriptor.fault_modes) {
    const std::string name = "fault mode " + ohmwright::quoted(mode.id);
    problems.needs("fault mode", mode.id, "title", mode.title);
    problems.needs("fault mode", mode.id, "source of its weight", mode.prior_source);
    if (!std::isfinite(mode.prior_weight) || mode.prior_weight < 0.0) problems.say(name + " has no possible weight");
    for (const SymptomEffect& effect : mode.symptoms) {
      if (!(effect.probability >= 0.0 && effect.probability <= 1.0) || !is_descriptor_id(effect.symptom))
        problems.say(name + " has no possible symptom " + ohmwright::quoted(effect.symptom));
    }
  }
}

}  // namespace

std::vector<std::string> descriptor_problems(const Descriptor& descriptor, const StampedKind& stamped) {
  ProblemList problems;
  check_names(descriptor, stamped, problems);
  check_refused_work(descriptor, problems);
  check_states(descriptor, problems);
  check_error_sources(descriptor, problems);
  check_measurands_and_conditions(descriptor, problems);
  check_rules(descriptor, problems);
  check_advice(descriptor, problems);
  check_procedures(descriptor, problems);
  check_fault_modes(descriptor, problems);
  return problems.take();
}

}  // namespace ohmwright
