#include <ohmwright/quantity/article.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/comparison_report.hpp>

#include "exit_codes.hpp"
#include "given_conditions.hpp"
#include "kind_files.hpp"
#include "output.hpp"
#include "verbs.hpp"

namespace ohmwright::cli {

namespace {

/// An end of the span that matters, along the condition of the kind's first chart.
std::optional<AnyQuantity> end_of_span(const char* option, const Arguments& arguments, const Descriptor& descriptor,
                                       UnitPreferences& units) {
  if (!arguments.has(option)) return std::nullopt;
  if (descriptor.charts.empty())
    throw InputError(with_article(descriptor.id) + " is compared as a whole; leave " + option + " out");
  const std::uint16_t condition = index_of(descriptor.conditions, descriptor.charts.front().condition);
  return condition_value(descriptor, condition, arguments.value(option), units);
}

int run_compare(const Arguments& arguments, Environment& environment) {
  const LoadedKind& kind = open_kind(environment, arguments.operands[0]);
  const Descriptor& descriptor = kind.descriptor();
  const RatedPart original = rated_part(kind, arguments.operands[1], arguments.value("--control"));
  const RatedPart candidate = rated_part(kind, arguments.operands[2]);
  UnitPreferences units;
  const std::vector<ConditionValue> given = given_conditions(arguments, descriptor, units);
  const ComparisonContext context{
      {given}, end_of_span("--from", arguments, descriptor, units), end_of_span("--to", arguments, descriptor, units)};
  if (context.from && context.to && context.from->value_in_si() >= context.to->value_in_si())
    throw InputError("--from must lie below --to");
  std::vector<EquivalenceFinding> findings =
      kind.call("comparing two parts", [&] { return kind.kind().compare(*original.part, *candidate.part, context); });
  if (findings.empty()) throw InputError("the kind " + std::string(descriptor.id) + " offers no comparison");
  if (arguments.operands[1] == arguments.operands[2]) silence_what_is_not_stated(findings);
  const ComparisonReport report{descriptor, original.title, candidate.title, findings};
  const Sentences say(units);
  deliver(arguments.value("--format", "text") == "json" ? comparison_json(report, say)
                                                        : comparison_page(report, say, environment.page),
          arguments, environment);
  return exit_code(equivalence(findings));
}

}  // namespace

VerbSpec compare_verb() {
  return {
      .name = "compare",
      .summary = OHMWRIGHT_TEXT("Can one part stand in for another: what differs, and what that would do"),
      .example = "ohmwright compare thermistor ntc-10k-b3977 ntc-10k-b3435",
      .operands = {{"KIND", OHMWRIGHT_TEXT("What the parts are: a kind or what people call it"), true, false},
                   {"ORIGINAL", OHMWRIGHT_TEXT("The part to be replaced: a class or a ratings file"), true, false},
                   {"CANDIDATE", OHMWRIGHT_TEXT("The part that is offered: a class or a ratings file"), true, false}},
      .options =
          {
              {"--from", "VALUE", OHMWRIGHT_TEXT("Where the span that matters begins"), {}},
              {"--to", "VALUE", OHMWRIGHT_TEXT("Where it ends"), {}},
              {"--control",
               "NAME|FILE",
               OHMWRIGHT_TEXT("What reads the part (a sensor's control): a shipped one or a file"),
               {}},
              given_option(),
              {"--format", "FORMAT", OHMWRIGHT_TEXT("text (default) or json"), {"text", "json"}},
              {"--out", "FILE", OHMWRIGHT_TEXT("Write there instead of the terminal"), {}},
          },
      .circumstances = {},
      .takes_conditions = false,
      .run = run_compare,
  };
}

}  // namespace ohmwright::cli
