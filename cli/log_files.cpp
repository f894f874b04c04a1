#include "log_files.hpp"

#include <utility>

#include <ohmwright/cycles/reading/byte_source.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/quantity/stated_value.hpp>

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

std::optional<double> typed_option(const Arguments& arguments, std::string_view option, Dimension dimension) {
  if (!arguments.has(option)) return std::nullopt;
  return parse_stated_value(arguments.value(option), dimension).value.value_in_si();
}

}  // namespace

cycles::LogReadingSettings typed_reading_settings(const Arguments& arguments) {
  cycles::LogReadingSettings settings;
  const auto columns = arguments.options.find("--column");
  if (columns != arguments.options.end())
    for (const std::string& word : columns->second) settings.columns.push_back(typed_column(word));
  settings.row_interval_second = typed_option(arguments, "--every", Dimension::duration);
  if (settings.row_interval_second && !(*settings.row_interval_second > 0.0))
    throw InputError("--every takes a time above 0, such as 60s, got " + ohmwright::quoted(arguments.value("--every")));
  return settings;
}

cycles::LogRatings typed_log_ratings(const Arguments& arguments) {
  cycles::LogRatings ratings;
  ratings.line_volt = typed_option(arguments, "--line", Dimension::voltage);
  ratings.end_temperature_kelvin = typed_option(arguments, "--ends-at", Dimension::temperature);
  ratings.time_limit_second = typed_option(arguments, "--time-limit", Dimension::duration);
  return ratings;
}

ReadLog read_log(const std::string& path, const cycles::LogReadingSettings& settings,
                 const cycles::LogRatings& ratings) {
  cycles::LogReader reader(cycles::open_log(path), settings);
  cycles::LogAnalyser analyser(ratings);
  for (auto rows = reader.next(); !rows.empty(); rows = reader.next()) analyser.take(rows);
  cycles::LogAnalysis analysis = analyser.finish();
  return {std::move(reader), std::move(analysis)};
}

}  // namespace ohmwright::cli
