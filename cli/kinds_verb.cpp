#include <optional>
#include <ostream>
#include <sstream>
#include <utility>
#include <vector>

#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/sentences.hpp>
#include <ohmwright/report/verdict_report.hpp>

#include "environment.hpp"
#include "exit_codes.hpp"
#include "kind_files.hpp"
#include "verbs.hpp"

namespace ohmwright::cli {

namespace {

/// Why a kind file that its schema accepts cannot be a kind, or nothing: what only its reader knows is told when it is
/// opened. Libraries stay closed, since opening one runs its code.
std::optional<RefusedPlugin> refusal_of(const FoundPlugin& plugin, const Registry& registry) {
  if (plugin.kind_file == nullptr) return std::nullopt;
  try {
    registry.kind(plugin.kinds.front().id);
    return std::nullopt;
  } catch (const PluginError& error) {
    return RefusedPlugin{error.path(), error.reasons(), plugin.kinds};
  }
}

void list_kinds(Environment& environment, const Sentences& say) {
  std::ostream& out = environment.out;
  std::vector<RefusedPlugin> all_refused = environment.registry.refused();
  for (const FoundPlugin& plugin : environment.registry.plugins()) {
    if (std::optional<RefusedPlugin> refused = refusal_of(plugin, environment.registry)) {
      all_refused.push_back(*std::move(refused));
      continue;
    }
    for (const StampedKind& kind : plugin.kinds) {
      out << kind.id << '\n';
      if (kind.aliases.empty()) continue;
      out << paragraph(say(OHMWRIGHT_TEXT("also called: {aliases}"), {{"aliases", listed(kind.aliases)}}),
                       environment.page.width, "  ", "  ");
    }
  }
  out << '\n'
      << paragraph(say(OHMWRIGHT_TEXT("ohmwright kinds KIND: what can be read of one, how, and with which cautions")),
                   environment.page.width);
  if (all_refused.empty()) return;
  out << '\n' << say(OHMWRIGHT_TEXT("Refused")) << '\n';
  for (const RefusedPlugin& refused : all_refused) {
    out << paragraph(shell_word(refused.path), environment.page.width, "  ", "  ");
    for (const std::string& reason : refused.reasons)
      out << paragraph(reason, environment.page.width, "    - ", "      ");
  }
}

/// What one kind can read, check and go through.
class KindPage {
 public:
  KindPage(const Descriptor& descriptor, const Sentences& say, int width)
      : descriptor_(descriptor), say_(say), width_(width) {}

  std::string write() {
    page_ << paragraph(in_kind(descriptor_.title) + " (" + std::string(descriptor_.id) + ")", width_);
    if (!descriptor_.aliases.empty()) item(listed(descriptor_.aliases));
    section(OHMWRIGHT_TEXT("What can be read"));
    for (const MeasurandDescriptor& measurand : descriptor_.measurands)
      item(std::string(measurand.id) + ": " + in_kind(measurand.title));
    if (!descriptor_.conditions.empty()) section(OHMWRIGHT_TEXT("Conditions"));
    for (const ConditionDescriptor& condition : descriptor_.conditions)
      item("--" + std::string(condition.option) + ": " + in_kind(condition.title));
    if (!descriptor_.states.empty()) section(OHMWRIGHT_TEXT("States"));
    for (const StateDescriptor& state : descriptor_.states) item(state_line(state));
    section(OHMWRIGHT_TEXT("Rules"));
    for (const RuleDescriptor& rule : descriptor_.rules) item(rule_line(rule));
    for (const ProcedureDescriptor& procedure : descriptor_.procedures) write_procedure(procedure);
    section(OHMWRIGHT_TEXT("Ways in which it fails"));
    for (const FaultModeDescriptor& fault : descriptor_.fault_modes) item(in_kind(fault.title));
    return page_.str();
  }

 private:
  std::string in_kind(std::string_view english) const { return say_.in_domain(descriptor_.text_domain, english); }
  void section(std::string_view english) { page_ << '\n' << say_(english) << '\n'; }
  void item(const std::string& text) { page_ << paragraph(text, width_, "  - ", "    "); }

  std::string state_line(const StateDescriptor& state) const {
    std::vector<std::string_view> values;
    for (const TextEntry& value : state.values) values.push_back(value.id);
    const std::string name = state.option.empty() ? std::string(state.id) : "--" + std::string(state.option);
    return name + ": " + in_kind(state.title) + " (" + listed(values) + ")";
  }

  std::string rule_line(const RuleDescriptor& rule) const {
    std::string line = std::string(rule.id) + ": " + in_kind(rule.title);
    if (rule.essential) line += say_(OHMWRIGHT_TEXT(" (must pass)"));
    return line + " [" + std::string(rule.source) + "]";
  }

  void write_procedure(const ProcedureDescriptor& procedure) {
    page_ << '\n'
          << paragraph(say_(OHMWRIGHT_TEXT("{title} (about {minutes} min)"),
                            {{"title", in_kind(procedure.title)}, {"minutes", procedure.minutes}}),
                       width_);
    for (const std::string_view id : procedure.cautions) {
      const CautionText caution = caution_text(descriptor_, id);
      page_ << paragraph(say_.in_domain(caution.domain, caution.english), width_, "  ! ", "    ");
    }
    int number = 0;
    for (const TextEntry& step : procedure.steps) {
      const std::string first = "  " + std::to_string(++number) + ". ";
      page_ << paragraph(in_kind(step.english), width_, first, std::string(first.size(), ' '));
    }
  }

  const Descriptor& descriptor_;
  const Sentences& say_;
  int width_;
  std::ostringstream page_;
};

/// Of a plugin from outside the installation, and where the kernel holds less back than it should, what.
std::string where_it_runs(const LoadedKind& kind, const Sentences& say, int width) {
  if (!kind.is_in_worker()) return {};
  std::string page =
      '\n' + say(OHMWRIGHT_TEXT("Where it runs")) + '\n' +
      paragraph(say(OHMWRIGHT_TEXT("In a process of its own, since its plugin is not the installation's.")), width,
                "  - ", "    ");
  for (const std::string& missing : kind.not_held_back())
    page += paragraph(say(OHMWRIGHT_TEXT("On this machine that process is held less than it should be: {what}."),
                          {{"what", missing}}),
                      width, "  - ", "    ");
  return page;
}

int run_kinds(const Arguments& arguments, Environment& environment) {
  const Sentences say{UnitPreferences{}};
  if (arguments.operands.empty()) {
    list_kinds(environment, say);
    return exit_done;
  }
  const LoadedKind& kind = open_kind(environment, arguments.operands[0]);
  environment.out << KindPage(kind.descriptor(), say, environment.page.width).write()
                  << where_it_runs(kind, say, environment.page.width);
  return exit_done;
}

}  // namespace

VerbSpec kinds_verb() {
  return {
      .name = "kinds",
      .summary = OHMWRIGHT_TEXT("List the kinds of parts, or what one kind can read, check and go through"),
      .example = "ohmwright kinds thermistor",
      .operands = {{"KIND", OHMWRIGHT_TEXT("A kind or what people call it"), false, false}},
      .options = {},
      .circumstances = {},
      .takes_conditions = false,
      .run = run_kinds,
  };
}

}  // namespace ohmwright::cli
