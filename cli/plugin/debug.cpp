#include <algorithm>
#include <array>
#include <cstdlib>
#include <ostream>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <ohmwright/component/judgement.hpp>
#include <ohmwright/component/swapped_probes.hpp>
#include <ohmwright/plugin/guarded_judge.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/print.hpp>
#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/report/sentences.hpp>

#include "check_readings.hpp"
#include "exit_codes.hpp"
#include "instruments.hpp"
#include "kind_files.hpp"
#include "plugin/actions.hpp"

namespace ohmwright::cli {

namespace {

std::string plain_number(double value) { return exact_text({Dimension::ratio, value}); }

std::string_view word_of(Shown shown) {
  constexpr std::array<std::string_view, 4> words{"value", "over_range", "contact_open", "contact_closed"};
  return words.at(static_cast<std::size_t>(shown));
}
std::string_view word_of(Connection connection) {
  constexpr std::array<std::string_view, 3> words{"unstated", "lead_off", "in_circuit"};
  return words.at(static_cast<std::size_t>(connection));
}
std::string_view word_of(Moisture moisture) {
  constexpr std::array<std::string_view, 3> words{"unstated", "dry", "wet"};
  return words.at(static_cast<std::size_t>(moisture));
}
std::string_view word_of(Supply supply) {
  constexpr std::array<std::string_view, 4> words{"unstated", "unplugged", "proved_dead", "live"};
  return words.at(static_cast<std::size_t>(supply));
}
std::string_view word_of(ProbabilityMeaning meaning) {
  constexpr std::array<std::string_view, 3> words{"none", "within_limits", "observed_if_within"};
  return words.at(static_cast<std::size_t>(meaning));
}

/// What a part is judged by and what came of it, in the words of the code: the author reads it beside their source.
class DebugPage {
 public:
  DebugPage(const Descriptor& descriptor, const Evidence& evidence, const PageStyle& style)
      : descriptor_(descriptor), evidence_(evidence), page_(style) {}

  void show_evidence() {
    page_.block(std::string(descriptor_.id) + ": " + std::to_string(evidence_.readings().size()) +
                " readings, as Evidence holds them (SI units)");
    for (const PreparedReading& reading : evidence_.readings()) show_reading(reading);
  }

  void show_rules(const Findings& findings, const Sentences& say) {
    for (std::size_t rule = 0; rule < descriptor_.rules.size(); ++rule) {
      const RuleDescriptor& row = descriptor_.rules[rule];
      page_.heading("rule " + std::string(row.id) + (row.essential ? " (essential)" : ""));
      bool spoke = false;
      for (const Finding& finding : findings.findings()) {
        if (finding.rule != rule) continue;
        spoke = true;
        show_finding(row, finding, say);
      }
      if (!spoke) page_.item("no finding at all; a rule that has nothing to go on adds a silent one that says why");
    }
  }

  void show_conclusion(const Verdict& verdict) {
    page_.heading("conclusion");
    page_.item(std::string(name_of(verdict.outcome)) +
               (verdict.probability_within ? ", probability_within " + plain_number(*verdict.probability_within)
                                           : ", no rule with a probability spoke"));
    for (const Finding& finding : verdict.findings) {
      const RuleDescriptor& row = descriptor_.rules[finding.rule];
      if (finding.outcome == Outcome::out_of_limits) page_.item("the rule " + std::string(row.id) + " condemns it");
      if (row.essential && finding.outcome == Outcome::silent)
        page_.item("the essential rule " + std::string(row.id) + " was silent, so it cannot pass");
      if (finding.holds_back) page_.item("the rule " + std::string(row.id) + " holds it back");
    }
    for (const Advice& advice : verdict.advice) page_.item("advice " + std::string(descriptor_.advice[advice.text].id));
  }

  PageLayout& page() { return page_; }

