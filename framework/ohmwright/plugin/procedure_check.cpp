#include <cmath>

#include <ohmwright/plugin/descriptor_parts.hpp>
#include <ohmwright/verdict/caution.hpp>

namespace ohmwright {

namespace {

/// What stands above every verdict has one line of a small screen for it.
constexpr std::size_t longest_brief = 90;

void check_cautions(const Descriptor& descriptor, ProblemList& problems) {
  problems.check_ids("caution", descriptor.cautions);
  for (const CautionDescriptor& caution : descriptor.cautions) {
    const std::string name = "caution " + ohmwright::quoted(caution.id);
    problems.needs("caution", caution.id, "text", caution.english);
    problems.needs("caution", caution.id, "brief text", caution.brief);
    problems.needs("caution", caution.id, "source", caution.source);
    if (caution.brief.ends_with('.')) problems.say(name + " has a brief text that ends in a full stop");
    if (caution.brief.size() > longest_brief) {
      problems.say(name + " has a brief text of " + std::to_string(caution.brief.size()) + " bytes; at most " +
                   std::to_string(longest_brief) + " can stand above a verdict");
    }
    if (caution_named(caution.id) != nullptr) problems.say(name + " is the framework's own and cannot be replaced");
  }
}

}  // namespace

void check_advice(const Descriptor& descriptor, ProblemList& problems) {
  problems.check_texts("advice", descriptor.advice);
  for (const AdviceDescriptor& advice : descriptor.advice)
    if (!advice.procedure.empty())
      problems.refers("advice " + ohmwright::quoted(advice.id), "procedure", descriptor.procedures, advice.procedure);
}

void check_procedures(const Descriptor& descriptor, ProblemList& problems) {
  check_cautions(descriptor, problems);
  problems.check_ids("procedure", descriptor.procedures);
  for (const ProcedureDescriptor& procedure : descriptor.procedures) {
    const std::string name = "procedure " + ohmwright::quoted(procedure.id);
    problems.needs("procedure", procedure.id, "title", procedure.title);
    problems.refers(name, "measurand", descriptor.measurands, procedure.measurand);
    if (!std::isfinite(procedure.minutes) || procedure.minutes < 0.0) problems.say(name + " takes no possible time");
    if (procedure.steps.empty()) problems.say(name + " has no step");
    problems.check_texts("step of " + name, procedure.steps);
    if (procedure.cautions.empty()) problems.say(name + " has no caution");
    for (const std::string_view caution : procedure.cautions)
      if (caution_named(caution) == nullptr) problems.refers(name, "caution", descriptor.cautions, caution);
  }
}

}  // namespace ohmwright
