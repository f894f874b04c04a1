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

/// What no kind is for, whoever wrote it: told by its names, as of kind files and appliances.
void check_refused_work(const Descriptor& descriptor, ProblemList& problems) {
  const auto check = [&problems](std::string_view name) {
    if (const std::string_view reason = refused_work(name); !reason.empty())
      problems.say(ohmwright::quoted(name) + ": " + std::string(reason));
  };
  check(descriptor.id);
  check(descriptor.title);
  for (const std::string_view alias : descriptor.aliases) check(alias);
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
