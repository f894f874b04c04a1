#include <ohmwright/cycles/log_analysis.hpp>
#include <ohmwright/cycles/reading/byte_source.hpp>
#include <ohmwright/cycles/reading/log_reader.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/quantity/stated_value.hpp>
#include <ohmwright/report/log_report.hpp>

#include "exit_codes.hpp"
#include "output.hpp"
#include "verbs.hpp"

namespace ohmwright::cli {

namespace {

/// `QUANTITY=COLUMN[:UNIT]`.
cycles::ColumnChoice typed_column(const std::string& word) {
  const std::size_t equals = word.find('=');
  if (equals == std::string::npos || equals == 0 || equals + 1 == word.size())
    throw InputError("--column takes QUANTITY=COLUMN or QUANTITY=COLUMN:UNIT, such as coil_temperature=T2:degC, got " +
                     ohmwright::quoted(word));
  cycles::ColumnChoice choice{word.substr(0, equals), word.substr(equals + 1), {}};
  if (const std::size_t colon = choice.column.rfind(':'); colon != std::string::npos) {
    choice.unit = choice.column.substr(colon + 1);
    choice.column.erase(colon);
  }
  return choice;
}

std::optional<double> typed(const Arguments& arguments, std::string_view option, Dimension dimension) {
  if (!arguments.has(option)) return std::nullopt;
  return parse_stated_value(arguments.value(option), dimension).value.value_in_si();
}

cycles::LogReadingSettings reading_settings(const Arguments& arguments) {
  cycles::LogReadingSettings settings;
  const auto columns = arguments.options.find("--column");
  if (columns != arguments.options.end())
    for (const std::string& word : columns->second) settings.columns.push_back(typed_column(word));
  settings.row_interval_second = typed(arguments, "--every", Dimension::duration);
  if (settings.row_interval_second && !(*settings.row_interval_second > 0.0))
    throw InputError("--every takes a time above 0, such as 60s, got " + ohmwright::quoted(arguments.value("--every")));
  return settings;
}

int run_log(const Arguments& arguments, Environment& environment) {
  cycles::LogRatings ratings;
  ratings.line_volt = typed(arguments, "--line", Dimension::voltage);
  ratings.end_temperature_kelvin = typed(arguments, "--ends-at", Dimension::temperature);
  ratings.time_limit_second = typed(arguments, "--time-limit", Dimension::duration);
  cycles::LogReader reader(cycles::open_log(arguments.operands[0]), reading_settings(arguments));
  cycles::LogAnalyser analyser(ratings);
  for (auto rows = reader.next(); !rows.empty(); rows = reader.next()) analyser.take(rows);
  const cycles::LogAnalysis analysis = analyser.finish();
  const LogReport report{reader, analysis};
  const bool json = arguments.value("--format", "text") == "json";
  const Sentences say{UnitPreferences{}};
  deliver(json ? log_json(report) : log_page(report, say, environment.page), arguments, environment);
  if (reader.rows() == 0) return exit_undecided;
  return log_asks_for_a_test(analysis) ? exit_out_of_limits : exit_done;
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
                        "- for standard input"),
                    true, false}},
      .options =
          {
              {"--column",
               "QUANTITY=COLUMN[:UNIT]",
               OHMWRIGHT_TEXT("What a column is: coil_temperature, cabinet_temperature, power, current or time"),
               {},
               true},
              {"--every", "TIME", OHMWRIGHT_TEXT("Interval of the rows, where the log has no time of its own"), {}},
              {"--line", "VOLTS", OHMWRIGHT_TEXT("Line voltage: turns a current into a power"), {}},
              {"--ends-at", "TEMPERATURE", OHMWRIGHT_TEXT("Coil temperature at which a defrost should end"), {}},
              {"--time-limit", "TIME", OHMWRIGHT_TEXT("Time at which the control ends a defrost"), {}},
              {"--format", "FORMAT", OHMWRIGHT_TEXT("text (default) or json"), {"text", "json"}},
              {"--out", "FILE", OHMWRIGHT_TEXT("Write there instead of the terminal"), {}},
          },
      .circumstances = {},
      .takes_conditions = false,
      .run = run_log,
  };
}

}  // namespace ohmwright::cli
