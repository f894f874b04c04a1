#include "log/files.hpp"

#include <algorithm>
#include <string_view>
#include <utility>

#include <ohmwright/cycles/reading/byte_source.hpp>
#include <ohmwright/document/byte_order_mark.hpp>
#include <ohmwright/document/source_text.hpp>
#include <ohmwright/quantity/blanks.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/quantity/stated_value.hpp>
#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/sentences.hpp>

#include "appliance/files.hpp"
#include "appliance/log_ratings.hpp"
#include "kind_files.hpp"

namespace ohmwright::cli {

namespace {

/// `QUANTITY=COLUMN[:UNIT]`.
cycles::ColumnChoice typed_column(const std::string& word, const std::string& where) {
  const std::size_t equals = word.find('=');
  if (equals == std::string::npos || equals == 0 || equals + 1 == word.size())
    throw InputError(where + " takes QUANTITY=COLUMN or QUANTITY=COLUMN:UNIT, such as coil_temperature=T2:degC, got " +
                     ohmwright::quoted(word));
  cycles::ColumnChoice choice{word.substr(0, equals), word.substr(equals + 1), {}};
  if (const std::size_t colon = choice.column.rfind(':'); colon != std::string::npos) {
    choice.unit = choice.column.substr(colon + 1);
    choice.column.erase(colon);
  }
  return choice;
}

/// The lines of a mapping file, each as `--column` takes it; blank ones and those that begin with # say nothing.
void read_columns(const std::string& path, std::vector<cycles::ColumnChoice>& columns) {
  constexpr std::size_t longest_mapping = 65536;
  const std::string text = read_source(path, longest_mapping);
  std::string_view rest = text;
  if (rest.starts_with(byte_order_mark)) rest.remove_prefix(byte_order_mark.size());
  for (std::size_t line = 1; !rest.empty(); ++line) {
    const std::size_t end = std::min(rest.find('\n'), rest.size());
    std::string_view word = rest.substr(0, end);
    if (word.ends_with('\r')) word.remove_suffix(1);
    word = without_blanks_around(word);
    rest.remove_prefix(std::min(end + 1, rest.size()));
    if (word.empty() || word.starts_with('#')) continue;
    columns.push_back(typed_column(std::string(word), path + ":" + std::to_string(line)));
  }
}

std::optional<double> typed_option(const Arguments& arguments, std::string_view option, Dimension dimension) {
  if (!arguments.has(option)) return std::nullopt;
  return parse_stated_value(arguments.value(option), dimension).value.value_in_si();
}

/// `KIND=NAME|FILE`: over what an appliance said of such a part.
void take_ratings(const std::string& word, const Environment& environment, cycles::LogRatings& ratings) {
  const std::size_t equals = word.find('=');
  if (equals == std::string::npos || equals == 0 || equals + 1 == word.size())
    throw InputError("--ratings takes KIND=NAME or KIND=FILE, such as heater=heater-450w-120v, got " +
                     ohmwright::quoted(word));
  const LoadedKind& kind = open_kind(environment, word.substr(0, equals));
  const RatedPart rated = rated_part(kind, word.substr(equals + 1));
  cycles::LogRatings of_part;
  add_log_ratings(kind.descriptor(), *rated.part, ratings.line_volt.value_or(0.0), of_part);
  if (of_part.heater_watt) {
    ratings.heater_watt = of_part.heater_watt;
    ratings.heater_volt = of_part.heater_volt;
  }
  if (of_part.end_temperature_kelvin) {
    ratings.end_temperature_kelvin = of_part.end_temperature_kelvin;
    ratings.end_temperature_tolerance_kelvin = of_part.end_temperature_tolerance_kelvin;
  }
  if (of_part.interval_most_second) {
    ratings.interval_least_second = of_part.interval_least_second;
    ratings.interval_most_second = of_part.interval_most_second;
    ratings.interval_counts_running = of_part.interval_counts_running;
  }
  if (of_part.time_limit_second) {
    ratings.time_limit_second = of_part.time_limit_second;
    ratings.time_limit_least_second = of_part.time_limit_least_second;
  }
}

}  // namespace

cycles::LogReadingSettings typed_reading_settings(const Arguments& arguments) {
  cycles::LogReadingSettings settings;
  const auto columns = arguments.options.find("--column");
  if (columns != arguments.options.end())
    for (const std::string& word : columns->second) settings.columns.push_back(typed_column(word, "--column"));
  if (arguments.has("--columns")) read_columns(arguments.value("--columns"), settings.columns);
  settings.row_interval_second = typed_option(arguments, "--every", Dimension::duration);
  if (settings.row_interval_second && !(*settings.row_interval_second > 0.0))
    throw InputError("--every takes a time above 0, such as 60s, got " + ohmwright::quoted(arguments.value("--every")));
  return settings;
}

TypedLogRatings typed_log_ratings(const Arguments& arguments, const Environment& environment) {
  const Sentences say{UnitPreferences{}};
  TypedLogRatings typed;
  const auto look_at = [&](const LoadedKind& kind) {
    for (const std::string_view lacking : what_logs_cannot_ask(kind.descriptor()))
      typed.not_judged.push_back(say(lacking, {{"kind", std::string(kind.descriptor().id)}}));
  };
  const auto parts = arguments.options.find("--ratings");
  if (parts != arguments.options.end())
    for (const std::string& word : parts->second) look_at(open_kind(environment, word.substr(0, word.find('='))));
  cycles::LogRatings of_appliance;
  if (arguments.has("--appliance")) {
    const Appliance appliance = open_appliance(environment, arguments.value("--appliance"));
    for (const PlacedPart& placed : appliance.parts) look_at(*placed.kind);
    of_appliance = log_ratings_of(appliance);
  }
  typed.ratings = log_ratings_over(std::move(of_appliance), arguments, environment);
  return typed;
}

void tell_not_judged(const TypedLogRatings& typed, const Environment& environment) {
  for (const std::string& sentence : typed.not_judged) environment.err << paragraph(sentence, environment.page.width);
}

cycles::LogRatings log_ratings_over(cycles::LogRatings ratings, const Arguments& arguments,
                                    const Environment& environment) {
  if (arguments.has("--line")) {
    // Read at the outlet with a hand-held meter, where nothing else is stated (common practice, no source).
    constexpr double usual_half_width_volt = 2.0;
    const StatedValue line = parse_stated_value(arguments.value("--line"), Dimension::voltage);
    ratings.line_volt = line.value.value_in_si();
    ratings.line_half_width_volt = line.half_width.value_or(usual_half_width_volt);
  }
  const auto parts = arguments.options.find("--ratings");
  if (parts != arguments.options.end())
    for (const std::string& word : parts->second) take_ratings(word, environment, ratings);
  if (const auto ends_at = typed_option(arguments, "--ends-at", Dimension::temperature))
    ratings.end_temperature_kelvin = ends_at;
  if (const auto limit = typed_option(arguments, "--time-limit", Dimension::duration)) {
    ratings.time_limit_second = limit;
    ratings.time_limit_least_second = limit;
  }
  return ratings;
}

ReadLog read_log(const std::string& path, const cycles::LogReadingSettings& settings,
                 const cycles::LogRatings& ratings) {
  cycles::LogReader reader(cycles::open_log(path), settings);
  cycles::LogAnalyser analyser(ratings);
  for (auto rows = reader.next(); !rows.empty(); rows = reader.next()) analyser.take(rows);
  cycles::LogAnalysis analysis = analyser.finish(reader);
  return {std::move(reader), std::move(analysis)};
}

}  // namespace ohmwright::cli
