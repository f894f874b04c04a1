#include <cstdint>
#include <filesystem>
#include <system_error>

#include <ohmwright/cycles/verdicts/repair.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/log_report.hpp>
#include <ohmwright/report/repair_report.hpp>

#include "exit_codes.hpp"
#include "log/files.hpp"
#include "log/folder.hpp"
#include "log/simulate.hpp"
#include "output.hpp"
#include "verbs.hpp"

namespace ohmwright::cli {

namespace {

int run_one_log(const Arguments& arguments, Environment& environment) {
  const TypedLogRatings typed = typed_log_ratings(arguments, environment);
  const ReadLog log = read_log(arguments.operands[0], typed_reading_settings(arguments), typed.ratings);
  const std::vector<cycles::LogVerdict> verdicts = cycles::judge_log(log.analysis, typed.ratings);
  tell_not_judged(typed, environment);
  const std::string& file = arguments.operands[0];
  const LogReport report{log.reader, log.analysis, verdicts, arguments.value("--appliance"),
                         file == "-" ? std::string() : std::filesystem::path(file).filename().string()};
  const std::string format = arguments.value("--format", "text");
  const Sentences say{UnitPreferences{}};
  deliver(format == "json"   ? log_json(report, say)
          : format == "html" ? log_html(report, say)
                             : log_page(report, say, environment.page),
          arguments, environment);
  constexpr std::uint64_t fewest_rows = 2;  // one row has no time between rows
  if (log.reader.rows() < fewest_rows) return exit_undecided;
  if (cycles::asks_for_a_test(verdicts)) return exit_out_of_limits;
  const bool all_is_judged = typed.not_judged.empty() && !cycles::leaves_a_question(log.analysis, verdicts);
  return all_is_judged ? exit_done : exit_undecided;
}

void refuse_one_log_twice(const std::string& before, const std::string& after) {
  std::error_code error;
  if (before == after || std::filesystem::equivalent(before, after, error))
    throw InputError("--before and --after name one log, " + ohmwright::quoted(before) +
                     "; a comparison needs one from before the repair and one from after it");
}

int run_comparison(const Arguments& arguments, Environment& environment) {
  const std::string before = arguments.value("--before");
  const std::string after = arguments.value("--after");
  if (!arguments.operands.empty())
    throw InputError("--before and --after name both logs; leave out " + ohmwright::quoted(arguments.operands[0]));
  refuse_one_log_twice(before, after);
  const TypedLogRatings typed = typed_log_ratings(arguments, environment);
  const cycles::LogReadingSettings settings = typed_reading_settings(arguments);
  const ReadLog was = read_log(before, settings, typed.ratings);
  const ReadLog is = read_log(after, settings, typed.ratings);
  const cycles::RepairComparison comparison = cycles::compare_repair(was.analysis, is.analysis, typed.ratings);
  tell_not_judged(typed, environment);
  const RepairReport report{was.reader, is.reader, was.analysis, is.analysis, comparison};
  const std::string format = arguments.value("--format", "text");
  const Sentences say{UnitPreferences{}};
  deliver(format == "json"   ? repair_json(report, say)
          : format == "html" ? repair_html(report, say)
                             : repair_page(report, say, environment.page),
          arguments, environment);
  const int code = exit_code(comparison.outcome);
  return code == exit_done && !typed.not_judged.empty() ? exit_undecided : code;
}

int run_log(const Arguments& arguments, Environment& environment) {
  if (arguments.has("--before") && arguments.has("--after")) return run_comparison(arguments, environment);
  for (const auto& [given, missing] : {std::pair{"--before", "--after"}, std::pair{"--after", "--before"}})
    if (arguments.has(given))
      throw InputError(std::string(given) + " needs " + missing +
                       " beside it: the log of the other side of the repair");
  if (arguments.operands.empty())
    throw InputError("missing: FILE, or --before FILE --after FILE; see: ohmwright log --help");
  if (arguments.operands[0] == "simulate") return simulate_log(arguments, environment);
  std::error_code unseen;  // what cannot be looked at is told by whoever opens it
  if (arguments.has("--shard") || std::filesystem::is_directory(arguments.operands[0], unseen))
    return run_log_folder(arguments, environment);
  if (arguments.operands.size() > 1)
    throw InputError("one word too many: " + ohmwright::quoted(arguments.operands[1]) + "; see: ohmwright log --help");
  for (const char* of_simulation : {"--fault", "--seed", "--days"})
    if (arguments.has(of_simulation))
      throw InputError(std::string(of_simulation) + " belongs to: ohmwright log simulate APPLIANCE");
  return run_one_log(arguments, environment);
}

}  // namespace

VerbSpec log_verb() {
  return {
      .name = "log",
      .summary = OHMWRIGHT_TEXT("Cooling cycles and defrosts in a logger's table, and what they ask for"),
      .example = "ohmwright log freezer.csv --column coil_temperature=T2:degC --ends-at 10C",
      .operands = {{"FILE",
                    OHMWRIGHT_TEXT(
                        "A table of a temperature logger, a power meter or a clamp: CSV of any form, gzip too; "
                        "- for standard input; a folder: one line of JSON for each log in it"),
                    false, false},
                   {"APPLIANCE",
                    OHMWRIGHT_TEXT("After the word simulate in place of a file: the appliance whose log is made up, as "
                                   "CSV, for lessons and tests"),
                    false, false}},
      .options =
          {
              {"--column",
               "QUANTITY=COLUMN[:UNIT]",
               OHMWRIGHT_TEXT("What a column is: coil_temperature, cabinet_temperature, power, current or time"),
               {},
               true},
              {"--columns", "FILE", OHMWRIGHT_TEXT("A file of such words, one a line: for all logs of one logger"), {}},
              {"--every",
               "TIME",
               OHMWRIGHT_TEXT(
                   "Interval of the rows, where the log has no time of its own; with simulate, of those it makes"),
               {}},
              {"--line",
               "VOLTS",
               OHMWRIGHT_TEXT("Line voltage: makes watts of amperes, and says what the heater should draw"),
               {}},
              {"--appliance",
               "NAME|FILE",
               OHMWRIGHT_TEXT("The appliance: its heater, its control and what ends its defrosts are judged"),
               {}},
              {"--ratings",
               "KIND=NAME|FILE",
               OHMWRIGHT_TEXT("Ratings of a part: heater=heater-450w-120v; may be given again"),
               {},
               true},
              {"--ends-at", "TEMPERATURE", OHMWRIGHT_TEXT("Coil temperature at which a defrost should end"), {}},
              {"--time-limit", "TIME", OHMWRIGHT_TEXT("Time at which the control ends a defrost"), {}},
              {"--fault",
               "PART.FAULT|EFFECT",
               OHMWRIGHT_TEXT("With simulate: what is wrong with it (an unknown one lists those that a log shows)"),
               {}},
              {"--seed", "N", OHMWRIGHT_TEXT("With simulate: the same number makes the same log (default 1)"), {}},
              {"--days", "N", OHMWRIGHT_TEXT("With simulate: length of the log (default 4)"), {}},
              {"--before", "FILE", OHMWRIGHT_TEXT("A log from before a repair, compared with that of --after"), {}},
              {"--after", "FILE", OHMWRIGHT_TEXT("A log from after it"), {}},
              {"--shard", "I/N", OHMWRIGHT_TEXT("Of a folder: only the I-th of N parts of its logs"), {}},
              {"--format", "FORMAT", OHMWRIGHT_TEXT("text (default), json or html"), {"text", "json", "html"}},
              {"--out", "FILE", OHMWRIGHT_TEXT("Write there instead of the terminal"), {}},
          },
      .circumstances = {},
      .takes_conditions = false,
      .run = run_log,
  };
}

}  // namespace ohmwright::cli
