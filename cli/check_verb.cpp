#include <algorithm>
#include <utility>

#include <ohmwright/plugin/guarded_judge.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/verdict_report.hpp>

#include "check_readings.hpp"
#include "circumstances.hpp"
#include "exit_codes.hpp"
#include "instrument_readings.hpp"
#include "instruments.hpp"
#include "kind_files.hpp"
#include "made_with.hpp"
#include "output.hpp"
#include "part_charts.hpp"
#include "verbs.hpp"

namespace ohmwright::cli {

namespace {

double chosen_confidence(const Arguments& arguments) {
  if (!arguments.has("--confidence")) return JudgeSettings{}.confidence;
  const std::string text = arguments.value("--confidence");
  const double confidence = parse_stated_value(text, Dimension::ratio).value.value_in_si();
  if (confidence > 0.5 && confidence < 1.0) return confidence;
  throw InputError("--confidence takes a probability between 0.5 and 1, such as 0.95, got " + ohmwright::quoted(text));
}

/// What a judgement of one part is made from.
struct Call {
  const LoadedKind& kind;
  RatedPart part;
  Instruments instruments;
  UnitPreferences units;
  std::vector<Reading> readings;
};

std::vector<OtherInstrument> other_instruments(const Call& call) {
  std::vector<OtherInstrument> others;
  for (const Reading& reading : call.readings) {
    if (reading.meter.empty()) continue;
    OtherInstrument other{reading.measurand, call.instruments.meters().named(reading.meter).title,
                          call.instruments.is_assumed(reading.meter)};
    if (std::find(others.begin(), others.end(), other) == others.end()) others.push_back(std::move(other));
  }
  return others;
}

std::string report_text(const Arguments& arguments, const Call& call, const VerdictReport& report,
                        const PageStyle& page) {
  const Sentences sentences(call.units);
  const std::string format = arguments.value("--format", "text");
  if (format == "json") return verdict_json(report, sentences);
  if (format == "text") return verdict_page(report, sentences, page);
  const std::optional<Chart> chart = chart_with_readings(call.kind, call.part, report.evidence);
  return verdict_html(report, chart ? &*chart : nullptr, sentences);
}

int judge_and_report(const Arguments& arguments, Environment& environment, const Call& call) {
  const MeterSet& meters = call.instruments.meters();
  const Descriptor& descriptor = call.kind.descriptor();
  const JudgeSettings settings{chosen_confidence(arguments)};
  const Evidence evidence(descriptor, call.readings, meters);
  const std::variant<Verdict, NotJudged> judged = judge_guarded(*call.part.part, descriptor, evidence, settings);
  if (const auto* failed = std::get_if<NotJudged>(&judged))
    throw Error(ErrorCategory::plugin, std::string(descriptor.id) + ": " + failed->text);

  const auto& verdict = std::get<Verdict>(judged);
  const VerdictReport report{.descriptor = descriptor,
                             .verdict = verdict,
                             .evidence = evidence,
                             .readings = call.readings,
                             .confidence = settings.confidence,
                             .part_name = call.part.name,
                             .part_title = call.part.title,
                             .meter_title = meters.named("").title,
                             .meter_assumed = call.instruments.is_usual_assumed(),
                             .other_instruments = other_instruments(call),
                             .made_with = made_with(),
                             .every_rule = arguments.has("--every-rule"),
                             .cautions_in_full = arguments.has("--cautions")};
  deliver(report_text(arguments, call, report, environment.page), arguments, environment);
  return exit_code(verdict.outcome);
}

int run_check(const Arguments& arguments, Environment& environment) {
  const LoadedKind& kind = kind_typed(environment, arguments.operands);
  Call call{kind,
            rated_part(kind, arguments.value("--ratings"), arguments.value("--control")),
            Instruments(arguments, environment),
            {},
            {}};
  const std::optional<Reading> shown = reading_from_instrument(arguments, environment, kind.descriptor());
  call.readings = gather_readings(arguments, kind.descriptor(), call.instruments.meters(), call.units, shown);
  for (const Reading& reading : call.readings)
    if (shown && reading.label == instrument_label && reading.supply == Supply::live)
      refuse_live_instrument(arguments, environment, arguments.value("--from"));
  call.instruments.choose(call.readings, kind.descriptor());
  return judge_and_report(arguments, environment, call);
}

}  // namespace

VerbSpec check_verb() {
  return {
      .name = "check",
      .summary =
          OHMWRIGHT_TEXT("Judge a part from what the meter showed: in spec, out of spec, or what would decide it"),
      .example = "ohmwright check thermistor 11.0k --at 23C",
      .operands = {{"KIND", OHMWRIGHT_TEXT("What the part is: a kind or what people call it (see: ohmwright kinds)"),
                    true, false},
                   {"READING",
                    OHMWRIGHT_TEXT("What the meter showed: 11.0k, 4k7, OL, 33.1k@0C. Readings before one --at "
                                   "were taken at that temperature, those before the next at the next."),
                    false, true}},
      .options =
          {
              {"--ratings", "NAME|FILE", OHMWRIGHT_TEXT("What the part should be: a shipped class or a file"), {}},
              {"--control",
               "NAME|FILE",
               OHMWRIGHT_TEXT("What reads the part (a sensor's control): a shipped one or a file"),
               {}},
              {"--readings", "FILE", OHMWRIGHT_TEXT("Readings from a file, beside those typed"), {}},
              {"--series",
               "FILE",
               OHMWRIGHT_TEXT("A table of readings, one a line, its columns named in the first"),
               {}},
              {"--from",
               "ADDRESS[#MEASURAND]",
               OHMWRIGHT_TEXT("A reading straight from an instrument: tcp://HOST, serial:DEVICE, program:COMMAND "
                              "(see: ohmwright meter --help)"),
               {}},
              {"--timeout", "TIME", OHMWRIGHT_TEXT("With --from: time that it has for each answer (default 5s)"), {}},
              {"--meter",
               "NAME|FILE",
               OHMWRIGHT_TEXT("The meter: basic (default), good, bench, or a file; again for a further instrument: "
                              "clamp, insulation-tester"),
               {},
               true},
              {"--confidence", "P", OHMWRIGHT_TEXT("How sure a verdict must be (default 0.95)"), {}},
              {"--every-rule", "", OHMWRIGHT_TEXT("Also say why each rule that was not checked stayed silent"), {}},
              {"--cautions", "", OHMWRIGHT_TEXT("Show every caution in full, not its few words"), {}},
              {"--live-agreed",
               "",
               OHMWRIGHT_TEXT("You are qualified for live measurement and agreed to its caution"),
               {}},
              {"--format", "FORMAT", OHMWRIGHT_TEXT("text (default), json or html"), {"text", "json", "html"}},
              {"--out", "FILE", OHMWRIGHT_TEXT("Write there instead of the terminal"), {}},
          },
      .circumstances = {circumstance_options().begin(), circumstance_options().end()},
      .takes_conditions = true,
      .run = run_check,
  };
}

}  // namespace ohmwright::cli
