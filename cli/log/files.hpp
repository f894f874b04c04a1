#pragma once

#include <string>
#include <vector>

#include <ohmwright/cycles/log_analysis.hpp>
#include <ohmwright/cycles/reading/log_reader.hpp>

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// How the options say that a log is to be read: `--column`, `--every`. Throws InputError for words that say nothing.
cycles::LogReadingSettings typed_reading_settings(const Arguments& arguments);

/// What the options say of the appliance.
struct TypedLogRatings {
  cycles::LogRatings ratings;
  std::vector<std::string> not_judged;  ///< why parts that they name cannot be judged by any log, a sentence each
};

/// `--ratings`, `--appliance`, and over them `--line`, `--ends-at`, `--time-limit`. Throws InputError for words that
/// say nothing, and as ratings and appliances do.
TypedLogRatings typed_log_ratings(const Arguments& arguments, const Environment& environment);

/// Tells beside the answer what is not judged.
void tell_not_judged(const TypedLogRatings& typed, const Environment& environment);

/// The figures of `typed_log_ratings`, over what is known of the appliance already.
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
