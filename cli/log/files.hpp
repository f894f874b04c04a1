#pragma once

#include <string>

#include <ohmwright/cycles/log_analysis.hpp>
#include <ohmwright/cycles/reading/log_reader.hpp>

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// How the options say that a log is to be read: `--column`, `--every`. Throws InputError for words that say nothing.
cycles::LogReadingSettings typed_reading_settings(const Arguments& arguments);

/// What the options say of the appliance: `--ratings`, `--appliance`, and over them `--line`, `--ends-at`,
/// `--time-limit`. Throws InputError for words that say nothing, and as ratings and appliances do.
cycles::LogRatings typed_log_ratings(const Arguments& arguments, const Environment& environment);

/// Tells beside the answer which parts that `--ratings` and `--appliance` name cannot be judged by any log, since their
/// kinds lack what logs ask for; whether there is one.
bool tell_what_logs_cannot_ask(const Arguments& arguments, const Environment& environment);

/// As `typed_log_ratings`, over what is known of the appliance already.
cycles::LogRatings log_ratings_over(cycles::LogRatings ratings, const Arguments& arguments,
                                    const Environment& environment);

/// A log that was read to its end.
struct ReadLog {
  cycles::LogReader reader;
  cycles::LogAnalysis analysis;
};

/// Reads a whole log, "-" from standard input. Throws as `LogReader` does.
ReadLog read_log(const std::string& path, const cycles::LogReadingSettings& settings,
                 const cycles::LogRatings& ratings);

}  // namespace ohmwright::cli
