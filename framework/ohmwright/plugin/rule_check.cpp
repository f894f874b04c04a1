#include <algorithm>

#include <ohmwright/plugin/descriptor_parts.hpp>

namespace ohmwright {

void check_rules(const Descriptor& descriptor, ProblemList& problems) {
  const auto is_essential = [](const RuleDescriptor& rule) { return rule.essential; };
  if (descriptor.rules.empty())
    problems.say("it has no rule");
  else if (std::none_of(descriptor.rules.begin(), descriptor.rules.end(), is_essential))
    problems.say("none of its rules is essential, so no part could ever pass");
  problems.check_ids("rule", descriptor.rules);
  for (const RuleDescriptor& rule : descriptor.rules) {
    const std::string name = "rule " + ohmwright::quoted(rule.id);
    problems.needs("rule", rule.id, "title", rule.title);
    problems.needs("rule", rule.id, "source", rule.source);
    if (rule.outcomes == 0 || rule.outcomes > (can_pass | can_condemn | can_be_undecided))
      problems.say(name + " declares no possible outcome");
    if (rule.condemns_for_good && (rule.outcomes & can_condemn) == 0)
      problems.say(name + " condemns for good, and declares that it condemns nothing");
    if (rule.texts.empty()) problems.say(name + " has no text");
    problems.check_texts("text of " + name, rule.texts);
  }
}

}  // namespace ohmwright