 private:
  void show_reading(const PreparedReading& reading) {
    page_.heading(evidence_.label(reading) + ": " +
                  (is_set_aside(reading) ? "set aside, since it contradicts another one"
                                         : std::string(descriptor_.measurands[reading.measurand].id)));
    page_.item("shown " + std::string(word_of(reading.shown)) + ", connection " +
               std::string(word_of(reading.connection)) + ", moisture " + std::string(word_of(reading.moisture)) +
               ", supply " + std::string(word_of(reading.supply)));
    if (reading.shown == Shown::value) {
      page_.item("displayed " + plain_number(reading.displayed) + ", judged by " + estimate_text(reading.value));
    } else {
      page_.item("range_full_scale " + plain_number(reading.range_full_scale));
    }
    for (const PreparedCondition& condition : reading.conditions)
      page_.item("condition " + std::string(descriptor_.conditions[condition.condition].id) + " " +
                 estimate_text(condition.value));
    for (const StateValue& state : reading.states)
      page_.item("state " + std::string(descriptor_.states[state.state].id) + " " +
                 std::string(descriptor_.states[state.state].values[state.value].id));
  }

  std::string estimate_text(const Estimate& estimate) const {
    std::string text = plain_number(estimate.value());
    for (const Term& term : estimate.terms()) {
      const ErrorSource& source = evidence_.sources()[term.source];
      text += "; " + source.id + (source.of.empty() ? "" : " of " + source.of) + " " +
              plain_number(term.standard_uncertainty);
    }
    return text;
  }

  void show_finding(const RuleDescriptor& row, const Finding& finding, const Sentences& say) {
    const TextEntry& text = row.texts[finding.text];
    page_.item(std::string(name_of(finding.outcome)) + ", text " + std::string(text.id) + ": " +
               say.in_domain(descriptor_.text_domain, text.english, view(finding.arguments)));
    if (finding.meaning != ProbabilityMeaning::none)
      page_.item("probability " + plain_number(finding.probability) + " (" + std::string(word_of(finding.meaning)) +
                 ")");
    if (finding.judged)
      page_.item("judged " + estimate_text(*finding.judged) + "; between " + plain_number(finding.judged_lower) +
                 " and " + plain_number(finding.judged_upper));
  }

  const Descriptor& descriptor_;
  const Evidence& evidence_;
  PageLayout page_;
};

JudgeSettings settings_of(const Arguments& arguments) {
  JudgeSettings settings;
  if (arguments.has("--confidence"))
    settings.confidence = parse_stated_value(arguments.value("--confidence"), Dimension::ratio).value.value_in_si();
  return settings;
}

}  // namespace

int debug_plugin(const Arguments& arguments, Environment& environment) {
  PluginSearch search = environment.search;
  search.options.worker.reset();  // a debugger looks into this process
  const Registry registry(search.folders, search.user, search.options);
  Environment inside{environment.out, environment.err, environment.locations, search, registry, environment.page};
  Arguments words = arguments;
  words.operands.erase(words.operands.begin());  // "debug"; what follows is as check takes it
  const LoadedKind& kind = kind_typed(inside, words.operands);
  const RatedPart part = rated_part(kind, words.value("--ratings"), words.value("--control"));
  Instruments instruments(words, inside);
  UnitPreferences units;
  std::vector<Reading> readings = gather_readings(words, kind.descriptor(), instruments.meters(), units);
  instruments.choose(readings, kind.descriptor());
  const Evidence evidence(kind.descriptor(), readings, instruments.meters());
  const JudgeSettings settings = settings_of(words);

  DebugPage read(kind.descriptor(), evidence, environment.page);
  read.show_evidence();
  environment.out << read.page().take() << std::flush;  // whatever the rules do then
  DebugPage shown(kind.descriptor(), evidence, environment.page);
  const Sentences say(units);
  Findings findings;
  const auto failure = run_rules(*part.part, kind.descriptor(), evidence, settings, findings);
  if (failure) throw Error(ErrorCategory::plugin, std::string(kind.descriptor().id) + ": " + failure->text);
  shown.show_rules(findings, say);
  const Verdict verdict = conclude(kind.descriptor(), evidence, settings, std::move(findings));
  shown.show_conclusion(verdict);
  shown.page().blank_line();
  shown.page().block(
      say(OHMWRIGHT_TEXT("The plugin ran in this process, so a debugger sees it: gdb --args, then this command; "
                         "break where your rule judges (a pending breakpoint: the library is loaded late).")));
  environment.out << shown.page().take();
  return exit_code(verdict.outcome);
}

}  // namespace ohmwright::cli
