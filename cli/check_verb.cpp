#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/verdict_report.hpp>

#include "circumstances.hpp"
#include "exit_codes.hpp"
#include "kind_files.hpp"
#include "output.hpp"
#include "part_charts.hpp"
#include "part_check.hpp"
#include "verbs.hpp"

namespace ohmwright::cli {

namespace {

std::string report_text(const Arguments& arguments, const PartCheck& check, const PageStyle& page) {
  const VerdictReport report = check.report(arguments);
  const Sentences sentences(check.units());
  const std::string format = arguments.value("--format", "text");
  if (format == "json") return verdict_json(report, sentences);
  if (format == "text") return verdict_page(report, sentences, page);
  const std::optional<Chart> chart = chart_with_readings(check.kind(), check.part(), report.evidence);
  return verdict_html(report, chart ? &*chart : nullptr, sentences);
}

int run_check(const Arguments& arguments, Environment& environment) {
  const LoadedKind& kind = kind_typed(environment, arguments.operands);
  const PartCheck check = checked_part(
      kind, rated_part(kind, arguments.value("--ratings"), arguments.value("--control")), arguments, environment);
  deliver(report_text(arguments, check, environment.page), arguments, environment);
  return exit_code(check.verdict().outcome);
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
              {"--four-wire",
               "",
               OHMWRIGHT_TEXT("With --from: ohms by four wires, so that no leads are taken off"),
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
